import { cite } from "../../explain/index.ts";
import { reachOf } from "../ac/reach.ts";
import { isBoat } from "../battery/batteries.ts";
import { foldName } from "../../plan/index.ts";
import type { Supply } from "../../system/index.ts";
import type { Build } from "../build.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { pieceOfSupply } from "./earth-joins.ts";
import { metalOf, metalPieces } from "./metal.ts";

const shore = (bond: string, system = ""): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: iso-small-craft 2020+A1:2022 }\nsystems:\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE]${system} }\nparts:\n  INL: { kind: shore inlet, rated: 16 A }\n  CU: { kind: consumer unit, ways: { 1: breaker 10 A 2-pole }, main: { residual device: 30 mA, poles: 2 } }\n  kettle: { kind: load, rated: 1 kW }\ncircuits:\n  W20: { path: INL → CU:in, length: 1 m }\n  W21: { path: CU:1 → kettle, length: 3 m }${bond}`;

export const missingDcAcBond = defineRule({
  id: "return/missing-dc-ac-bond",
  title: "Missing bond of DC minus and AC earth",
  severity: {
    otherwise: "should",
    sets: { "us-small-craft": "must", "iso-small-craft": "must", "au-nz-vehicle": "note" },
  },
  danger: "mains that touches a 12 V wire makes all of it live, and no device sees it",
  why: `On a boat the protective conductors of alternating current and the minus of direct current are joined, at the one point where the minus is earthed: a fault of mains to a 12 V wire then has a way back that
    opens a breaker. The work on mains, and whether this join is right where you are, is for a licensed electrician to decide.`,
  silent: [
    "plans without alternating current, or without protective conductors",
    "sets other than those of boats and au-nz-vehicle",
    "iso-small-craft: an isolation transformer with a residual device, where no pole of direct current is earthed",
  ],
  sources: [
    { cite: cite("abyc-e-11", "E-9.21.1, an older text", "article"), sets: ["us-small-craft"] },
    { cite: cite("iso-13297-2020", "3.4", "read"), sets: ["iso-small-craft"] },
    { cite: cite("trade-practice", "one point for minus and protective earth", "practice") },
  ],
  messages: {
    none: "no metal joins the protective conductors of {place} with the minus of {direct}",
  },
  cures: ["earth-bond"],
  examples: {
    good: [
      {
        says: "a bond from the consumer unit",
        plan: shore("\n  W22: { path: CU:PE → BN, length: 1 m, cores: [PE], wire: 10 mm² }"),
      },
      {
        says: "both at a hull with an anode",
        plan: shore("\n  W22: { path: BN → hull, length: 1 m }\n  W23: { path: hull → AN, length: 0.5 m }\n  W24: { path: CU:PE → hull, length: 1 m, cores: [PE], system: AC, wire: 10 mm² }").replace("  kettle:", "  AN: { kind: earth electrode, is: anode }\n  hull: { kind: structure, is: hull, joints: [keel bolt], immersed: yes, prepared: yes }\n  kettle:"), // prettier-ignore
      },
      { says: "no alternating current", plan: "" },
      { says: "a join that the plan names and does not draw", plan: shore("", ", earthed at: BN") },
    ],
    bad: [
      { says: "no bond", plan: shore(""), fails: "none", about: "systems.AC" },
      {
        says: "minus at a hull with an anode, and nothing from alternating current to either: water is no bond",
        plan: shore("\n  W22: { path: BN → hull, length: 1 m }\n  W23: { path: hull → AN, length: 0.5 m }").replace("  kettle:", "  AN: { kind: earth electrode, is: anode }\n  hull: { kind: structure, is: hull, joints: [keel bolt], immersed: yes, prepared: yes }\n  kettle:"), // prettier-ignore
        fails: "none",
        about: "systems.AC",
      },
      { says: "nobody knows", plan: shore("", ", earthed at: unknown"), fails: "cannot tell", about: "systems.AC" },
    ],
  },
  judge(build, report) {
    const direct = build.system.supplies.filter((s) => s.current === "DC");
    for (const supply of build.system.supplies) {
      if (supply.current !== "AC") continue;
      const subject = build.supply(supply);
      const metal = metalOf(build);
      const earths = alternatingEarths(build);
      const returns = direct.map((s) => ({ s, piece: pieceOfSupply(build, s) })).filter(({ piece }) => piece >= 0);
      const [main] = returns;
      const all = metalPieces(metal, () => true);
      if (!isBoat(subject.set) && subject.set !== "au-nz-vehicle")
        report.notApplicable(subject, "its rule set does not ask for it");
      else if (earths.length === 0 || main === undefined)
        report.notApplicable(
          subject,
          main === undefined ? "there is no direct current" : "it has no protective conductors",
        );
      else if (isIsolated(build, supply, direct))
        report.notApplicable(
          subject,
          "an isolation transformer and a residual device, and no pole of direct current is earthed",
        );
      else if (
        earths.some((n) => returns.some(({ piece }) => all[n] === all[piece])) ||
        namesJoin(build, supply, direct)
      )
        report.pass(subject);
      else if (supply.earthed === "unknown")
        report.cannotTell(subject, [needed("where its protective conductors are joined to earth", subject)]);
      else report.fail(subject, "none", { words: { direct: main.s.id } });
    }
  },
});

/** Where the alternating side has its earth: what sources and inverters bring, and what runs beside its lines. An electrode, a hull or a bond of the direct side is none of it, until metal leads there. */
function alternatingEarths(build: Build): readonly number[] {
  const { system } = build;
  const own = system.elements.flatMap((e): readonly (string | undefined)[] => {
    if (e.is === "source") return [e.terminals.PE];
    if (e.is !== "converter") return [];
    return e.outCurrent === "AC" && e.outMinus.endsWith(":N")
      ? [e.earth, e.outMinus.replace(/:N$/, ":PE")]
      : e.inCurrent === "AC"
        ? [e.earth]
        : [];
  });
  const beside = system.circuits
    .filter((c) => c.current === "AC" && c.conductors.some(({ role }) => role === "live"))
    .flatMap((c) => c.conductors.flatMap((k) => (k.role === "protective" ? [k.from, k.to] : [])));
  const { nodeOf } = metalOf(build);
  return [...own, ...beside].flatMap((t) => (t === undefined ? [] : [nodeOf(t)])).filter((n) => n >= 0);
}

function isIsolated(build: Build, { rules }: Supply, direct: readonly Supply[]): boolean {
  if (rules?.startsWith("iso-small-craft") !== true) return false;
  const has = (is: (e: Build["system"]["elements"][number]) => boolean): boolean => build.system.elements.some(is);
  // A second inlet that feeds what is aboard without one is not isolated by the first.
  const inlets = build.system.elements.flatMap((e) => (e.is === "source" && e.from === "shore" ? [e.id] : []));
  return (
    direct.every((s) => s.earthed === false) &&
    has((e) => e.is === "source" && e.from === "transformer") &&
    inlets.every((id) => !reachOf(build, id).takes) &&
    has((e) => e.is === "residual guard")
  );
}

/** A plan may name the place at which both are earthed and draw no conductor. */
function namesJoin({ plan }: Build, supply: Supply, direct: readonly Supply[]): boolean {
  if (supply.earthed !== true) return false;
  const at = (id: string): string | undefined => plan.systems.find((s) => s.key === id)?.facts["earthed at"]?.value;
  const own = foldName(at(supply.id) ?? "");
  return direct.some((s) => foldName(at(s.id) ?? s.returnPart ?? "") === own || foldName(s.returnPart ?? "") === own);
}
