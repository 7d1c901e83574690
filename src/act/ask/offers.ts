import { foldName, shown } from "../../plan/index.ts";
import { readLoadSentence } from "../read-load-sentence.ts";
import type { ActRequest, KeyPath } from "../request.ts";
import type { CompiledPlan } from "../stand.ts";
import type { AskContext, AskOffer } from "./ask-offer.ts";
import { nearest, takeName, type Known, type KnownNames } from "./known-names.ts";

/** What is known while somebody asks. */
export interface Asking {
  readonly names: KnownNames;
  readonly compiled: CompiledPlan;
  readonly context: AskContext;
}

export const goTo = (thing: Known, near: boolean): AskOffer => ({
  kind: "go",
  about: thing.about,
  says: `${near ? "did you mean" : "go to"} ${shown(thing.name)}`,
  more: thing.called === "" ? thing.more : `${thing.called}, ${thing.more}`,
});

export const whyOffer = (thing: Known): AskOffer => ({
  kind: "why",
  about: thing.about,
  says: `why ${shown(thing.name)}`,
  more: thing.more,
});

export const actOffer = (says: string, more: string, request: ActRequest): AskOffer => ({
  kind: "act",
  request,
  says,
  more,
});

export const needs = (says: string, what: string, text: string): AskOffer => ({
  kind: "needs",
  says,
  more: what,
  needs: what,
  text,
});

export const told = (message: string, hint: string): AskOffer => ({
  kind: "told",
  says: message,
  more: hint,
  message,
  hint,
});

/** What a verb is about: the thing that is named, else the one that is selected. */
export interface Object_ {
  readonly thing: Known;
  readonly way: string | null;
  readonly rest: string;
  /** Only nearly named. */
  readonly near: boolean;
}

/**
 * The things that a verb can be about, and what else was said.
 *
 * @param fits which things the verb can do something with
 */
export function objectsOf(
  { names, context }: Asking,
  rest: string,
  fits: (thing: Known) => boolean,
): readonly Object_[] {
  const taken = takeName(names, rest);
  if (taken !== null && fits(taken.thing)) return [{ ...taken, near: false }];
  const selected = names.all.find(({ about }) => about === context.selected);
  const own: readonly Object_[] =
    selected === undefined || !fits(selected) ? [] : [{ thing: selected, way: null, rest, near: false }];
  if (rest === "" || (own.length > 0 && /^[\d"']/.test(rest))) return own;
  // The words that begin like a name, then those that are nearly one.
  const wanted = foldName(rest);
  const begun = names.all.filter((t) => fits(t) && (t.folded.startsWith(wanted) || t.foldedCalled.startsWith(wanted)));
  if (begun.length > 0) return begun.slice(0, 4).map((thing) => ({ thing, way: null, rest: "", near: false }));
  const [first = "", ...others] = rest.split(" ");
  const near = nearest(names, first, 3).filter(fits);
  const whole = others.length === 0 ? [] : nearest(names, rest, 3).filter((t) => fits(t) && !near.includes(t));
  const meant = [
    ...whole.map((thing) => ({ thing, way: null, rest: "", near: true })),
    ...near.map((thing) => ({ thing, way: null, rest: others.join(" "), near: true })),
  ];
  // What was said may be no name at all, but what is to be done with the thing that is selected.
  return meant.length > 0 ? meant : own;
}

const PLACE = /^(.*\S)\s+(?:at|to|on|from|behind)\s+(\S.*)$/i;

/** A load to be added at the place that is said, else where the selection or the plan has room. */
export function addOffers(asking: Asking, said: string, at: KeyPath | null): readonly AskOffer[] {
  const { names, context } = asking;
  const cut = PLACE.exec(said);
  const named = cut === null ? null : takeName(names, cut[2] ?? "");
  const isPlace =
    named !== null && named.rest === "" && (named.thing.section === "parts" || named.thing.section === "circuits");
  const text = isPlace ? (cut?.[1] ?? said) : said;
  const read = readLoadSentence(text);
  const place = isPlace ? `${named.thing.about}${named.way === null ? "" : `:${named.way}`}` : at;
  if (!read.ok) {
    const [problem] = read.problems;
    return [needs("add a load", problem === undefined ? "" : `${problem.message}: ${problem.hint}`, `add ${said}`)];
  }
  const selected = context.selected ?? null;
  const fit =
    names.places.some((p) => p.at === selected || `parts.${p.part}` === selected) ||
    selected?.startsWith("circuits.") === true;
  const firstOf = (is: (way: string | null) => boolean): KeyPath[] =>
    names.places.filter((p) => p.current === "DC" && is(p.way)).slice(0, 1).map((p) => p.at); // prettier-ignore
  const free = [...firstOf((way) => way !== null), ...firstOf((way) => way === null)];
  const places = place !== null ? [place] : [...(fit && selected !== null ? [selected] : []), ...free];
  if (places.length === 0) return [told("the plan has no place for a load", "add a panel, a bar or a battery first")];
  return [...new Set(places)].map((where) =>
    actOffer(
      `add ${shown(read.load.name)} at ${shown(where.replace(/^\w+\./, ""))}`,
      sentenceOf(text, read.load.name),
      { do: "add-load", at: where, text },
    ),
  );
}

/** The figures of a load behind its name. */
const sentenceOf = (text: string, name: string): string => text.replace(name, "").replace(/^[\s,]+/, "");
