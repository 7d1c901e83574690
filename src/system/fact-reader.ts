import type { Trust } from "../explain/index.ts";
import { isUnknown, known, type Fact, type Measure } from "../plan/index.ts";
import type { Assumption, MissingFact } from "./assumption.ts";
import { exactly, given, type Value } from "./value.ts";

/** A default, ready to be listed when it is used. */
export interface Default {
  readonly id: string;
  readonly value: number;
  /** In words with its unit: `efficiency of a DC-DC charger 90 %`. */
  readonly says: string;
  readonly trust: Trust;
  /** Whether the person may pin it: the key to write. */
  readonly pin: string;
  /** Widest lawful bounds when the person wrote `unknown`; else the default's own value stands in. */
  readonly bounds?: readonly [number, number];
}

/** Turns facts into values, lists every default it had to use and every fact that is missing. */
export interface FactReader {
  /** The fact, or the default, listed. `unknown` gives the bounds and is noted as missing. */
  readonly orElse: (fact: Fact<Measure> | undefined, assumed: Default) => Value;
  /** The fact, or nothing; noted as missing when it is `unknown`. */
  readonly stated: (fact: Fact<Measure> | undefined, name: string) => Value | undefined;
  /** The fact, or a stand-in that lets the rest be worked out; noted as missing either way. */
  readonly needed: (fact: Fact<Measure> | undefined, name: string, standIn: number) => Value;
  /** Notes that something cannot be told without this fact; absent unless it is `unknown`. */
  readonly miss: (fact: Fact<unknown> | undefined, name: string) => void;
  /** Lists a default that is not a fact of this part. */
  readonly assume: (assumed: Default) => Value;
  /** A yes or no, else what is assumed, listed. */
  readonly flag: (
    fact: Fact<boolean> | undefined,
    name: string,
    assumed: { readonly value: boolean } & Omit<Default, "value">,
  ) => boolean | "unknown";
}

/** Collects assumptions over a whole build, one entry for each default. */
export interface Ledger {
  readerFor(about: string): FactReader;
  assumptions(): Assumption[];
  missing(): MissingFact[];
}

export function createLedger(): Ledger {
  const assumptions = new Map<string, { entry: Default; about: Set<string> }>();
  const missing: MissingFact[] = [];
  const noted = new Set<string>();

  const note = (about: string, fact: string, why: MissingFact["why"]) => {
    const key = `${about} ${fact}`;
    if (noted.has(key)) return;
    noted.add(key);
    missing.push({ about, fact, why });
  };
  const list = (about: string, entry: Default) => {
    const key = `${entry.id} ${entry.value}`;
    const there = assumptions.get(key);
    if (there === undefined) assumptions.set(key, { entry, about: new Set([about]) });
    else there.about.add(about);
  };

  return {
    readerFor: (about) => ({
      orElse(fact, assumed) {
        if (isUnknown(fact)) {
          note(about, assumed.pin, "unknown");
          const [low, high] = assumed.bounds ?? [assumed.value, assumed.value];
          return { low, high, origin: "unknown" };
        }
        const measure = known(fact);
        if (measure !== undefined) return given(measure);
        list(about, assumed);
        return exactly(assumed.value, "default");
      },
      stated(fact, name) {
        if (isUnknown(fact)) note(about, name, "unknown");
        const measure = known(fact);
        return measure === undefined ? undefined : given(measure);
      },
      needed(fact, name, standIn) {
        const measure = known(fact);
        if (measure !== undefined) return given(measure);
        note(about, name, isUnknown(fact) ? "unknown" : "absent");
        return exactly(standIn, "unknown");
      },
      miss(fact, name) {
        note(about, name, fact?.unread !== undefined ? "unread" : isUnknown(fact) ? "unknown" : "absent");
      },
      assume(assumed) {
        list(about, assumed);
        return exactly(assumed.value, "default");
      },
      flag(fact, name, assumed) {
        if (isUnknown(fact)) {
          note(about, name, "unknown");
          return "unknown";
        }
        const said = known(fact);
        if (said !== undefined) return said;
        list(about, { ...assumed, value: assumed.value ? 1 : 0 });
        return assumed.value;
      },
    }),
    assumptions: () =>
      [...assumptions.values()].map(({ entry, about }) => ({
        id: entry.id,
        says: entry.says,
        trust: entry.trust,
        pin: entry.pin,
        about: [...about],
      })),
    missing: () => missing,
  };
}
