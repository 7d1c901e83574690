import type { Span } from "../diagnostic.ts";
import { nearestNames, shown } from "../plan/index.ts";
import { printAmount, readQuantity, type Amount, type Problem } from "../quantity/index.ts";
import { halve } from "./halve.ts";
import { kindOfLoad } from "./kind-of-load.ts";
import type { LoadReading, LoadSentence, SentenceProblem } from "./load-sentence.ts";

/** What a figure is of, by the words before it. */
type Role = "running" | "start" | "runs above" | "starts above" | "start time" | "length" | "volts" | "fuse";

const ROLES: readonly (readonly [RegExp, Role])[] = [
  [/^(?:starts? (?:above|at least|from)|needs .* to start)$/, "starts above"],
  [/^(?:start(?:s|ing|ed|ing current)?|start-up|startup|peak|surge|inrush)(?: (?:at|with|of|current))?$/, "start"],
  [
    /^(?:runs (?:above|at least|from)|least(?: volts)?|at least|min(?:imum)?(?: volts)?|above|down to|needs)$/,
    "runs above",
  ],
  [/^(?:for|start time|lasting)$/, "start time"],
  [/^(?:length|one way|run|cable|distance|far)(?: of)?$/, "length"],
  [/^(?:at|rated at|on|supply)$/, "volts"],
  [/^(?:running|runs|run at|takes|draws|uses|load|power|current|rated)(?: at)?$/, "running"],
];

/** Words that may stand anywhere and say nothing. */
const FILLERS = /^(?:a|an|and|with|of|the|is|long|away|each|to|it|but|about|cable|run|one way|one-way|single|volts)$/;

type Flag = "alwaysOn" | "critical" | "motor" | "continuous" | "intermittent" | "bothWays";
const FLAGS: readonly (readonly [RegExp, Flag])[] = [
  [/^always[ -]on$/, "alwaysOn"],
  [/^critical$/, "critical"],
  [/^(?:dc )?motor$/, "motor"],
  [/^continuous(?:ly)?$/, "continuous"],
  [/^intermittent(?:ly)?$/, "intermittent"],
  [/^(?:there and back|out and back|both ways|loop)$/, "bothWays"],
];

/** For the nearest word to one that was mistyped. */
const WORDS = ["start", "least", "length", "always on", "critical", "motor", "continuous", "intermittent", "there and back", "note", "runs above", "starts above"]; // prettier-ignore

/** `5 ×`, `5x` ahead of a name. */
const TIMES = /^(\d{1,3})\s*(?:×\s*|x\s+)(?=\S)/u;

/** Longer than any sentence of one load. */
const LONGEST = 400;

/** A stretch of the sentence: a figure, or words between figures and commas. */
type Piece =
  | { readonly is: "figure"; readonly at: Span; readonly amount: Amount }
  | { readonly is: "words"; readonly at: Span; readonly text: string }
  | { readonly is: "comma" };

/**
 * Reads a load as a person types it: a name, amps or watts, and in any order what it takes at its start, its least volts, whether it is
 * always on, and the length of its run one way. Every word is understood or told; what follows `note` is kept as it is.
 *
 * @example
 * const read = readLoadSentence("fridge 45 W, start 8 A, 3 m");
 * read.ok && [read.load.name, read.load.running, read.load.starting, read.load.length] //=> ["fridge", "45 W", "8 A", "3 m"]
 * const typo = readLoadSentence("fridge 45 W, strat 8 A");
 * typo.ok ? "" : typo.problems[0].hint //=> "did you mean `start`?"
 */
export function readLoadSentence(text: string): LoadReading {
  if (text.length > LONGEST) {
    return failed(
      [0, text.length],
      `a sentence of ${text.length} characters; at most ${LONGEST} are read`,
      "shorten it",
    );
  }
  const hidden = /[\p{Cc}\p{Cs}\u2028\u2029]/u.exec(text);
  if (hidden !== null)
    return failed([hidden.index, hidden.index + 1], "a sign that does not show stands here", "delete it");
  const noteAt = /(?:^|[\s,;])note:?\s+(.+)$/i.exec(text);
  const body = noteAt === null ? text : text.slice(0, noteAt.index);
  const problems: SentenceProblem[] = [];
  const pieces = cut(body, problems);
  if (problems.length > 0) return { ok: false, problems };
  const made = make(body, pieces, problems);
  if (problems.length > 0) return { ok: false, problems: problems.sort((a, b) => a.at[0] - b.at[0]) };
  return { ok: true, load: { ...made, note: noteAt?.[1]?.trim() ?? null } };
}

const failed = (at: Span, message: string, hint: string): LoadReading => ({
  ok: false,
  problems: [{ at, message, hint }],
});

