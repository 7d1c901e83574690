import type { Compiled } from "../compile.ts";
import type { Trust } from "../explain/index.ts";
import { viewBuild } from "../rules/index.ts";
import { studiedDevices, toBreak } from "../rules/protection/fault-of-device.ts";
import { breaking } from "../rules/protection/weak-interrupt-rating.ts";
import type {
  ConductorFault,
  EndFault,
  FaultCourse,
  FaultStudy,
  LeastFault,
  OpenFault,
  SeenBy,
} from "../size/index.ts";
import { studyFaults } from "../size/study-faults.ts";
import { deviceLabels } from "./device-label.ts";

/** A current over what its sources may be. */
export interface AmpsOnPaper {
  readonly lowA: number;
  readonly highA: number;
}

/** A time over what a device may be. */
export interface SecondsOnPaper {
  readonly leastS: number;
  /** Null: nobody can say that it is over by then. */
  readonly mostS: number | null;
}

/** A source of fault current. */
export interface FaultSourceOnPaper {
  readonly part: string;
  /** battery: as much as its resistance lets through · limited: no more than its limit */
  readonly kind: "battery" | "limited";
  /** Full, or with nothing drawn, V. */
  readonly volts: number;
  /** Into a dead short at its terminals, at best. */
  readonly amps: AmpsOnPaper;
  /** What a battery's figure rests on; how long a limited source goes on. */
  readonly says: string;
  readonly trust: Trust;
}

/** A fault at an end of a conductor. */
export interface EndFaultOnPaper {
  readonly conductor: string;
  readonly end: "from" | "to";
  /** Terminal there. */
  readonly at: string;
  readonly against: string;
  readonly to: EndFault["to"];
  /** Everything that can push, cold copper. Null: nothing reaches it. */
  readonly greatest: {
    readonly amps: AmpsOnPaper;
    /** Behind which volts, V. */
    readonly volts: number;
    /** Through which resistance, Ω. */
    readonly ohms: number;
    /** What each source pushes. */
    readonly from: readonly GivenOnPaper[];
    readonly course: CourseOnPaper;
  } | null;
  /** One battery or string alone, by source, the least first; empty: none reaches it, or it cannot be told. */
  readonly least: readonly {
    readonly amps: AmpsOnPaper;
    readonly sources: readonly string[];
    /** State in which it is least; empty: switches as they first stand. */
    readonly state: string;
    /** A management in the source may open first. */
    readonly mayOpen: boolean;
    readonly course: CourseOnPaper;
  }[];
  /** Why the least cannot be told; null: it can. */
  readonly cannotTell: string | null;
}

export interface GivenOnPaper {
  readonly part: string;
  readonly amps: number;
}

/** What happens in a fault, devices by name. */
export interface CourseOnPaper {
  readonly sees: readonly SeenOnPaper[];
  /** First to last. */
  readonly opened: readonly (SeenOnPaper & {
    /** Every other device that sees it certainly stays closed until then. */
    readonly isSure: boolean;
  })[];
  readonly outcome: FaultCourse["outcome"];
  /** Until no battery feeds it any more. */
  readonly clears: SecondsOnPaper;
  /** What goes on feeding it. */
  readonly left: readonly GivenOnPaper[];
}

/** A device that a fault's current goes through. */
export interface SeenOnPaper {
  readonly device: string;
  readonly amps: number;
  /** Terminal of the side that the current comes from. */
  readonly from: string;
  /** It stays closed until then, s; null: for good. */
  readonly least: number | null;
  /** It has opened by then, s; null: nobody can say that it does. */
  readonly most: number | null;
  readonly why: SeenBy["why"];
}

/** What faults are to a conductor. */
export interface ConductorFaultOnPaper {
  readonly conductor: string;
  readonly role: ConductorFault["role"];
  readonly greatest: AmpsOnPaper | null;
  readonly least: AmpsOnPaper | null;
  /** Device that opens last when the least flows; null: none certainly does. */
  readonly guard: string | null;
  readonly outcome: ConductorFault["outcome"];
  readonly clears: SecondsOnPaper;
  /**
   * Energy that the hardest fault cleared within 5 s lets through, of what the conductor bears, at most and at least; null: no such fault, or not known. Above 1
   * at most nobody can say that it is not burnt; above 1 at least it is.
   */
  readonly withstandShare: number | null;
  readonly withstandLeastShare: number | null;
  /** The most that may flow in it for good in a fault. Null: none does. */
  readonly forGoodA: number | null;
}

