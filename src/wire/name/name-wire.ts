import type { LabelContext, WireReading } from "../label/label-reading.ts";
import { readLabel } from "../label/read-label.ts";
import type { WireMake } from "../make/wire-make.ts";
import { compoundNames, isSingle } from "./compound-names.ts";
import { factWords } from "./fact-words.ts";
import { homesOf, strangeTo } from "./homes.ts";
import { contradicts, isKnown, makeFacts, tells, type MakeFact } from "./make-facts.ts";
import { spokenName } from "./spoken-name.ts";
import { trapOf } from "./trap-of.ts";
import {
  contextOf,
  type NameDialect,
  type NameUse,
  type NameWish,
  type NoWireName,
  type WireName,
} from "./wire-name.ts";

/** What a name must say, beside which nothing else may be meant. */
const musts: Readonly<Record<NameUse, readonly MakeFact[]>> = {
  order: ["size", "cores", "runs", "type", "family"],
  drawing: ["size", "cores", "runs", "type", "family"],
  sleeve: ["size", "cores", "runs"],
  spoken: ["size", "cores"],
};

/** What is added, fact by fact, where the name does not say it yet. */
const extras: Readonly<Record<NameUse, readonly MakeFact[]>> = {
  order: makeFacts,
  drawing: ["colours"],
  sleeve: [],
  spoken: [],
};

/**
 * Names a wire or cable in the way of a trade, for an order, a drawing, a sleeve or to be said aloud.
 *
 * Each written name is read back before it is given: it means this make and no other, and what it leaves out is listed. Nothing is converted: where a
 * dialect has no size or cable that is the same, the name keeps the size of the make and the trap tells the neighbours, or there is none, with the
 * reason. Spoken names are for people; the trap says what they leave open.
 *
 * @param make as `readLabel` gives it
 * @param wish whose dialect, and what for
 * @returns a label, or null with the reason
 * @example
 * const { make } = readLabel("H07RN-F 3G2.5").readings[0];
 * nameWire(make, { dialect: "european", use: "sleeve" }).label //=> "3G2.5"
 * nameWire(make, { dialect: "british", use: "spoken" }).label //=> "three-core two and a half flex"
 * nameWire(make, { dialect: "north american", use: "order" }).label //=> null
 */
export function nameWire(make: WireMake, wish: NameWish): WireName | NoWireName {
  const { dialect, use } = wish;
  if (make.size === null) return { label: null, reason: "the size is not known, and every name begins with it" };
  const strange = strangeTo(make, dialect);
  if (strange !== null) return { label: null, reason: turnedDown(make, dialect, strange) };
  if (use === "spoken") return spokenName(make, make.size, dialect);
  const base = plainestName(make, wish);
  if (base === null) return { label: null, reason: notSayable(make, dialect) };
  const { label, reading, context } = withExtras(base, make, wish);
  const known = makeFacts.filter((fact) => isKnown(make, fact));
  const states = known.filter((fact) => tells(reading.make, make, fact));
  return {
    label,
    says: reading.says,
    trap: trapOf(make, make.size, wish) ?? reading.traps[0] ?? null,
    states,
    leavesOut: known.filter((fact) => !states.includes(fact)),
    context,
  };
}

interface Draft {
  readonly label: string;
  readonly reading: WireReading;
  readonly context: LabelContext | null;
}

/** Reads a label back; null: it is not told apart from others, or means another make. */
export function readBack(
  label: string,
  make: WireMake,
  facts: readonly MakeFact[],
  context: LabelContext | null,
): WireReading | null {
  const read = readLabel(label, context === null ? {} : { context });
  if (read.verdict !== "exact") return null;
  const [reading] = read.readings;
  const isSame =
    reading.quantity === null &&
    facts.every((fact) => !isKnown(make, fact) || tells(reading.make, make, fact)) &&
    makeFacts.every((fact) => !contradicts(reading.make, make, fact));
  return isSame ? reading : null;
}

