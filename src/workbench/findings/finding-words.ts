import { printCitation } from "../../explain/print-citation.ts";
import { isVerified, printTrust } from "../../explain/trust.ts";
import { positionAt } from "../../plan/text/positions.ts";
import { alsoInSays } from "../../rules/also-in.ts";
import type { Finding, JudgementTally } from "../../rules/index.ts";
import type { FindingKey, KeyPath, Units } from "../contract.ts";
import { inSentence, printFigureIn } from "../look/print-in-units.ts";

/** A finding's identity as one text. */
export const keyText = ({ rule, about }: FindingKey): string => `${rule} ${about}`;

export const isOpen = ({ waived }: Finding): boolean => waived === null || waived.lapsed !== null;

/** The thing that a finding is about, without the end of it. */
export const thingOf = (about: string): KeyPath => about.replace(/\.(?:from|to)$/, "");

/** As people call it: `W13`, `end of W13`, `the plan`. */
export function placeName(about: string): string {
  if (about === "plan") return "the plan";
  const name = thingOf(about).replace(/^[a-z]+\./, "");
  return /\.(?:from|to)$/.test(about) ? `${about.endsWith("from") ? "start" : "end"} of ${name}` : name;
}

/** Line of the plan; null: it stands nowhere. */
export const lineOf = (text: string, { at }: Finding): number | null =>
  at[0] === undefined ? null : positionAt(text, at[0][0]).line;

/** A phrase as a sentence of its own. */
export function asSentence(phrase: string, units: Units): string {
  const text = inSentence(phrase.trim(), units);
  if (text === "") return "";
  const first = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.?]$/.test(first) ? first : `${first}.`;
}

/** What is, with its figures, and in which other states. */
export function becauseOf({ because, alsoIn }: Finding, units: Units): string {
  const also = alsoIn.length === 0 ? "" : `; also ${alsoInSays(alsoIn)}`;
  // It begins with a name more often than not, and names keep their letters.
  const text = inSentence(because + also, units).replace(
    /^(?:the|an?|no|it) /,
    (w) => w.charAt(0).toUpperCase() + w.slice(1),
  );
  return /[.?]$/.test(text) ? text : `${text}.`;
}

export interface FigureWords {
  readonly measured: string;
  readonly limit: string;
  /** `over by 132 mm`; empty where it cannot be told. */
  readonly margin: string;
}

/** Measured against limit; null where the finding has no number. */
export function figuresOf({ measured, limit, margin }: Finding, units: Units): FigureWords | null {
  if (measured === null && limit === null) return null;
  const print = (f: typeof measured): string => (f === null ? "not known" : printFigureIn(f, units));
  if (measured === null || limit === null || measured.unit !== limit.unit)
    return { measured: print(measured), limit: print(limit), margin: "" };
  const beyond = measured.value - limit.value;
  const by = printFigureIn({ value: Math.abs(beyond), unit: measured.unit }, units);
  const side = beyond > 0 ? "over" : "short";
  const isFinite = Number.isFinite(beyond) && beyond !== 0 && margin !== null;
  return { measured: print(measured), limit: print(limit), margin: isFinite && margin < 0 ? `${side} by ${by}` : "" };
}

/** Document, clause and how far the number can be leaned on. */
export function clauseText({ clause, trust }: Finding): string {
  const words = isVerified(trust) ? [] : [printTrust(trust)];
  // What is only practised has no document that could be named.
  const cited = clause === null ? [] : [clause.id === "trade-practice" ? clause.clause : printCitation(clause)];
  return [...cited, ...words].join(", ");
}

/** Who answers for it, why and until when. */
export function waiverText({ waived }: Finding): string {
  if (waived === null) return "";
  return [
    waived.reason === "" ? "no reason is given, so it waives nothing" : waived.reason,
    ...(waived.by === null ? [] : [`by ${waived.by}`]),
    ...(waived.date === null ? [] : [`on ${waived.date}`]),
    ...(waived.until === null ? [] : [`until ${waived.until}`]),
    ...(waived.lapsed === "ended" ? ["it has run out"] : []),
    ...(waived.lapsed === "unreadable end" ? ["which is no day, so it does not hold"] : []),
  ].join(", ");
}

/** `2 must and 1 should fail; 3 cannot be told; 1 waived` */
export function countFindings(tally: JudgementTally): string {
  const fails = (["must", "should", "note"] as const).flatMap((s) => (tally[s] > 0 ? [`${tally[s]} ${s}`] : []));
  const last = fails.pop();
  const named = fails.length === 0 ? (last ?? "") : `${fails.join(", ")} and ${last ?? ""}`;
  return [
    last === undefined
      ? "No rule fails"
      : `${named} ${tally.must + tally.should + tally.note === 1 ? "fails" : "fail"}`,
    ...(tally.cannotTell > 0 ? [`${tally.cannotTell} cannot be told`] : []),
    ...(tally.waived > 0 ? [`${tally.waived} waived`] : []),
  ].join("; ");
}

/** `375 pass, 20 of them by less than 5 %; 409 do not apply` */
export const countPasses = ({ pass, thin, notApplicable }: JudgementTally): string =>
  [
    `${pass} pass${thin > 0 ? `, ${thin} of them by less than 5 %` : ""}`,
    ...(notApplicable > 0 ? [`${notApplicable} ${notApplicable === 1 ? "does" : "do"} not apply`] : []),
  ].join("; ");
