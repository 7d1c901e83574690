import { decimalText } from "../../quantity/decimal-text.ts";
import type { BankSharing, Design, UnitShare } from "../../size/index.ts";
import type { System } from "../../system/index.ts";

/** What a unit gives, and its share of what the bank gives; null: the bank gives next to nothing. */
export interface Given {
  readonly amps: number;
  readonly share: number | null;
}

/** A unit of a bank as it is drawn. */
export interface PictureUnit {
  readonly name: string;
  /** Key path in the plan. */
  readonly about: string;
  /** `W01, 35 mm², 0.4 m`: every wire at its terminals. */
  readonly leads: readonly string[];
  readonly load: Given | null;
  readonly fault: Given | null;
}

/** How a bank shares, ready to be drawn. */
export interface BankPicture {
  readonly units: readonly PictureUnit[];
  /** `at anchor, 11.3 A`; null: no state is told. */
  readonly load: string | null;
  /** `a short at SW1, 5.16 kA`; null: no fault is told. */
  readonly fault: string | null;
}

/**
 * Amps as a reader wants them: three figures, thousands as kA.
 *
 * @param amps A
 * @example
 * ampsText(2614.5) //=> "2.61 kA"
 * ampsText(-9.669) //=> "−9.67 A"
 */
export function ampsText(amps: number): string {
  const size = Math.abs(amps);
  const text = size >= 999.5 ? `${decimalText(size / 1000, { figures: 3 })} kA` : `${decimalText(size, { figures: 3 })} A`; // prettier-ignore
  return amps < 0 && /[1-9]/.test(text) ? `−${text}` : text;
}

/**
 * Gathers what the picture of a bank tells: its units with the wires at their terminals, what each gives in a state and into the hardest fault.
 *
 * @param state of the plan; null, or one that it has not: the first
 */
export function bankPicture(
  {
    system,
    design,
  }: { readonly system: Pick<System, "parts" | "circuits">; readonly design: Pick<Design, "circuits"> },
  bank: BankSharing,
  state: string | null,
): BankPicture {
  const atLoad = bank.atLoad.find((one) => one.state === state) ?? bank.atLoad[0];
  const { atFault } = bank;
  const sizes = new Map(design.circuits.map((c) => [c.id, c]));
  const leadsOf = (part: string): string[] =>
    system.circuits.flatMap(({ id, from, to }) => {
      if (from.part !== part && to.part !== part) return [];
      const circuit = sizes.get(id);
      if (circuit === undefined) return [id];
      const { size, make, lengthM } = circuit;
      const parallel = make.parallel > 1 ? `${make.parallel} × ` : "";
      const length = lengthM.origin === "unknown" ? "length unknown" : `${decimalText(lengthM.high, { figures: 3 })} m`;
      return [[id, ...(size === null ? [] : [`${parallel}${size.label}`]), length].join(", ")];
    });
  const given = (list: readonly UnitShare[] | undefined, part: string): Given | null => {
    const own = list?.find((one) => one.part === part);
    return own === undefined ? null : { amps: own.amps, share: own.share };
  };
  const sum = (list: readonly UnitShare[]): number => list.reduce((total, { amps }) => total + amps, 0);
  return {
    units: bank.units.map((part) => ({
      name: system.parts.find(({ id }) => id === part)?.name ?? part,
      about: `parts.${part}`,
      leads: leadsOf(part),
      load: given(atLoad?.units, part),
      fault: given(atFault?.units, part),
    })),
    load: atLoad === undefined ? null : `${atLoad.state}, ${ampsText(sum(atLoad.units))}`,
    fault: atFault === null ? null : `a short at ${atFault.terminal.replace(/:pole$/, "")}, ${ampsText(atFault.amps)}`,
  };
}
