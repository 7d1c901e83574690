import { seriesPairs, type SeriesPairs } from "../../coordinate/index.ts";
import { cite } from "../../explain/index.ts";
import { nameSome } from "../battery/name-some.ts";
import type { Build } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { studiedDevices, type StudiedDevice } from "./fault-of-device.ts";

const panel = (feeder: string, branch: string, critical = "yes"): string =>
  `parts:\n  VHF: { kind: electronics, running: 1 A, critical: ${critical} }\ncircuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 50 mm², sheathed: yes, fuse: 150 A class T at B1 }\n  W04: { path: BP → PNL, length: 1.5 m, wire: 10 mm², demand: 20 A, ${feeder} }\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 6 mm², ${branch} }\n  W20: { path: PNL:3 → VHF, length: 3 m, wire: 6 mm² }`;
const SAME = "breaker: 40 A thermal breaker at";

export const unselectivePair = defineRule({
  id: "protection/unselective-pair",
  title: "Unselective pair",
  severity: "note",
  danger: "one chafed lamp wire leaves everything dark",
  why: `Of two devices in series the one nearer to a fault opens first, and alone, at every current that a fault behind it can draw. It is a shortcoming
    where it is known that the other may open too, and something that people depend on goes dark with it; else it is worth a note. Where no figure
    proves it either way, what would prove it is asked for once for each device that a critical load shares with those next
    behind it; the others are counted.`,
  silent: [
    "alternating current, which is not studied yet",
    "pairs of which it is not proven, or that are selective up to a current only, where nothing critical goes dark",
    "pairs in which the device ahead leaves nothing dark that the other does not: two feeders to one bar",
  ],
  sources: [
    { cite: cite("46-cfr-111", "111.51-3, of ships", "read"), sets: ["us-small-craft"] },
    { cite: cite("own-derivation", "bands of devices in series", "derived") },
  ],
  messages: {
    both: "{place}: a short behind its device may open the device at {upstream} as well, which leaves {lost} dark: {why}",
  },
  cures: ["smaller-device"],
  examples: {
    good: [
      { says: "the fast one opens first", plan: panel("fuse: 60 A class T at BP", "fuse: 3 A blade at PNL", "no") },
      {
        says: "nothing critical goes dark, and nothing is known",
        plan: panel("fuse: 60 A ANL at BP", "fuse: 5 A blade at PNL", "no"),
      },
    ],
    bad: [
      {
        says: "the same breaker twice",
        plan: panel(`${SAME} BP`, `${SAME} PNL`),
        fails: "both",
        about: "circuits.W10",
      },
      {
        says: "nothing is published of the one ahead",
        plan: panel("fuse: 60 A ANL at BP", "fuse: 5 A blade at PNL"),
        fails: "cannot tell",
        about: "circuits.W04",
      },
    ],
  },
  judge(build, report) {
    for (const view of build.circuits)
      if (view.model === null) report.notApplicable(view.subject, "alternating current is not studied yet");
    const studied = new Map(studiedDevices(build).map((s) => [s.index, s]));
    const asked = new Map<StudiedDevice, Needed[]>();
    const known = new Set<StudiedDevice>();
    const { pairs, lostToo } = seriesPairs(build.settled);
    for (const pair of pairs) {
      const up = studied.get(pair.upstream);
      const down = studied.get(pair.downstream);
      if (up !== undefined && down !== undefined) judgePairOf(build, pair, up, down, lostToo, { asked, known }, report);
    }
    for (const [up, needs] of asked) {
      const [first] = needs;
      // Of a device that is known to open for one of them, no more is asked.
      if (first !== undefined && !known.has(up)) report.cannotTell(up.subject, [first], { severity: "should" });
    }
  },
});

function judgePairOf(
  build: Build,
  pair: SeriesPairs["pairs"][number],
  up: StudiedDevice,
  down: StudiedDevice,
  lostToo: SeriesPairs["lostToo"],
  { asked, known }: { asked: Map<StudiedDevice, Needed[]>; known: Set<StudiedDevice> },
  report: Report<"both">,
): void {
  const { subject } = down;
  const { judgement, isNext, greatest } = pair;
  const { verdict, missing, because, trust } = judgement;
  if (verdict === "selective") {
    report.pass(subject);
    return;
  }
  if (greatest <= (down.device.rating ?? 0)) {
    report.notApplicable(subject, "no short behind it draws more than its rating");
    return;
  }
  const dark = lostToo(pair);
  const critical = dark.filter((part) => build.part(part)?.part.critical === true);
  const isKnown =
    missing === null && (verdict === "not selective" || (verdict === "selective up to" && critical.length > 0));
  if (dark.length === 0) report.notApplicable(subject, "nothing else goes dark with the device ahead of it");
  else if (isKnown) {
    const lost = critical.length > 0 ? critical : dark;
    known.add(up);
    report.fail(subject, "both", {
      severity: critical.length > 0 ? "should" : "note",
      trust,
      words: { upstream: up.device.part, lost: nameSome(lost), why: because },
    });
  } else if (critical.length > 0 && isNext) {
    const needs = asked.get(up) ?? [];
    asked.set(up, needs);
    needs.push(needed(missing ?? because, up.subject));
  } else report.notApplicable(subject, "it is not proven to be selective with a device ahead of it");
}