/** A device beside what it may have to break. */
export interface DeviceFaultOnPaper {
  readonly device: string;
  readonly circuit: string | null;
  readonly part: string;
  readonly family: string | null;
  /** In words: `blade fuse`. */
  readonly kind: string;
  readonly ratingA: number | null;
  /** unknown: nobody knows whether one stands there */
  readonly isPresent: "yes" | "unknown";
  /** Greatest current through it in any fault, the side that it comes from, and the fault. */
  readonly greatest: { readonly amps: AmpsOnPaper; readonly from: string; readonly at: string } | null;
  /** Of a fault at its line side, all sources together. */
  readonly prospectiveA: number;
  /** What it may have to break, itself taken as a plain link; null: nothing flows. */
  readonly toBreak: AmpsOnPaper | null;
  /** What it breaks at the highest volts of its system. Null: not known. */
  readonly breaksA: number | null;
  /** Greatest of its system. */
  readonly volts: number;
  readonly verdict: "enough" | "too little" | "not for these volts" | "not known" | "nothing to break";
  readonly trust: Trust | null;
}

/** Prospective current at a terminal. */
export interface TerminalFaultOnPaper {
  readonly terminal: string;
  readonly against: string;
  readonly greatestA: number;
  /** Null: no battery alone reaches it. */
  readonly leastA: number | null;
  readonly states: readonly { readonly state: string; readonly greatestA: number; readonly leastA: number | null }[];
}

/** A fault that goes on being fed. */
export interface OpenFaultOnPaper {
  /** Conductor and end. */
  readonly at: string;
  readonly to: OpenFault["to"];
  readonly sources: readonly string[];
  readonly amps: number;
  readonly outcome: OpenFault["outcome"];
}

/** Faults of a build by name. */
export interface FaultsOnPaper {
  readonly sources: readonly FaultSourceOnPaper[];
  readonly open: readonly OpenFaultOnPaper[];
  readonly circuits: readonly {
    readonly id: string;
    readonly ends: readonly EndFaultOnPaper[];
    readonly conductors: readonly ConductorFaultOnPaper[];
  }[];
  readonly devices: readonly DeviceFaultOnPaper[];
  readonly terminals: readonly TerminalFaultOnPaper[];
  /** What is left out of this build. */
  readonly notStudied: readonly string[];
}

const ampsOn = ({ low, high }: { readonly low: number; readonly high: number }): AmpsOnPaper => ({
  lowA: low,
  highA: high,
});

/** Faults of a build with everything by its name, so that nobody has to count in lists. */
export function faultsOnPaper(compiled: Compiled): FaultsOnPaper {
  const { settled } = compiled;
  const study = studyFaults(settled);
  const label = deviceLabels(study);
  const { grid } = settled.model;
  const nodeAt = (conductor: string, end: "from" | "to"): string => {
    const edge = grid.edges.find((e) => e.id === conductor);
    return edge === undefined ? "" : (grid.nodeNames[end === "from" ? edge.a : edge.b] ?? "");
  };
  const batteries = study.stores.map(({ part, best, basis, opens, trust }): FaultSourceOnPaper => ({
    part,
    kind: "battery",
    volts: best.volts,
    amps: ampsOn(best.amps),
    says: `from its ${basis}${opens === null ? "" : "; its management may open first"}`,
    trust,
  }));
  const limited = study.limited.map(({ part, volts, amps, lasts, trust }): FaultSourceOnPaper => ({
    part,
    kind: "limited",
    volts,
    amps: ampsOn(amps),
    says: lasts,
    trust,
  }));
  return {
    sources: [...batteries, ...limited],
    open: study.open.map(({ at, to, sources, amps, outcome }) => ({ at, to, sources, amps, outcome })),
    circuits: study.circuits.flatMap((c) =>
      c === null
        ? []
        : [
            {
              id: c.circuit,
              ends: c.ends.map((end) => endOn(end, nodeAt(end.conductor, end.end), label)),
              conductors: c.conductors.map((conductor) => conductorOn(conductor, label)),
            },
          ],
    ),
    devices: devicesOn(compiled, study, label),
    terminals: study.terminals.flatMap((t) =>
      t === null
        ? []
        : [
            {
              terminal: t.terminal,
              against: t.against,
              greatestA: t.greatest,
              leastA: t.least,
              states: t.states.map(({ state, greatest, least }) => ({ state, greatestA: greatest, leastA: least })),
            },
          ],
    ),
    notStudied: study.notStudied,
  };
}

