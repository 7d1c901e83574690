import { readLabel } from "../label/read-label.ts";
import type { LabelReading, WireReading } from "../label/label-reading.ts";
import type { WireMake } from "../make/wire-make.ts";
import { isSingle } from "./compound-names.ts";
import { contradicts, makeFacts, tells } from "./make-facts.ts";
import { nameWire } from "./name-wire.ts";
import { nameDialects, nameUses, type NameWish } from "./wire-name.ts";
import { nearLabels } from "./near-labels.ts";

/** How a name stands to a make. */
export type NameStanding =
  /** It means this make and no other, as far as it goes. */
  | "this cable"
  /** It is taken for it, and means another. */
  | "not the same"
  /** It may mean it or another. */
  | "ask: which?";

/** A name on reels or in plans, and how it stands to a make. */
export interface KnownName {
  readonly label: string;
  readonly standing: NameStanding;
  /** Why: what it says, what else it may be, or what is other. */
  readonly says: string;
  /** Who says so and what for; empty: nobody should. */
  readonly by: readonly NameWish[];
  /** Why it misleads although it is right; null: nothing known. */
  readonly trap: string | null;
}

/**
 * All names under which a make is met: those that are right, those that need a question, and those of its neighbours that are taken for it.
 *
 * @returns right ones first, each once
 * @example
 * const { make } = readLabel("3G2.5").readings[0];
 * allNames(make).filter(({ label }) => label === "2.5 mm² twin and earth")[0].standing //=> "not the same"
 */
export function allNames(make: WireMake): readonly KnownName[] {
  const names = new Map<string, KnownName>();
  for (const dialect of nameDialects) {
    for (const use of nameUses) {
      const { label, ...named } = nameWire(make, { dialect, use });
      if (label === null || "reason" in named) continue;
      const before = names.get(label);
      const by = [...(before?.by ?? []), { dialect, use }];
      // What is said aloud, or needs a place to be read so, may be taken for another.
      const isClear = named.context === null || standingOf(label, make)?.standing === "this cable";
      const standing = before?.standing ?? (isClear ? "this cable" : "ask: which?");
      names.set(label, { label, standing, says: named.says, by, trap: before?.trap ?? named.trap });
    }
  }
  const near = nearLabels(make)
    .filter((label) => !names.has(label))
    .flatMap((label) => {
      const known = standingOf(label, make);
      return known === null ? [] : [known];
    });
  return [...names.values(), ...near];
}

/** What a label of the neighbourhood is to a make; null: no label at all. */
function standingOf(label: string, make: WireMake): KnownName | null {
  const read = readLabel(label);
  if (read.verdict === "rejected") return null;
  const says = read.verdict === "exact" ? read.readings[0].says : saysOr(read.readings);
  return { label, standing: standing(read, make), says, by: [], trap: null };
}

/** Meanings of one label beside each other: by kind and count where the size is one, else by size. */
function saysOr(readings: readonly WireReading[]): string {
  const [first] = readings;
  const size = first?.make.size?.label ?? "";
  const isOneSize = readings.every(({ make }) => make.size?.label === size);
  const each = readings.map(({ make: { family, size: own, cores } }) => {
    const count = cores === null ? "" : `${cores.total} in all`;
    return [isOneSize ? (family ?? "") : (own?.label ?? ""), count].filter((part) => part !== "").join(": ");
  });
  return `${isOneSize ? `${size}; ` : ""}${[...new Set(each)].join("; or ")}`;
}

function standing(read: LabelReading, make: WireMake): NameStanding {
  const [reading, ...others] = read.readings;
  if (reading === undefined || others.length > 0) return "ask: which?";
  if (makeFacts.some((fact) => contradicts(reading.make, make, fact))) return "not the same";
  const isSame = tells(reading.make, make, "size") && (isSingle(make) || tells(reading.make, make, "cores"));
  return isSame ? "this cable" : "ask: which?";
}
