import type { NewPlanAnswers } from "../../act/index.ts";

/** The questions of a new plan, in the order in which they are asked. */
export const questions = ["what", "there", "battery", "shore", "rules", "load"] as const;
export type QuestionId = (typeof questions)[number];

/** What was answered so far. */
export type Answers = Partial<NewPlanAnswers>;

/** The first question that is still open; null: all are answered or passed over. */
export const nextQuestion = (done: readonly QuestionId[]): QuestionId | null =>
  questions.find((question) => !done.includes(question)) ?? null;

/** A country, and what its people measure with. */
export interface Country {
  /** Two letters. */
  readonly code: string;
  readonly name: string;
}

export const countries: readonly Country[] = [
  ["AU", "Australia"],
  ["AT", "Austria"],
  ["BE", "Belgium"],
  ["CA", "Canada"],
  ["HR", "Croatia"],
  ["DK", "Denmark"],
  ["FI", "Finland"],
  ["FR", "France"],
  ["DE", "Germany"],
  ["GR", "Greece"],
  ["IE", "Ireland"],
  ["IT", "Italy"],
  ["NL", "Netherlands"],
  ["NZ", "New Zealand"],
  ["NO", "Norway"],
  ["PL", "Poland"],
  ["PT", "Portugal"],
  ["ES", "Spain"],
  ["SE", "Sweden"],
  ["CH", "Switzerland"],
  ["TR", "Türkiye"],
  ["GB", "United Kingdom"],
  ["US", "United States"],
].map(([code = "", name = ""]) => ({ code, name }));

/**
 * The country that a browser's language speaks of.
 *
 * @param language `de`, `en-GB`
 * @returns null: the language says none that is listed
 * @example
 * countryOf("en-GB") //=> "GB"
 * countryOf("en") //=> null
 */
export function countryOf(language: string): string | null {
  const code = /[-_]([A-Za-z]{2})\b/.exec(language)?.[1]?.toUpperCase() ?? null;
  return countries.some((country) => country.code === code) ? code : null;
}

const FEET = ["US", "CA"];

/**
 * The rule set for a build in a country.
 *
 * @source common practice: which book a surveyor or inspector opens there
 * @example
 * proposeRules("boat", "DE") //=> "iso-small-craft"
 * proposeRules("van", "US") //=> "us-rv"
 */
export function proposeRules(what: NewPlanAnswers["what"], country: string | null): string {
  const american = country !== null && FEET.includes(country);
  if (what === "boat") return american ? "us-small-craft" : "iso-small-craft";
  if (what === "cabin") return american ? "us-cabin" : "iec-cabin";
  if (american) return "us-rv";
  return country === "AU" || country === "NZ" ? "au-nz-vehicle" : "iec-caravan";
}

/** A battery and a load to begin with, by what is built. */
export const examplesFor = (
  what: NewPlanAnswers["what"] | undefined,
  feet: boolean,
): { readonly battery: string; readonly load: string } => ({
  battery: what === "cabin" ? "LiFePO4 24 V 100 Ah" : "LiFePO4 12 V 200 Ah",
  load: `fridge 45 W, start 8 A, ${feet ? "10 ft" : "3 m"}`,
});

/**
 * The request for a plan out of what was answered; whatever was passed over is left out.
 *
 * @example
 * newPlanOf({ what: "van", battery: "  " }) //=> { do: "new-plan", answers: { what: "van" } }
 */
export function newPlanOf(answers: Answers): { readonly do: "new-plan"; readonly answers: NewPlanAnswers } {
  const said = Object.fromEntries(
    Object.entries(answers).flatMap(([question, answer]) => {
      const text = answer.trim();
      return text === "" ? [] : [[question, text]];
    }),
  );
  return { do: "new-plan", answers: { what: answers.what ?? "boat", ...said } };
}
