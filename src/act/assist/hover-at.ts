import type { Span } from "../../diagnostic.ts";
import { docText, kindOf, rulesAt, sectionHelp, writingPlaceAt, type WritingPlace } from "../../plan/assist/index.ts";
import { foldName } from "../../plan/index.ts";
import type { Dimension } from "../../quantity/index.ts";
import { printFigure, type Finding } from "../../rules/index.ts";
import { readLabel } from "../../wire/label/read-label.ts";
import { aroundOf, type Assisted } from "./around-of.ts";
import { linesOfCircuit, linesOfPart, type Told } from "./came-to.ts";
import { otherSize, otherUnits } from "./other-units.ts";

/** What stands at a place, and what it came to. */
export interface Hover {
  readonly at: Span;
  /** Lines: what it is, what it came to. */
  readonly lines: readonly string[];
  /** What can be asked in Why; null: nothing. */
  readonly subject: string | null;
}

/**
 * What there is to say of an offset of a plan's text: what a key means, what a circuit or part came to and what decided it, a figure in other units, what is assumed
 * of it, what was found there.
 *
 * @param compiled of this text; of an earlier one only what the grammar knows is said
 * @returns null: nothing
 */
export function hoverAt(text: string, offset: number, compiled: Assisted): Hover | null {
  const place = writingPlaceAt(text, offset);
  if (place === null || place.from === place.to) return null;
  const at: Span = [place.from, place.to];
  const current = compiled.plan.text === text ? compiled : null;
  const rules = rulesAt(place, aroundOf(compiled));
  const word = text.slice(...at);
  const told =
    place.writes === "key" ? ofKey(place, word, compiled, current) : ofValue(place, word, offset, compiled, current);
  const found = current === null ? [] : findingsAt(current.judgement.findings, at, place, word);
  const lines = [
    ...told.lines,
    ...(place.writes === "value" && rules.rule !== undefined && told.lines.length === 0
      ? [docText(rules.rule.doc)]
      : []),
    ...found.map(
      (f) =>
        `${f.outcome === "fail" ? "fail" : "cannot tell"}, ${f.severity}: ${f.because}${f.measured !== null && f.limit !== null ? ` (${printFigure(f.measured)}, limit ${printFigure(f.limit)})` : ""}`,
    ),
    ...(current === null ? [] : assumedOf(current, place, word)),
  ];
  if (lines.length === 0) return null;
  const [first] = found;
  return {
    at: told.at ?? at,
    lines,
    subject: told.subject ?? (first === undefined ? null : `${first.rule} ${first.about}`),
  };
}

/** A label in words, in the other size system, with what misleads in it; the ways to read it where there are several. */
function linesOfLabel(word: string, isCable: boolean): readonly string[] {
  const read = readLabel(word);
  if (read.verdict === "rejected") return [];
  if (read.verdict === "ambiguous")
    return [`${word} can be read in ${read.readings.length} ways`, ...read.readings.map((r) => `· ${r.says}`)];
  const [{ says, traps }] = read.readings;
  const other = isCable ? [] : otherSize(word).filter((t) => !says.includes(t));
  return [[says, ...other].join(" · "), ...traps.slice(0, 2)];
}

/** The thing whose name stands here, or whose facts do. */
function thingAt({ path, writes }: WritingPlace, word: string): { section: string; name: string; own: boolean } | null {
  const [section, name] = writes === "key" && path.length === 1 ? [path[0], word] : path;
  if (section === undefined || name === undefined) return null;
  return { section: foldName(section), name, own: writes === "key" && path.length === 1 };
}

function ofKey(place: WritingPlace, word: string, compiled: Assisted, current: Assisted | null): Told {
  if (place.path.length === 0) {
    const section = Object.entries(sectionHelp).find(([name]) => name === foldName(word));
    return { lines: section === undefined ? [] : [`${section[0]}: ${section[1].says}`], subject: null };
  }
  const thing = thingAt(place, word);
  if (thing?.own === true && (thing.section === "circuits" || thing.section === "parts"))
    return ofThing(thing.section, thing.name, compiled, current);
  const { keys } = rulesAt(place, aroundOf(compiled));
  const name = Object.keys(keys ?? {}).find((k) => foldName(k) === foldName(word));
  const rule = name === undefined ? undefined : keys?.[name];
  if (rule !== undefined) {
    const lines = [
      `${name ?? ""}: ${docText(rule.doc)}`,
      `expected ${rule.value.says}${rule.idle === true ? "; read, not used yet" : ""}`,
    ];
    return { lines, subject: current === null ? null : topicOf(place, word) };
  }
  const part = compiled.plan.parts.find((p) => foldName(p.key) === foldName(word));
  return part === undefined ? nothing : ofThing("parts", part.key, compiled, current);
}

const nothing: Told = { lines: [], subject: null };

/** What Why would answer for this key of a circuit. */
function topicOf({ path }: WritingPlace, key: string): string | null {
  const [section, id, ...rest] = path;
  if (section !== "circuits" || id === undefined || rest.length > 0) return null;
  const topic = TOPICS[foldName(key)];
  return topic === undefined ? null : `${id}.${topic}`;
}

const TOPICS: Readonly<Record<string, string | undefined>> = {
  wire: "size",
  length: "length",
  fuse: "device",
  breaker: "device",
  drop: "drop",
  zone: "ampacity",
  zones: "ampacity",
  bundle: "ampacity",
  demand: "current",
};

