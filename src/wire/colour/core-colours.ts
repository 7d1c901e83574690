import { colourWordAt, isLetter, type WordChoices } from "./colour-word.ts";
import { combined, inGerman, type ColourChoice } from "./read-colour.ts";

/** Colours of the cores of a cable, one after the other. */
export interface CoreColoursAt {
  /** First character after them. */
  readonly to: number;
  /** For each core one choice where its letters are clear, several where dialects differ. */
  readonly cores: readonly (readonly ColourChoice[])[];
}

/** What stands between two colour words: a list goes on, a stroke or a hyphen may be either, `with` belongs to one core. */
type Gap = "list" | "stroke" | "hyphen" | "with";

interface Element {
  readonly choices: WordChoices;
  /** What stands before it; null for the first. */
  readonly gap: Gap | null;
  readonly to: number;
}

const gaps = /^(?:( ?[,+&;] ?(?:and )?| and )|( ?\/ ?)|( ?[-–] ?)|( (?:with|w\/) ?(?:an? )?)|( ))/i;

/** A cable of more cores is numbered, not coloured. */
const mostCores = 12;

function elementsAt(text: string, from: number): readonly Element[] {
  const elements: Element[] = [];
  let at = from;
  let gap: Gap | null = null;
  while (elements.length < mostCores) {
    const word = colourWordAt(text, at);
    if (word === null) break;
    elements.push({ choices: word.choices, gap, to: word.to });
    const between = gaps.exec(text.slice(word.to, word.to + 12));
    if (between === null) break;
    const [all, list, stroke, hyphen, tracer] = between;
    gap =
      list !== undefined
        ? "list"
        : stroke !== undefined
          ? "stroke"
          : hyphen !== undefined
            ? "hyphen"
            : tracer !== undefined
              ? "with"
              : "list";
    at = word.to + all.length;
  }
  return elements;
}

/** Where one word has letters of the German list alone, all are read by that list. */
function inOneDialect(elements: readonly Element[]): readonly Element[] {
  if (!elements.some(({ choices }) => choices.some(({ german }) => german === true))) return elements;
  return elements.map((element) => ({ ...element, choices: inGerman(element.choices) }));
}

/** Cores, each of some elements, when the given gaps hold words of one core together. */
function grouped(elements: readonly Element[], together: ReadonlySet<Gap>): Element[][] {
  const cores: Element[][] = [];
  for (const element of elements) {
    const last = cores.at(-1);
    if (last !== undefined && element.gap !== null && together.has(element.gap)) last.push(element);
    else cores.push([element]);
  }
  return cores;
}

const isOne = (element: Element | undefined, letters: string) =>
  element?.choices.length === 1 && element.choices[0]?.letters.join() === letters;

/** Green and yellow that stand next to each other as one core. */
function withEarth(cores: readonly Element[][]): Element[][] {
  const merged: Element[][] = [];
  for (const core of cores) {
    const before = merged.at(-1);
    const pair = core.length === 1 && before?.length === 1 && core[0]?.gap !== "list" ? [before[0], core[0]] : [];
    if ((isOne(pair[0], "GN") && isOne(pair[1], "YE")) || (isOne(pair[0], "YE") && isOne(pair[1], "GN")))
      before?.push(...core);
    else merged.push([...core]);
  }
  return merged;
}

/**
 * The colours at a place of a text as those of the cores of one cable: `red/yellow` are two cores, `brown/blue/green-yellow` three.
 *
 * A stroke parts cores unless a comma, a plus or a space does; a hyphen and `with` hold base and tracer together. Green and yellow side by side are
 * one core where that gives the number of cores.
 *
 * @param count number of insulated cores; null where it is not known
 * @returns null where no colour begins, and where the colours cannot be those of so many cores
 * @example
 * coreColoursAt("red/yellow", 0, 2)?.cores.map(([c]) => c.name) //=> ["red", "yellow"]
 * coreColoursAt("brown/blue/green/yellow", 0, 3)?.cores.map(([c]) => c.name) //=> ["brown", "blue", "green-yellow"]
 * coreColoursAt("red", 0, 2) //=> null
 */
export function coreColoursAt(text: string, from: number, count: number | null): CoreColoursAt | null {
  if (from > 0 && isLetter(text.charCodeAt(from - 1))) return null;
  const elements = inOneDialect(elementsAt(text, from));
  const last = elements.at(-1);
  if (last === undefined) return null;
  const hasList = elements.some(({ gap }) => gap === "list");
  const hasStroke = elements.some(({ gap }) => gap === "stroke");
  const tight = grouped(elements, new Set<Gap>(["with", "hyphen", ...(hasList ? (["stroke"] as const) : [])]));
  const loose = grouped(elements, new Set<Gap>(["with"]));
  const oneCore = grouped(elements, new Set<Gap>(["with", "hyphen", "stroke"]));
  const tries = [tight, withEarth(tight), loose, withEarth(loose), oneCore];
  const fits = count === null ? (hasList || hasStroke ? tight : loose) : tries.find((cores) => cores.length === count);
  if (fits === undefined) return null;
  const cores = fits.map((core) =>
    combined(
      core.map(({ choices }) => choices),
      core.some(({ gap }) => gap === "with"),
    ),
  );
  return cores.some((choices) => choices.length === 0) ? null : { to: last.to, cores };
}
