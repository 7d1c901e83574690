import { printAmount, readQuantity } from "../../quantity/index.ts";
import type { QuestionText } from "../../size/question-text.ts";
import type { LoadSentence } from "../load-sentence.ts";
import { readLoadSentence } from "../read-load-sentence.ts";

const PERCENT = /(?:^|[\s,])(?:drop\s+)?(\d+(?:[.,]\d+)?\s*%)(?:\s+drop)?(?=[\s,]|$)/i;
const DEGREES = /(?:^|[\s,])(?:ambient\s+|at\s+)?(-?\d+(?:[.,]\d+)?\s*°\s*[CF])(?=[\s,]|$)/i;
const ENGINE = /(?:^|[\s,])(?:in (?:the|an) )?engine (?:space|room|bay)(?=[\s,]|$)/i;
const ASKING = /^(?:(?:what|which)\s+)?(?:wire|size|cable)(?:\s+for)?\s+(?=\D*\d)/i;

/**
 * A question of the wire desk in one line, when it has a load and no name.
 *
 * @returns null: it is no such question
 * @example
 * readQuestionSentence("45 W 12 V 3 m, 3 %") //=> { load: "45 W", volts: "12 V", run: "3 m", drop: "3 %" }
 * readQuestionSentence("fridge") //=> null
 */
export function readQuestionSentence(typed: string): QuestionText | null {
  const text = typed.trim().replace(ASKING, "");
  if (!/^(?:about\s+|~\s*)?\d/i.test(text)) return null;
  let rest = text;
  const take = (pattern: RegExp): string | null => {
    const found = pattern.exec(rest);
    if (found === null) return null;
    rest = `${rest.slice(0, found.index)} ${rest.slice(found.index + found[0].length)}`;
    return (found[1] ?? found[0]).trim();
  };
  const drop = take(PERCENT);
  const ambient = take(DEGREES);
  const engineSpace = take(ENGINE) !== null;
  const read = readLoadSentence(`load, ${rest}`);
  if (!read.ok) return null;
  return {
    ...questionOf(read.load),
    ...field("drop", drop),
    ...field("ambient", ambient),
    ...(engineSpace ? { engineSpace } : {}),
  };
}

/** What a sentence of a load asks, without its name. */
export function questionOf(load: LoadSentence): QuestionText {
  return {
    load: load.running ?? "",
    ...field("start", load.starting),
    ...field("startTime", load.startTime),
    ...field("volts", load.volts),
    ...field("run", load.length),
    ...field("leastVolts", load.runsAbove),
    ...field("startsAbove", load.startsAbove),
  };
}

const field = <F extends keyof QuestionText>(name: F, text: string | null): Partial<Record<F, string>> =>
  text === null ? {} : ({ [name]: canonical(text) } as Partial<Record<F, string>>); // the one key is F

function canonical(text: string): string {
  const read = readQuantity(text, ["ratio", "temperature", "current", "power", "voltage", "length", "time"]);
  return read.ok && read.amount.form !== "unknown" ? printAmount(read.amount) : text;
}
