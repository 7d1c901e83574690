import type { CableFamily, WireMake } from "../make/wire-make.ts";
import type { NameDialect } from "./wire-name.ts";

/** The dialects that have a cable of a family; the first is the one whose name it is sold by. */
export const homesOf: Readonly<Record<CableFamily, readonly NameDialect[]>> = {
  "building cable": ["north american"],
  "boat cable": ["boat", "north american"],
  "flexible cord": ["north american", "boat"],
  "harmonised cable": ["european", "british"],
  "twin and earth": ["british", "australian"],
  "japanese building cable": ["japanese"],
  "building wire": ["north american", "boat"],
  "vehicle wire": ["vehicle", "north american", "boat", "australian", "japanese"],
  "trailer cable": ["north american", "vehicle", "australian", "boat"],
  "battery cable": ["north american", "boat", "european", "british", "australian", "vehicle", "japanese"],
  "welding cable": ["north american", "boat", "european", "british", "australian"],
  "speaker cable": ["north american", "boat", "european", "british", "australian", "japanese"],
  "solar cable": ["european", "north american", "boat", "british", "australian"],
  "service cable": ["north american"],
};

/** Why another dialect has nothing that is the same cable, in a clause. */
const peculiar: Readonly<Partial<Record<CableFamily, string>>> = {
  "building cable": "building cable with solid cores and an uncounted bare ground",
  "boat cable": "cable whose number counts the ground and whose strands and jacket are those of boats",
  "flexible cord": "cord by North American letters",
  "harmonised cable": "cable with a European code",
  "twin and earth": "flat cable with a bare earth thinner than its cores",
  "japanese building cable": "flat cable whose number is the diameter of a solid core",
  "building wire": "building wire by North American letters",
  "service cable": "feeder cable listed conductor by conductor",
};

/** The clause with which a dialect turns a make down; null: it may have a name for it. */
export function strangeTo({ family }: WireMake, dialect: NameDialect): string | null {
  if (family === null || homesOf[family].includes(dialect)) return null;
  return peculiar[family] ?? family;
}
