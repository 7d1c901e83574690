import type { Fitness } from "../wire/make/wire-make.ts";
import type { LabelFact, LabelProblem, LabelReading, OrderQuantity, WireReading } from "../wire/label/label-reading.ts";
import type { Span } from "../diagnostic.ts";

/** A line of `wireworthy read --json`: what one label means. */
export interface ReadDocument {
  /** The label as it was given. */
  readonly text: string;
  /** `exact`: one meaning. `ambiguous`: several, and the question that settles them. `rejected`: none. */
  readonly verdict: LabelReading["verdict"];
  readonly readings: readonly ReadingDocument[];
  /** What to ask or to look at; only where there are several readings. */
  readonly question?: string;
  /** Why it was rejected, or what is odd in what was read. */
  readonly problems: readonly LabelProblem[];
}

/** One way in which a label can be meant. Null is `not stated`, never a guess. */
export interface ReadingDocument {
  /** By what the size counts: `AWG`, `kcmil`, `mm²`, `SAE`, `SWG`, `JIS`, … */
  readonly system: string | null;
  /** Within its system: `2/0`, `2.5`, `65/0.30`. */
  readonly size: string | null;
  /** mm²; of the metal, or what stands on the label (`basis`). */
  readonly areaMm2: number | null;
  readonly cores: CoresDocument | null;
  /** `solid`, `class 5`, `type 3`, `class K`, `stranded`. */
  readonly stranding: string | null;
  readonly metal: string | null;
  /** As its standard writes it: `SOOW`, `H07RN-F`. */
  readonly type: string | null;
  /** Greatest voltage between conductors, V. */
  readonly volts: number | null;
  /** Of the insulation, °C, dry. */
  readonly temperatureC: number | null;
  /** Which characters said so, by fact: first inclusive, second not, in UTF-16 units from 0. */
  readonly from: Readonly<Partial<Record<LabelFact, readonly Span[]>>>;
  /** The size without doubt: `2/0 AWG`, `2.5 mm²`. */
  readonly label: string | null;
  /** `metal`: the area is copper; `label`: a name, whose copper may be less. */
  readonly basis: "metal" | "label" | null;
  readonly family: string | null;
  /** Number of equal wires or cables side by side. */
  readonly runs: number;
  /** Number of wires in a conductor. */
  readonly wires: number | null;
  /** Diameter of one wire, mm. */
  readonly wireMm: number | null;
  readonly plating: string | null;
  /** As printed: `300/500`. */
  readonly voltsSay: string | null;
  /** Of the insulation in wet places where it is another, °C. */
  readonly wetTemperatureC: number | null;
  readonly fitness: Fitness;
  /** Letters of IEC 60757, base first, of each core in its order. */
  readonly colours: readonly (readonly string[])[];
  readonly form: string | null;
  /** Diameter over everything, mm. */
  readonly outsideMm: number | null;
  readonly quantity: OrderQuantity | null;
  /** What decided where the characters alone do not. */
  readonly by: readonly string[];
  /** The same in words that nobody can misread. */
  readonly says: string;
  /** A label that reads exactly as this. */
  readonly exactLabel: string | null;
  /** What misleads in this label. */
  readonly traps: readonly string[];
}

/** Conductors of a cable. */
export interface CoresDocument {
  /** Number of insulated conductors, an insulated ground counted. */
  readonly insulated: number;
  /** Number of all metal conductors. */
  readonly total: number;
  readonly ground: string;
  /** Size of the ground where it is another: `1.5 mm²`. */
  readonly groundSize: string | null;
  /** Conductors that have a size of their own. */
  readonly others: readonly { readonly count: number; readonly size: string }[];
  readonly paired: boolean;
}

/** What a label means, as a document. */
export function readDocument(text: string, read: LabelReading): ReadDocument {
  const { verdict, problems } = read;
  const readings = read.readings.map(readingDocument);
  return read.verdict === "ambiguous"
    ? { text, verdict, readings, question: read.question, problems }
    : { text, verdict, readings, problems };
}

function readingDocument({ make, quantity, from, by, says, exactLabel, traps }: WireReading): ReadingDocument {
  const { size, cores, stranding } = make;
  return {
    system: size?.system ?? null,
    size: size?.name ?? null,
    areaMm2: size?.areaMm2 ?? null,
    cores:
      cores === null
        ? null
        : {
            insulated: cores.insulated,
            total: cores.total,
            ground: cores.ground,
            groundSize: cores.groundSize?.label ?? null,
            others: cores.others.map(({ count, size: other }) => ({ count, size: other.label })),
            paired: cores.paired,
          },
    stranding: stranding?.name ?? null,
    metal: make.metal,
    type: make.type,
    volts: make.volts,
    temperatureC: make.temperatureC,
    from,
    label: size?.label ?? null,
    basis: size?.basis ?? null,
    family: make.family,
    runs: make.runs,
    wires: stranding?.wires ?? null,
    wireMm: stranding?.wireMm ?? null,
    plating: make.plating,
    voltsSay: make.voltsSay,
    wetTemperatureC: make.wetTemperatureC,
    fitness: make.fitness,
    colours: make.colours,
    form: make.form,
    outsideMm: make.outsideMm,
    quantity,
    by,
    says,
    exactLabel,
    traps,
  };
}