const DIMENSIONS = ["current", "power", "voltage", "length", "time"] as const;
const FIGURE_START = /^(?:about\s+|~\s*|≈\s*)?\d/i;

/** Takes the sentence apart; a number that cannot be read is a problem. */
function cut(text: string, problems: SentenceProblem[]): Piece[] {
  const pieces: Piece[] = [];
  let words = -1;
  const endWords = (to: number): void => {
    if (words < 0) return;
    const raw = text.slice(words, to);
    const start = words + raw.length - raw.trimStart().length;
    if (raw.trim() !== "") pieces.push({ is: "words", at: [start, start + raw.trim().length], text: raw.trim() });
    words = -1;
  };
  for (let i = 0; i < text.length;) {
    const before = text[i - 1] ?? " ";
    if (/[,;]/.test(text[i] ?? "")) {
      endWords(i);
      pieces.push({ is: "comma" });
      i++;
      continue;
    }
    if (/[\s,;]/.test(before) && FIGURE_START.test(text.slice(i, i + 20))) {
      const times = TIMES.exec(text.slice(i));
      const read = times === null ? readQuantity(text.slice(i), DIMENSIONS, { rest: true }) : null;
      if (read?.ok === true) {
        endWords(i);
        const end = i + read.end;
        if (read.amount.form === "unknown") break;
        pieces.push({ is: "figure", at: [i, end], amount: read.amount });
        i = Math.max(end, i + 1);
        continue;
      }
      const [problem] = times === null ? (read?.problems ?? []) : [];
      const noUnit = problem?.id === "unit-missing" || problem?.id === "unit-unknown";
      // Ahead of every figure it is a number in the name: `cabin light 2`.
      const inName = noUnit || problem?.id === "two-numbers" || problem?.id === "fraction-ambiguous";
      if (problem !== undefined && !(inName && !pieces.some(({ is }) => is === "figure"))) {
        problems.push(noUnit ? withoutUnit(text, i) : at(problem, i));
        return pieces;
      }
    }
    if (words < 0) words = i;
    i++;
  }
  endWords(text.length);
  return pieces;
}

const at = ({ at: [start, end], message, hint }: Problem, from: number): SentenceProblem => ({
  at: [from + start, from + end],
  message,
  hint: hint ?? "write the figure with its unit",
});

function withoutUnit(text: string, from: number): SentenceProblem {
  const [found = "", figures = ""] = /^(\d[\d.]*)\s*[^\s,;]*/.exec(text.slice(from)) ?? [];
  const written = shown(found.trim());
  const hint = `write \`${figures} A\`, \`${figures} W\`, \`${figures} m\` or \`${figures} ft\``;
  return { at: [from, from + found.length], message: `\`${written}\` has no unit that is known here`, hint };
}

interface Found {
  name: Span | null;
  figures: Map<Role, { text: string; at: Span; amount: Amount }>;
  flags: Set<Flag>;
  count: number | null;
  remarks: string[];
}

function make(text: string, pieces: readonly Piece[], problems: SentenceProblem[]): Omit<LoadSentence, "note"> {
  const found: Found = { name: null, figures: new Map(), flags: new Set(), count: null, remarks: [] };
  let role: Role | null = null;
  let named = false;
  pieces.forEach((piece, i) => {
    if (piece.is === "comma") {
      role = null;
    } else if (piece.is === "words") {
      const first = !named;
      named = true;
      role = first ? takeName(text, piece, found) : takeWords(text, piece, found, problems);
    } else {
      const before = pieces[i - 1];
      const after = pieces[i + 1];
      const said = role ?? (after?.is === "words" && before?.is !== "words" ? roleBehind(after.text) : null);
      takeFigure(piece, said, found, problems);
      named = true;
      role = null;
    }
  });
  return finish(text, found, problems);
}

/** The words before the first figure: a count, the name, and perhaps a word that says what the figure is of. */
function takeName(text: string, { at }: Extract<Piece, { is: "words" }>, found: Found): Role | null {
  let [start, end] = at;
  const times = TIMES.exec(text.slice(start, end));
  if (times !== null) {
    found.count = Number(times[1]);
    start += times[0].length;
  }
  const tail = /\s+(takes|draws|uses|running|runs|rated|at|with|of|load|always[ -]on)$/i.exec(text.slice(start, end));
  if (tail !== null) {
    end -= tail[0].length;
    if (/^always/i.test(tail[1] ?? "")) found.flags.add("alwaysOn");
  }
  if (end > start) found.name = [start, end];
  return null;
}

