import { cite } from "../../explain/citation.ts";
import { isDocumentId } from "../../explain/documents.ts";
import { trustOfCell } from "../../explain/table.ts";
import { isTrust } from "../../explain/trust.ts";
import { cableTypes, type CableTypesRow } from "../../reference/cable-types.ts";
import { cableFamilies, type CableFamily, type Ground, type StrandingName } from "../make/wire-make.ts";
import { fitnessOf } from "./fit-words.ts";
import { sayType } from "./say-type.ts";
import type { Counting, TypeCode, TypeFact } from "./type-code.ts";

const countings: readonly string[] = ["all", "ground extra", "single"] satisfies Counting[];
const grounds: readonly string[] = ["none", "insulated", "bare", "concentric", "not stated"] satisfies Ground[];
const strandings: readonly string[] = ["solid", "stranded", "class 2", "class 5", "class B"] satisfies StrandingName[];

const isCounting = (text: string): text is Counting => countings.includes(text);
const isGround = (text: string): text is Ground => grounds.includes(text);
const isStranding = (text: string): text is StrandingName => strandings.includes(text);
const families: readonly string[] = cableFamilies;
const isFamily = (text: string): text is CableFamily => families.includes(text);

/** A word of a closed list out of a cell; a word outside the list is a slip in the table. */
function word<Word extends string>(
  row: CableTypesRow,
  cell: string | null,
  is: (text: string) => text is Word,
): Word | null {
  if (cell === null) return null;
  if (!is(cell)) throw new Error(`cable_types: ${row.code} has "${cell}"`);
  return cell;
}

const numbers = ["volts", "tempC", "wetTempC"] as const;
const factOf = { volts: "volts", tempC: "temperatureC", wetTempC: "wetTemperatureC" } as const;

function unverifiedOf(row: CableTypesRow): readonly TypeFact[] {
  const weak: TypeFact[] = numbers
    .filter((column) => row[column] !== null && trustOfCell(cableTypes, row, column) === "memory")
    .map((column) => factOf[column]);
  return row.fitMemory === null ? weak : [...weak, "fitness"];
}

function typeOf(row: CableTypesRow): TypeCode {
  const { document } = row;
  if (!isDocumentId(document) || !isTrust(row.trust))
    throw new Error(`cable_types: ${row.code} has no document or trust`);
  const stranding = word(row, row.strands, isStranding);
  const type = {
    code: row.code,
    family: word(row, row.family, isFamily),
    inWords: row.code === row.code.toLowerCase(),
    name: row.name,
    volts: row.volts,
    voltsSay: row.voltsSay,
    temperatureC: row.tempC,
    wetTemperatureC: row.wetTempC,
    fitness: fitnessOf(row.fit, row.fitMemory),
    metal: row.metal === "aluminium" ? row.metal : null,
    plating: row.plating === "tinned" ? row.plating : null,
    stranding: stranding === null ? null : { name: stranding, wires: null, wireMm: null },
    form: row.form === "flat" || row.form === "round" ? row.form : null,
    counts: word(row, row.counts, isCounting),
    ground: word(row, row.ground, isGround) ?? "not stated",
    cores: row.cores,
    limits: { sizes: null, cores: null },
    traps: row.trap?.split("|").map((trap) => `${trap}.`) ?? [],
    alsoMeans: row.word,
    source: cite(document, row.clause ?? "", row.trust),
    unverified: unverifiedOf(row),
  } satisfies Omit<TypeCode, "says">;
  return { ...type, says: sayType(type) };
}

const made = new Map<CableTypesRow, TypeCode>();

/** The type of a row of `cable_types`; made at the first call for it. */
export function namedType(row: CableTypesRow): TypeCode {
  let type = made.get(row);
  if (type === undefined) made.set(row, (type = typeOf(row)));
  return type;
}

/** A spelling of a named type. */
export interface Spelling {
  /** In capitals. */
  readonly text: string;
  readonly row: CableTypesRow;
}

let byBeginning: ReadonlyMap<string, readonly Spelling[]> | null = null;

/** The first two characters of a spelling, or the first alone where a hyphen, a space or nothing follows, which a text may leave out. */
const beginningOf = (text: string): string => (/^.[\p{L}\p{N}]/u.test(text) ? text.slice(0, 2) : text.charAt(0));

/**
 * Spellings with a beginning of one or two characters; the list is made at the first call.
 *
 * @param beginning in capitals
 */
export function spellingsFrom(beginning: string): readonly Spelling[] {
  if (byBeginning === null) {
    const lists = new Map<string, Spelling[]>();
    for (const row of cableTypes.rows) {
      for (const written of [row.code, ...(row.also?.split("|") ?? [])]) {
        const text = written.toUpperCase();
        const list = lists.get(beginningOf(text));
        if (list === undefined) lists.set(beginningOf(text), [{ text, row }]);
        else list.push({ text, row });
      }
    }
    byBeginning = lists;
  }
  return byBeginning.get(beginning) ?? none;
}

const none: readonly Spelling[] = [];
