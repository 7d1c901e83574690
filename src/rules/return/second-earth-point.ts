import { cite } from "../../explain/index.ts";
import { foldName } from "../../plan/index.ts";
import type { Supply } from "../../system/index.ts";
import { nameSome } from "../battery/name-some.ts";
import type { Build, Subject } from "../build.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { earthJoins, pieceOfSupply, pointOfPart } from "./earth-joins.ts";

const joined = (second: string, at = "earthed at: BN"): string =>
  `systems:\n  DC: { kind: DC, nominal: 12 V, return: BN, ${at} }\nparts:\n  hull: { kind: structure }\n  B2: { kind: battery, chemistry: AGM, capacity: 80 Ah, cranking: 500 A }\n  M1: { kind: load, running: 5 A }\ncircuits:\n  W20: { path: BN → hull, length: 1 m, cores: [PE], wire: 10 mm² }\n  W21: { path: B2 → M1, length: 1 m, wire: 2.5 mm², fuse: 10 A at B2, return: BN }\n  W22: { path: B2:− → BN, length: 1 m, wire: 16 mm² }${second}`;
const SECOND = "\n  W23: { path: B2:− → hull, length: 1 m, cores: [PE], wire: 10 mm² }";

export const secondEarthPoint = defineRule({
  id: "return/second-earth-point",
  title: "Second earth point",
  severity: { otherwise: "should", sets: { "us-small-craft": "must", "iso-small-craft": "must" } },
  danger:
    "current runs through hull and bonding from one point to the other, eats metal, and makes every other test say nonsense",
  why: `The minus of a supply is joined to earth, hull or protective conductors at one point, from which as many bonds may lead as there are; a supply that is insulated at none. Joins are counted as metal:
    each place of the returns from which a bond leads, with every contact closed, however it is drawn.`,
  silent: [
    "supplies of which the plan draws no join and says of none",
    "structures that bring current back, which structure-as-conductor and unprepared-chassis-joint judge",
  ],
  sources: [
    { cite: cite("iso-10133-2012", "4.1", "read"), sets: ["iso-small-craft"] },
    { cite: cite("abyc-e-11", "DC grounding at one point", "memory"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "one join of minus and earth", "practice") },
  ],
  messages: {
    second: "{place} joins the minus of {system} to earth at {point}; it is joined at {first} already",
    insulated:
      "{place} joins the minus of {system} to earth at {point}, and the plan says that no pole of it is earthed",
  },
  cures: ["open-loop"],
  examples: {
    good: [
      { says: "one point", plan: joined("") },
      {
        says: "two bonds from one point",
        plan: joined("\n  W23: { path: BN → hull, length: 1 m, cores: [PE], wire: 10 mm² }"),
      },
      { says: "no join that the plan knows of", plan: "" },
    ],
    bad: [
      { says: "a bond at the start battery as well", plan: joined(SECOND), fails: "second", about: "circuits.W23" },
      {
        says: "a bond of what is said to be insulated",
        plan: joined("", "earthed at: none"),
        fails: "insulated",
        about: "circuits.W20",
      },
      {
        says: "nobody knows whether it is earthed",
        plan: joined("", "earthed at: unknown"),
        fails: "cannot tell",
        about: "systems.DC",
      },
    ],
  },
  judge(build, report) {
    const seen = new Map<number, Supply>();
    const joins = earthJoins(build);
    for (const supply of build.system.supplies) {
      if (supply.current !== "DC") continue;
      const subject = build.supply(supply);
      const piece = pieceOfSupply(build, supply);
      const other = seen.get(piece);
      if (piece < 0 || other !== undefined) {
        report.notApplicable(subject, piece < 0 ? "it has no return" : `it shares its returns with ${other?.id ?? ""}`);
        continue;
      }
      seen.set(piece, supply);
      const own = joins.filter((j) => j.piece === piece);
      const named = supply.earthed === true ? earthedAt(build, supply) : null;
      const points = [...new Set([...(named === null ? [] : [named]), ...own.map((j) => j.point)])];
      const [first] = points;
      if (supply.earthed === "unknown")
        report.cannotTell(subject, [needed("whether its return is joined to earth", subject)]);
      else if (supply.earthed === false && own.length > 0) {
        for (const j of own)
          report.fail(about(j.subject, subject), "insulated", { words: { system: supply.id, point: j.name } });
      } else if (points.length > 1) {
        const names = own.filter((j) => j.point === first).map((j) => j.name);
        const at = named === null ? nameSome(names) : (namedPart(build, supply) ?? supply.id);
        for (const j of own)
          if (j.point !== first)
            report.fail(about(j.subject, subject), "second", {
              measured: points.length,
              limit: 1,
              words: { system: supply.id, point: j.name, first: at },
            });
      } else if (first !== undefined) report.pass(subject, { measured: 1, limit: 1 });
      else if (supply.earthed === false) report.pass(subject, { measured: 0, limit: 0 });
      else report.notApplicable(subject, "the plan draws no join of its minus with earth, and says of none");
    }
  },
});

/** A bond that follows no set of its own follows that of the supply. */
const about = (subject: Subject, { set }: Subject): Subject => (subject.set === null ? { ...subject, set } : subject);

/** The part at which a plan says that a supply is earthed. */
function namedPart({ plan, parts }: Build, { id }: Supply): string | null {
  const value = plan.systems.find((s) => s.key === id)?.facts["earthed at"]?.value;
  return value === undefined || value === "unknown"
    ? null
    : (parts.find((p) => foldName(p.id) === foldName(value))?.id ?? null);
}

/** The node of that part; null: it is no place of the returns. */
function earthedAt(build: Build, supply: Supply): number | null {
  const id = namedPart(build, supply);
  if (id === null) return null;
  const point = pointOfPart(build, id);
  return point < 0 ? null : point;
}
