import type { QuestionField, QuestionText } from "../../size/question-text.ts";
import type { Units } from "../contract.ts";

/** Where the wire lies, in the words of the sentence. */
export const lyings = ["dry, alone", "dry, bundled", "engine space, alone", "engine space, bundled"] as const;
export type Lying = (typeof lyings)[number];

export const ways = ["one way", "there and back"] as const;
export type Way = (typeof ways)[number];

/** The blanks of the sentence as they stand; an empty one is assumed. */
export interface QuestionForm {
  readonly load: string;
  readonly volts: string;
  readonly length: string;
  readonly way: Way;
  readonly lying: Lying;
  readonly bundle: string;
  readonly ambient: string;
  readonly start: string;
  readonly startTime: string;
  readonly startsAbove: string;
  readonly leastVolts: string;
  readonly sourceVolts: string;
  readonly drop: string;
  readonly rules: string;
  readonly insulation: string;
  readonly method: string;
  readonly terminals: string;
  readonly metal: string;
  readonly strands: string;
  readonly stock: string;
  readonly cable: "single wires" | "one sheath";
}

export type Blank = keyof QuestionForm;

/** Blanks that are texts and stand in a question under the same name. */
const plain = [
  "volts",
  "ambient",
  "start",
  "startTime",
  "startsAbove",
  "leastVolts",
  "sourceVolts",
  "drop",
  "rules",
  "insulation",
  "method",
  "terminals",
  "metal",
  "strands",
  "stock",
] as const satisfies readonly (Blank & QuestionField)[];

/**
 * The sentence that a question comes to.
 *
 * @example
 * formOf({ load: "45 W", loop: "6 m" }).way //=> "there and back"
 */
export function formOf(question: QuestionText): QuestionForm {
  const bundled = question.bundle !== undefined;
  const place = question.engineSpace === true ? "engine space" : "dry";
  return {
    load: question.load,
    length: question.run ?? question.loop ?? "",
    way: question.run === undefined && question.loop !== undefined ? "there and back" : "one way",
    lying: `${place}, ${bundled ? "bundled" : "alone"}`,
    bundle: question.bundle ?? "",
    cable: question.sheathed === true ? "one sheath" : "single wires",
    volts: question.volts ?? "",
    ambient: question.ambient ?? "",
    start: question.start ?? "",
    startTime: question.startTime ?? "",
    startsAbove: question.startsAbove ?? "",
    leastVolts: question.leastVolts ?? "",
    sourceVolts: question.sourceVolts ?? "",
    drop: question.drop ?? "",
    rules: question.rules ?? "",
    insulation: question.insulation ?? "",
    method: question.method ?? "",
    terminals: question.terminals ?? "",
    metal: question.metal ?? "",
    strands: question.strands ?? "",
    stock: question.stock ?? "",
  };
}

/**
 * The question that a sentence asks. Blanks that are empty are left out, so that the answer says what was assumed instead.
 *
 * @param units of those who buy by gauge alone the size system is asked for by gauge
 * @example
 * questionOf(formOf({ load: "45 W", run: "3 m" })) //=> { load: "45 W", run: "3 m" }
 */
export function questionOf(form: QuestionForm, units?: Pick<Units, "sizes">): QuestionText {
  const stock = form.stock.trim() === "" && units?.sizes === "AWG" ? "AWG" : form.stock;
  const given = { ...form, stock };
  return {
    load: form.load,
    ...(form.length.trim() === "" ? {} : form.way === "one way" ? { run: form.length } : { loop: form.length }),
    ...(form.lying.startsWith("engine") ? { engineSpace: true } : {}),
    // Bundled with nobody knows how many: the blank asks.
    ...(form.lying.endsWith("bundled") ? { bundle: form.bundle } : {}),
    ...(form.cable === "one sheath" ? { sheathed: true } : {}),
    ...Object.fromEntries(plain.flatMap((field) => (given[field].trim() === "" ? [] : [[field, given[field]]]))),
  };
}

/** The blank that a field of a question is written in. */
export function blankOf(field: QuestionField | ""): Blank | null {
  switch (field) {
    case "":
      return null;
    case "run":
    case "loop":
      return "length";
    case "engineSpace":
      return "lying";
    case "sheathed":
      return "cable";
    default:
      return field;
  }
}

/** Questions to begin with; the first is asked when nobody has asked anything yet. */
export function sampleQuestions({ lengths }: Pick<Units, "lengths">): readonly QuestionText[] {
  const long = (metres: string, feet: string): string => (lengths === "m" ? metres : feet);
  return [
    { load: "45 W", volts: "12 V", run: long("3 m", "10 ft") },
    { load: "52 W", volts: "12 V", run: long("5.2 m", "17 ft"), start: "8 A", startsAbove: "11.5 V" },
    { load: "18 W", volts: "24 V", run: long("9 m", "30 ft"), drop: "3 %" },
    { load: "20 A", volts: "12 V", run: long("4 m", "13 ft"), engineSpace: true, bundle: "4" },
  ];
}

/** What a sentence says beyond load, volts and length; empty: nothing. */
export function restSays(form: QuestionForm): string {
  const says: readonly (readonly [text: string, words: (text: string) => string])[] = [
    [form.lying === "dry, alone" ? "" : form.lying, (t) => `lying ${t}`],
    [form.ambient, (t) => `at ${t}`],
    [form.start, (t) => `starts with ${t}`],
    [form.startsAbove, (t) => `must then keep ${t}`],
    [form.leastVolts, (t) => `runs above ${t}`],
    [form.sourceVolts, (t) => `from ${t}`],
    [form.drop, (t) => `may lose ${t}`],
    [form.rules, (t) => `rules ${t}`],
    [form.insulation, (t) => `insulation ${t}`],
    [form.metal, (t) => t],
    [form.strands, (t) => t],
    [form.cable === "one sheath" ? form.cable : "", () => "in one sheath"],
    [form.stock, (t) => `bought in ${t}`],
  ];
  return says.flatMap(([text, words]) => (text.trim() === "" ? [] : [words(text.trim())])).join(", ");
}