function ofThing(section: string, name: string, compiled: Assisted, current: Assisted | null): Told {
  const same = (id: string): boolean => foldName(id) === foldName(name);
  if (section === "circuits") {
    const circuit = current?.design.circuits.find((c) => same(c.id));
    return circuit === undefined ? nothing : { lines: linesOfCircuit(circuit), subject: circuit.id };
  }
  const part = compiled.plan.parts.find((p) => same(p.key));
  if (part === undefined) return nothing;
  const kind = kindOf(part.key, {}, aroundOf(compiled));
  const head = `${part.key}: ${kind === undefined ? "a part of no known kind" : kind.says}`;
  if (current === null) return { lines: [head], subject: null };
  const { lines, subject } = linesOfPart(part.key, current.design);
  return { lines: [head, ...lines], subject };
}

function ofValue(
  place: WritingPlace,
  word: string,
  offset: number,
  compiled: Assisted,
  current: Assisted | null,
): Told {
  const { takes, rule } = rulesAt(place, aroundOf(compiled));
  const inner = place.item ? { ...takes, ...takes?.item } : takes;
  const key = place.path.at(-1) ?? "";
  const subject =
    current === null || place.path.length !== 3 ? null : topicOf({ ...place, path: place.path.slice(0, 2) }, key);
  if (inner?.form === "path") return pointOfPath(place, word, offset, compiled, current);
  if (inner?.form === "wire size" || inner?.form === "wire label" || inner?.form === "cable label") {
    const lines = [
      ...linesOfLabel(word, inner.form === "cable label"),
      rule === undefined ? "" : docText(rule.doc),
    ].filter((l) => l !== "");
    return { lines: lines.length < 2 ? [] : lines, subject };
  }
  // What was bought is free text to the grammar, and a label to everybody else.
  if (key === "bought as" && place.path[0] === "circuits") {
    const lines = linesOfLabel(word, false);
    return { lines: lines.length === 0 ? [] : [...lines, rule === undefined ? "" : docText(rule.doc)], subject };
  }
  const dimensions: readonly Dimension[] = inner?.dimensions ?? [];
  if (dimensions.length > 0) {
    const other = otherUnits(word, dimensions, voltsAt(place, compiled));
    const doc = rule === undefined ? [] : [`${key}: ${docText(rule.doc)}`];
    return { lines: [...(other.length === 0 ? [] : [`${word} = ${other.join(" = ")}`]), ...doc], subject };
  }
  const names = inner?.names ?? [];
  if (names.includes("a kind")) {
    const kind = aroundOf(compiled).kinds.find((k) => foldName(k.name) === foldName(word));
    return kind === undefined ? nothing : { lines: [`${kind.name}: ${kind.says}`], subject: null };
  }
  if (names.some((n) => /part|load|battery/.test(n))) return ofThing("parts", word, compiled, current);
  return { lines: [], subject };
}

/** Nominal volts of the supply of the part or circuit, for direct current alone: elsewhere watts are not amps times volts. */
function voltsAt({ path }: WritingPlace, { system }: Assisted): number | null {
  const [section, name] = path;
  if (section !== "parts" || name === undefined) return null;
  const part = system.parts.find((p) => foldName(p.id) === foldName(name));
  const supply = system.supplies.find((s) => s.id === part?.supply);
  return part?.current === "DC" && part.traits.load === true && supply?.current === "DC" ? supply.nominal : null;
}

function pointOfPath(
  place: WritingPlace,
  word: string,
  offset: number,
  compiled: Assisted,
  current: Assisted | null,
): Told {
  let start = 0;
  for (const piece of word.split(/(→|->|=>|⟶| \+ )/)) {
    const end = start + piece.length;
    const at = offset - place.from;
    if (at >= start && at <= end && !/^(?:→|->|=>|⟶| \+ )$/.test(piece)) {
      const point = piece.trim();
      if (point === "") return nothing;
      const from = place.from + start + piece.indexOf(point);
      const span: Span = [from, from + point.length];
      const colon = point.lastIndexOf(":");
      const whole = ofThing("parts", point, compiled, current);
      const told =
        whole.lines.length > 0 || colon < 0 ? whole : ofThing("parts", point.slice(0, colon), compiled, current);
      const around = aroundOf(compiled);
      const part = compiled.plan.parts.find((p) => foldName(p.key) === foldName(point.slice(0, Math.max(colon, 0))));
      const end = part === undefined ? undefined : around.endsOf?.(part).find((e) => e.name === point.slice(colon + 1));
      const stands = end === undefined ? [] : [`${point}: ${end.says}`];
      return { lines: [...told.lines, ...stands], subject: told.subject, at: span };
    }
    start = end;
  }
  return nothing;
}

function findingsAt(findings: readonly Finding[], [from, to]: Span, place: WritingPlace, word: string): Finding[] {
  const thing = thingAt(place, word);
  const about = thing?.own === true ? `${thing.section}.${thing.name}` : null;
  return findings
    .filter((f) => f.waived === null)
    .filter(
      (f) =>
        f.about === about ||
        f.about.replace(/\.(?:from|to)$/, "") === about ||
        f.at.slice(0, 1).some(([s, e]) => s < to && e > from),
    )
    .slice(0, 3);
}

/** Assumptions that were made of the thing whose name stands here, and the keys that would say otherwise. */
function assumedOf({ design }: Assisted, place: WritingPlace, word: string): string[] {
  const thing = thingAt(place, word);
  if (thing === null) return [];
  const named = (about: string): boolean => about === thing.name || about === `${thing.section}.${thing.name}`;
  const key = place.writes === "key" && !thing.own ? foldName(word) : null;
  return design.assumptions
    .filter((a) => (thing.own ? a.about.some(named) : key !== null && foldName(a.pin) === key && a.about.some(named)))
    .slice(0, 3)
    .map((a) => `assumed: ${a.says}${a.pin === "" ? "" : `; \`${a.pin}\` says otherwise`}`);
}