/** Words between figures: what the next figure is of, a property, or nothing that is understood. */
function takeWords(
  text: string,
  { at }: Extract<Piece, { is: "words" }>,
  found: Found,
  problems: SentenceProblem[],
): Role | null {
  let role: Role | null = null;
  const words = [...text.slice(...at).matchAll(/\S+/g)].map((m) => ({ text: m[0].toLowerCase(), at: at[0] + m.index }));
  for (let i = 0; i < words.length;) {
    let taken = 0;
    // The longest phrase first.
    for (let n = Math.min(3, words.length - i); n > 0 && taken === 0; n--) {
      const phrase = words.slice(i, i + n).map((w) => w.text).join(" "); // prettier-ignore
      const flag = FLAGS.find(([pattern]) => pattern.test(phrase))?.[1];
      const named = ROLES.find(([pattern]) => pattern.test(phrase))?.[1];
      if (flag !== undefined) found.flags.add(flag);
      else if (named !== undefined) role = named;
      else if (!FILLERS.test(phrase)) continue;
      taken = n;
    }
    const word = words[i];
    if (taken === 0 && word !== undefined) {
      const near = nearestNames(word.text, WORDS, 1)[0];
      problems.push({
        at: [word.at, word.at + word.text.length],
        message: `\`${shown(word.text)}\` was not understood`,
        hint: near === undefined ? "leave it out, or put `note` before it" : `did you mean \`${near}\`?`,
      });
    }
    i += Math.max(taken, 1);
  }
  return role;
}

/** `8 A start`, `3 m one way`: the word stands behind its figure. */
const roleBehind = (words: string): Role | null => {
  const first = words.toLowerCase().split(/\s+/)[0] ?? "";
  return /^(?:start|starting|peak|surge|inrush)$/.test(first) ? "start" : null;
};

function takeFigure(
  { at, amount }: Extract<Piece, { is: "figure" }>,
  said: Role | null,
  found: Found,
  problems: SentenceProblem[],
): void {
  const { dimension } = amount;
  const isLoad = dimension === "current" || dimension === "power";
  const role: Role =
    isLoad ? (said === "start" ? "start" : said === null || said === "running" ? (found.figures.has("running") ? "start" : "running") : "running")
    : dimension === "length" ? "length"
    : dimension === "time" ? "start time"
    : said === "start" || said === "starts above" ? "starts above"
    : said === "runs above" ? "runs above"
    : "volts"; // prettier-ignore
  const written = printAmount(amount);
  const there = found.figures.get(role);
  if (there !== undefined || (isLoad && role === "start" && said === null)) {
    problems.push({
      at,
      message: `\`${written}\` is a second figure of that kind`,
      hint: isLoad ? `say which is the start: \`start ${written}\`` : "leave one of the two out",
    });
    return;
  }
  found.figures.set(role, { text: written, at, amount });
}

function finish(text: string, found: Found, problems: SentenceProblem[]): Omit<LoadSentence, "note"> {
  const { figures, flags } = found;
  const raw =
    found.name === null
      ? ""
      : text
          .slice(...found.name)
          .replace(/\s+/g, " ")
          .trim();
  if (raw === "") {
    problems.push({
      at: [0, Math.min(text.length, 1)],
      message: "the load has no name",
      hint: "begin with one, as in `fridge 45 W, 3 m`",
    });
  }
  if (!figures.has("running")) {
    const bare = /\s(\d[\d.,]*)$/.exec(raw)?.[1];
    problems.push({
      at: found.name ?? [0, text.length],
      message: bare === undefined ? "what it takes is missing" : `\`${bare}\` has no unit`,
      hint:
        bare === undefined
          ? "add amps or watts, as in `45 W` or `4 A`"
          : `write \`${bare} W\`, \`${bare} A\` or \`${bare} m\``,
    });
  }
  const length = figures.get("length");
  let oneWay = length?.text ?? null;
  if (length !== undefined && flags.has("bothWays")) {
    oneWay = halve(length.amount);
    found.remarks.push(`${length.text} there and back is ${oneWay} one way`);
  }
  const kind = kindOfLoad(raw);
  if (kind !== "load") found.remarks.push(`read as a part of kind \`${kind}\`, by its name`);
  return {
    name: raw,
    kind,
    running: figures.get("running")?.text ?? null,
    starting: figures.get("start")?.text ?? null,
    startTime: figures.get("start time")?.text ?? null,
    runsAbove: figures.get("runs above")?.text ?? null,
    startsAbove: figures.get("starts above")?.text ?? null,
    volts: figures.get("volts")?.text ?? null,
    count: found.count,
    alwaysOn: flags.has("alwaysOn"),
    critical: flags.has("critical"),
    motor: flags.has("motor"),
    duty: flags.has("continuous") ? "continuous" : flags.has("intermittent") ? "intermittent" : null,
    length: oneWay,
    remarks: found.remarks,
  };
}
