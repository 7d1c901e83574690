import { cite } from "../../explain/index.ts";
import { nameSome } from "../battery/name-some.ts";
import { piecesOf } from "../battery/pieces.ts";
import { switchesOf } from "../battery/switches.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { alternatorsOf, storesBeside } from "./alternators.ts";

const joined = (facts: string): string => `parts:
  B3: { kind: battery, chemistry: AGM, capacity: 75 Ah, cranking: 700 A }
  ALT: { kind: alternator, ${facts} }
  REL: { kind: relay, rated: 150 A }
circuits:
  W20: { path: ALT → B3, length: 1 m }
  W21: { path: B3 → REL → BP, legs: [1 m, 0.5 m] }
  W23: { path: B3:− → BN, length: 1 m }`;

export const relayJoinedLithium = defineRule({
  id: "charging/relay-joined-lithium",
  title: "Relay-joined lithium",
  severity: "must",
  danger: "lithium takes full output without end: the alternator, the relay or the cable burns",
  why: `Where a relay or a switch, and no converter, joins an alternator to a lithium battery, the battery takes all that the alternator gives. That may be
    no more than it gives when hot; a regulator that limits it, or a DC-DC charger in place of the relay, sees to that.`,
  silent: [
    "lithium banks that a converter keeps apart from the alternator, or that hang on it without a relay: those are judged as its load",
  ],
  sources: [{ cite: cite("trade-practice", "a DC-DC charger between an alternator and lithium", "practice") }],
  messages: {
    joined: "{place} gives {measured} to {banks} through {relays} without end; hot it gives {limit}",
  },
  cures: ["limited-alternator"],
  examples: {
    good: [
      { says: "no alternator", plan: "" },
      { says: "a regulator that limits it", plan: joined("rated: 120 A, hot: 80 A, limit: 70 A") },
    ],
    bad: [
      { says: "a bare relay", plan: joined("rated: 120 A, hot: 80 A"), fails: "joined", about: "parts.ALT" },
      {
        says: "nobody knows what it gives hot",
        plan: joined("rated: 120 A, hot: unknown"),
        fails: "cannot tell",
        about: "parts.ALT",
      },
    ],
  },
  judge(build, report) {
    const switches = switchesOf(build);
    const closed = piecesOf(build.settled, () => true);
    for (const one of alternatorsOf(build)) {
      const { view, feed, hot, isHotStated } = one;
      const { subject } = view;
      const lithium = storesBeside(build, one, closed).filter((s) => s.curve === "LFP");
      // Of several ways each could be opened without parting them: only what parts them joins them.
      const joins = switches.filter(({ contacts, view: at }) => {
        if (at.part.traits.coil !== true) return false;
        const pieces = piecesOf(build.settled, (e) => !contacts.includes(e));
        const left = storesBeside(build, one, pieces);
        return lithium.some((s) => !left.includes(s));
      });
      if (joins.length === 0) report.notApplicable(subject, "no relay joins it to lithium");
      else if (feed.amps.origin === "unknown") report.cannotTell(subject, [needed("its rating", subject)]);
      else if (hot === "unknown") report.cannotTell(subject, [needed("what it gives when hot", subject)]);
      else {
        const amps = feed.amps.high;
        const said = { measured: amps, limit: hot.low, unit: "A", margin: below(amps, hot.low) } as const;
        if (amps <= hot.low) report.pass(subject, said);
        else
          report.fail(subject, "joined", {
            ...said,
            trust: isHotStated ? null : "memory",
            words: {
              banks: nameSome(lithium.map((s) => s.part)),
              relays: nameSome(joins.map((j) => j.view.subject.name)),
            },
          });
      }
    }
  },
});