type Label = (device: number) => string;

function endOn(
  { conductor, end, against, to, greatest, least, cannotTell }: EndFault,
  at: string,
  label: Label,
): EndFaultOnPaper {
  return {
    conductor,
    end,
    at,
    against,
    to,
    greatest:
      greatest === null
        ? null
        : {
            amps: ampsOn(greatest.amps),
            volts: greatest.volts,
            ohms: greatest.ohms,
            from: greatest.from,
            course: courseOn(greatest.course, label),
          },
    least: least.map((one: LeastFault) => ({
      amps: ampsOn(one.amps),
      sources: one.sources,
      state: one.state,
      mayOpen: one.opens !== null,
      course: courseOn(one.course, label),
    })),
    cannotTell,
  };
}

function courseOn({ sees, opened, outcome, seconds, left }: FaultCourse, label: Label): CourseOnPaper {
  const seen = ({ device, amps, from, least, most, why }: SeenBy): SeenOnPaper => ({
    device: label(device),
    amps,
    from,
    least,
    most,
    why,
  });
  return {
    sees: sees.map(seen),
    opened: opened.map((o) => ({ ...seen(o), isSure: o.isSure })),
    outcome,
    clears: { leastS: seconds.low, mostS: seconds.high },
    left,
  };
}

function conductorOn(
  { conductor, role, greatest, least, guard, outcome, seconds, withstand }: ConductorFault,
  label: Label,
): ConductorFaultOnPaper {
  const bears = withstand.isInLeg ? withstand.leg : withstand.limit;
  return {
    conductor,
    role,
    greatest: greatest === null ? null : ampsOn(greatest),
    least: least === null ? null : ampsOn(least),
    guard: guard === null ? null : label(guard),
    outcome,
    clears: { leastS: seconds.low, mostS: seconds.high },
    withstandShare: withstand.share,
    withstandLeastShare: withstand.i2t === null || bears === null ? null : withstand.i2t.low / bears,
    forGoodA: withstand.forGood?.amps ?? null,
  };
}

function devicesOn(compiled: Compiled, study: FaultStudy, label: Label): DeviceFaultOnPaper[] {
  const build = viewBuild(compiled);
  const studied = new Map(studiedDevices(build).map((d) => [d.index, d]));
  return study.devices.map((device, index): DeviceFaultOnPaper => {
    const fault = study.deviceFaults[index];
    const own = studied.get(index);
    const asked = toBreak(study, index);
    const breaks = own === undefined ? "unknown" : breaking(build, own);
    return {
      device: label(index),
      circuit: device.circuit,
      part: device.part,
      family: device.family,
      kind: own?.name ?? "device",
      ratingA: device.rating,
      isPresent: device.isPresent,
      greatest:
        fault?.greatest == null
          ? null
          : { amps: ampsOn(fault.greatest.amps), from: fault.greatest.from, at: fault.greatest.at },
      prospectiveA: fault?.prospective ?? 0,
      toBreak: asked === null ? null : ampsOn(asked),
      breaksA: typeof breaks === "object" ? breaks.amps.low : null,
      volts: device.volts,
      verdict: verdictOf(asked, breaks, own?.isNamed === true),
      trust: device.interrupt?.trust ?? null,
    };
  });
}

function verdictOf(
  asked: { readonly low: number; readonly high: number } | null,
  breaks: ReturnType<typeof breaking>,
  isNamed: boolean,
): DeviceFaultOnPaper["verdict"] {
  if (asked === null) return "nothing to break";
  if (breaks === "unknown") return "not known";
  if (breaks === "nothing") return isNamed ? "not for these volts" : "not known";
  if (asked.high <= breaks.amps.low) return "enough";
  return asked.low > breaks.amps.high && isNamed ? "too little" : "not known";
}