/** The shortest label that says the musts; one that needs no context goes before one that does. */
function plainestName(make: WireMake, { dialect, use }: NameWish): Draft | null {
  const facts = musts[use];
  const names = candidates(make, dialect, use);
  const context = contextOf[dialect];
  for (const place of context === null ? [null] : [null, context]) {
    for (const label of names) {
      const reading = readBack(label, make, facts, place);
      if (reading !== null) return { label, reading, context: place };
    }
    for (const label of names) {
      const draft = withOverrides(label, make, facts, place, dialect);
      if (draft !== null) return draft;
    }
  }
  return null;
}

/** Facts by which a wire may differ from what its type says by itself: `SOOW 90 °C`. */
const overrides = [
  "volts",
  "temperatureC",
  "stranding",
  "plating",
  "metal",
  "form",
] as const satisfies readonly MakeFact[];

/** A label with the facts that its type would make otherwise; null: those are not what keeps it from being right. */
function withOverrides(
  label: string,
  make: WireMake,
  facts: readonly MakeFact[],
  context: LabelContext | null,
  dialect: NameDialect,
): Draft | null {
  const read = readLabel(label, context === null ? {} : { context });
  if (read.verdict !== "exact") return null;
  const [{ make: said }] = read.readings;
  const wrong = overrides.filter((fact) => contradicts(said, make, fact));
  if (wrong.length === 0) return null;
  const more = [label, ...wrong.map((fact) => factWords(make, fact, dialect)[0] ?? "")].join(" ").trim();
  const reading = readBack(more, make, facts, context);
  return reading === null ? null : { label: more, reading, context };
}

function candidates(make: WireMake, dialect: NameDialect, use: NameUse): readonly string[] {
  if (use === "order") {
    const names = compoundNames(make, dialect);
    // An order names the unit, even where no one would take it for another.
    return [...names.filter((name) => / (?:mm²|SQ)/.test(name)), ...names];
  }
  if (use === "drawing") return compoundNames(make, dialect);
  const shorter = [make, { ...make, type: null }, { ...make, type: null, family: null }];
  return shorter.flatMap((one) => compoundNames(one, dialect, true)).sort((a, b) => a.length - b.length);
}

function withExtras(base: Draft, make: WireMake, { dialect, use }: NameWish): Draft {
  let draft = base;
  for (const fact of extras[use]) {
    if (!isKnown(make, fact) || tells(draft.reading.make, make, fact)) continue;
    if (use === "drawing" && fact === "colours" && !isSingle(make)) continue;
    const held = makeFacts.filter((f) => tells(draft.reading.make, make, f));
    for (const words of factWords(make, fact, dialect)) {
      const label = `${draft.label} ${words}`;
      const reading = readBack(label, make, [...held, fact], draft.context);
      if (reading === null || addsUnknown(draft.reading, reading, make)) continue;
      draft = { ...draft, label, reading };
      break;
    }
  }
  return draft;
}

/** Whether words say more than the make knows: `tinned copper` where no metal is told. */
const addsUnknown = (before: WireReading, after: WireReading, make: WireMake): boolean =>
  makeFacts.some((fact) => isKnown(after.make, fact) && !isKnown(before.make, fact) && !isKnown(make, fact));

function turnedDown(make: WireMake, dialect: NameDialect, strange: string): string {
  const home = make.family === null ? undefined : homesOf[make.family][0];
  const named = home === undefined ? null : plainestName(make, { dialect: home, use: "drawing" });
  const ask = named === null ? "" : `; it is sold as \`${named.label}\``;
  return `${dialect} labels have nothing that is the same as ${strange}${ask}`;
}

function notSayable(make: WireMake, dialect: NameDialect): string {
  const counted = make.cores !== null && make.family === null && make.type === null;
  return counted
    ? `no ${dialect} label says how many conductors there are and which is the ground unless the kind of cable is known: say the kind or the type`
    : `no ${dialect} label says size, conductors and type of this cable without doubt: write them one by one`;
}
