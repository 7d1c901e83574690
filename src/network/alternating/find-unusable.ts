import type { AcElement } from "./ac-network.ts";

const atLeast = (x: number | undefined, least: number): boolean => x === undefined || (x >= least && x < Infinity);

/** The first number of an element that cannot be used, by its name; null: all can. */
export function findUnusable(e: AcElement): string | null {
  switch (e.kind) {
    case "branch":
      return !atLeast(e.ohms, 0) ? "ohms" : !atLeast(e.reactance, 0) ? "reactance" : null;
    case "source":
      if (!atLeast(e.ohms, 0)) return "ohms";
      if (!atLeast(e.reactance, 0)) return "reactance";
      if (!atLeast(e.ratedVA, 0)) return "ratedVA";
      if (!atLeast(e.lineAmps, 0)) return "lineAmps";
      if (e.lines.some(({ volts }) => !atLeast(volts, 0))) return "volts";
      return e.lines.every(({ degrees }) => Number.isFinite(degrees)) ? null : "degrees";
    case "load": {
      const { law } = e;
      if ("ohms" in law) {
        if (!atLeast(law.ohms, 0)) return "ohms";
        return Number.isFinite(law.reactance) && Math.hypot(law.ohms, law.reactance) > 1e-6 ? null : "reactance";
      }
      if (law.volts !== undefined && !(law.volts > 0 && law.volts < Infinity)) return "volts";
      if (!(law.powerFactor >= 0 && law.powerFactor <= 1)) return "powerFactor";
      if ("va" in law) return atLeast(law.va, 0) ? null : "va";
      return atLeast(law.amps, 0) ? null : "amps";
    }
  }
}
