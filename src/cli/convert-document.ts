import { printCitation } from "../explain/index.ts";
import type { Conversion, ConvertBy, ConvertDirection, ConvertedSize } from "../wire/convert/index.ts";
import type { PrintedSize } from "../wire/make/wire-make.ts";
import { version } from "./version.ts";

/** `wireworthy convert --json`: the size of another system that does for a given one. */
export interface ConvertDocument {
  readonly format: "wireworthy-convert-1";
  /** Version of the program that wrote it. */
  readonly wireworthy: string;
  /** What is compared. */
  readonly by: ConvertBy;
  /** `not smaller`: never less than there was. `nearest`: the least change, which may be a loss. */
  readonly direction: ConvertDirection;
  /** Of both conductors, °C. */
  readonly conductorC: number;
  readonly from: SizeDocumentOf;
  /** Null: nothing is thick enough, or the list does not have the size; `says` tells which. */
  readonly to: ComparedDocument | null;
  /** The next size down, and why it was not taken; null: there is none. */
  readonly smaller: (ComparedDocument & { readonly says: string }) | null;
  /** The published list that has this very pair; null: none. */
  readonly pairing: PairingDocument | null;
  /** Published lists that say otherwise. */
  readonly otherPairs: readonly { readonly label: string; readonly says: string }[];
  /** From what to what, with what gain or loss, by what. */
  readonly says: string;
  /** Graver first. */
  readonly cautions: readonly string[];
  readonly trust: string;
}

/** A size with its resistance. */
export interface SizeDocumentOf {
  readonly system: string;
  /** Within its system: `2/0`, `2.5`. */
  readonly size: string;
  /** Without doubt: `2/0 AWG`, `2.5 mm²`. */
  readonly label: string;
  /** mm²; of the metal, or what stands on the label (`basis`). */
  readonly areaMm2: number;
  readonly basis: "metal" | "label";
  /** Resistance of a kilometre of one conductor, Ω/km. */
  readonly ohmsPerKm: number;
}

/** A size beside the given one. */
export interface ComparedDocument extends SizeDocumentOf {
  /** Whether stockists keep it. */
  readonly isStocked: boolean;
  /** More area than there was, in parts of one; below 0 is less. */
  readonly areaShare: number;
  /** More resistance than there was, in parts of one; below 0 is less. */
  readonly resistanceShare: number;
}

/** A published list of pairs. */
export interface PairingDocument {
  readonly says: string;
  readonly trust: string;
  readonly source: string;
}

/** A conversion as a document. */
export function convertDocument(conversion: Conversion, conductorC: number): ConvertDocument {
  const { by, direction, from, to, smaller, pairing, otherPairs, says, cautions, trust } = conversion;
  return {
    format: "wireworthy-convert-1",
    wireworthy: version,
    by,
    direction,
    conductorC,
    from: sizeOf(from),
    to: to === null ? null : compared(to),
    smaller: smaller === null ? null : { ...compared(smaller), says: smaller.says },
    pairing:
      pairing === null ? null : { says: pairing.says, trust: pairing.trust, source: printCitation(pairing.source) },
    otherPairs: otherPairs.map(({ label, says: said }) => ({ label, says: said })),
    says,
    cautions,
    trust,
  };
}

const sizeOf = ({ size, ohmsPerMetre }: { size: PrintedSize; ohmsPerMetre: number }): SizeDocumentOf => ({
  system: size.system,
  size: size.name,
  label: size.label,
  areaMm2: size.areaMm2,
  basis: size.basis,
  ohmsPerKm: ohmsPerMetre * 1000,
});

const compared = (converted: ConvertedSize): ComparedDocument => ({
  ...sizeOf(converted),
  isStocked: converted.isStocked,
  areaShare: converted.areaChange,
  resistanceShare: converted.resistanceChange,
});
