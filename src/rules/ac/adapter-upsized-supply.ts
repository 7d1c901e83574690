import { cite } from "../../explain/index.ts";
import { below, needed, type Report } from "../report.ts";
import type { Build } from "../build.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure } from "../stated.ts";
import { firstDevice } from "./first-device.ts";
import { builtIn, inletsOf, type Inlet } from "./inlets.ts";

const dock = (adapter: string, inlet = "rated: 30 A", main = "breaker 30 A 2-pole"): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: us-small-craft ABYC E-11 }\nsystems:\n  AC: { kind: AC, nominal: 120 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, tested first: yes, ${inlet} }\n  A1: { kind: adapter${adapter} }\n  CU: { kind: consumer unit, main: ${main}, ways: { 1: breaker 15 A 2-pole } }\n  kettle: { kind: load, rated: 1 kW }\ncircuits:\n  W20: { path: INL → CU:in, length: 1 m, wire: 10 AWG }\n  W21: { path: CU:1 → kettle, length: 3 m }`;

/** How far a device may stand behind an inlet and still guard what is behind it, m: as of `ac/long-inlet-run` on American boats. */
const NEAR = 3;

export const adapterUpsizedSupply = defineRule({
  id: "ac/adapter-upsized-supply",
  title: "Adapter from a larger supply",
  severity: "must",
  danger: "a lead behind a breaker ashore that is twice what it may carry burns before anything opens",
  why: `An adapter lets a supply in whose device is larger than what is behind the adapter. What is behind it, inlet, wire and adapter, bears what the device on the supply's side lets through, or a device of its own within 3 m of the inlet
    is small enough for them. The lead itself has only the device ashore.`,
  silent: ["plans that name no adapter"],
  sources: [{ cite: cite("abyc-e-11", "shore power cables and adapters", "article") }],
  messages: {
    large:
      "{place} lets {measured} through to {weakest}, which bears {limit}, and no device near {inlet} is that small",
  },
  cures: ["breaker-at-inlet"],
  examples: {
    good: [
      { says: "from 30 A to 30 A", plan: dock(", rated: 30 A, upstream: 30 A") },
      { says: "a breaker behind the inlet", plan: dock(", rated: 50 A, upstream: 50 A") },
    ],
    bad: [
      {
        says: "from 50 A to 30 A, and the main is as large",
        plan: dock(", rated: 50 A, upstream: 50 A", "rated: 30 A", "breaker 50 A 2-pole"),
        fails: "large",
        about: "parts.A1",
      },
      {
        says: "nobody knows what is ahead",
        plan: dock(", rated: 30 A, upstream: unknown"),
        fails: "cannot tell",
        about: "parts.A1",
      },
    ],
  },
  judge(build, report) {
    for (const adapter of build.parts) {
      if (adapter.part.kind !== "adapter") continue;
      const { subject } = adapter;
      const upstream = saysFigure(factsOf(adapter), "upstream");
      const inlets = inletsOf(build).filter((i) => i.view.part.supply === adapter.part.supply || adapter.part.supply === undefined); // prettier-ignore
      if (inlets.length === 0) report.notApplicable(subject, "there is no inlet behind it");
      else if (upstream === undefined || upstream === "unknown")
        report.cannotTell(subject, [needed("the rating of the device on the supply's side of it", subject)]);
      else for (const inlet of inlets) judgeInlet(build, report, adapter, upstream.high, inlet);
    }
  },
});

function judgeInlet(
  build: Build,
  report: Report<"large">,
  { subject, part }: Build["parts"][number],
  upstream: number,
  inlet: Inlet,
): void {
  const first = firstDevice(build, inlet);
  const rated = part.rated === undefined || part.rated === "unknown" ? null : part.rated.low;
  const wires = (first?.circuits ?? []).map((id) => ({ what: id, amps: build.circuit(id)?.design.ampacityA ?? null }));
  const bears = [{ what: inlet.view.id, amps: inlet.amps }, ...wires];
  const near = builtIn(inlet)?.rating ?? (first?.metres != null && first.metres <= NEAR ? first.rating : null);
  const told = [...bears, { what: subject.name, amps: rated }].flatMap(({ what, amps }) => (amps === null ? [] : [{ what, amps }])); // prettier-ignore
  const weakest = told.reduce<(typeof told)[number] | null>((a, b) => (a === null || b.amps < a.amps ? b : a), null);
  const missing = bears.find(({ amps }) => amps === null);
  if (weakest === null) {
    report.cannotTell(subject, [needed(`the rating of ${inlet.view.id}`, inlet.view.subject)]);
    return;
  }
  const limit = weakest.amps;
  const passed = Math.min(upstream, near ?? Infinity);
  const said = { measured: passed, limit, unit: "A", margin: below(passed, limit) } as const;
  if (passed > limit * (1 + 1e-9))
    report.fail(subject, "large", { ...said, words: { weakest: weakest.what, inlet: inlet.view.id } });
  else if (missing !== undefined)
    report.cannotTell(subject, [needed(`what ${missing.what} bears`, missing.what === inlet.view.id ? inlet.view.subject : `circuits.${missing.what}`)]); // prettier-ignore
  else report.pass(subject, said);
}
