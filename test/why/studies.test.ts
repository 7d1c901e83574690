import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { faultSchedule } from "../../src/cli/fault-schedule.ts";
import { faultsOnPaper } from "../../src/cli/faults-on-paper.ts";
import { coordinationOnPaper } from "../../src/cli/coordination-on-paper.ts";
import { printWhy } from "../../src/cli/print-why.ts";
import { plain } from "../../src/cli/terminal.ts";
import { textWidth } from "../../src/cli/text-width.ts";
import { compile, type Compiled } from "../../src/compile.ts";
import { studyFaults } from "../../src/size/study-faults.ts";
import { explainWhy, explanationPage, type Explanation } from "../../src/why/index.ts";
import { hostilePlan } from "../package/hostile-plan.ts";
import { redoWorking } from "./redo-working.ts";

/** What the studies of faults, heat and coordination say of a build is explained: the same figures, each sum to be done again from print. */

const read = (name: string): string =>
  name === "hostile" ? hostilePlan : readFileSync(join(import.meta.dirname, `../../examples/${name}.yaml`), "utf8");

function explained(built: Compiled, asked: string): Explanation {
  const found = explainWhy(built, asked);
  assert.ok(found.ok, `${asked}: ${found.ok ? "" : found.problem}`);
  return found.explanation;
}
const valueOf = ({ figures }: Explanation, name: string): unknown => figures.find((f) => f.name === name)?.value;

/** Names of examples with how many sums and ways there are at least. */
const examples = [
  ["sloop", 250, 80],
  ["sloop-us", 250, 80],
  ["sloop-audit", 200, 60],
  ["van", 150, 50],
  ["hut", 30, 10],
  ["hostile", 0, 0],
] as const;

describe.each(examples)("%s", (name, leastSums, leastWays) => {
  const built = compile(read(name));
  const topics = ["fault", "selectivity", "interrupt", "heat", "margin"] as const;
  const parts = built.system.parts.map(({ id }) => id);
  const asked = [
    ...built.system.circuits.flatMap(({ id }) => topics.map((topic) => `${id}.${topic}`)),
    ...parts.map((id) => `${id}.fault`),
  ];
  const all = new Map(asked.map((one) => [one, explained(built, one)]));

  test("every figure of the schedule's second table has an explanation that comes to it", () => {
    let count = 0;
    for (const { circuit, governing, fault, heat } of faultSchedule(built)) {
      const own = (topic: string, figure: string): unknown => {
        const found = all.get(`${circuit.id}.${topic}`);
        assert.ok(found);
        return valueOf(found, figure);
      };
      const same = (given: unknown, wanted: number | null | undefined, what: string): void => {
        if (wanted === null || wanted === undefined) return;
        count++;
        assert.ok(
          typeof given === "number" && Math.abs(given - wanted) <= 1e-9 * Math.max(1, Math.abs(wanted)),
          `${circuit.id}, ${what}: explained ${String(given)}, scheduled ${wanted}`,
        );
      };
      same(own("margin", "margin"), governing.margin, "margin");
      same(own("fault", "faultGreatestA"), fault?.nearA, "greatest");
      same(own("fault", "faultLeastA"), fault?.leastA, "least");
      same(own("fault", "faultBorneShare"), fault?.bearsShare, "borne");
      if (fault?.outcome === "cleared") same(own("fault", "faultClearedByS"), fault.withinS, "cleared");
      same(own("heat", "modelLowC"), heat?.atDesign.lowC, "model, at least");
      same(own("heat", "modelHighC"), heat?.atDesign.highC, "model, at most");
    }
    assert.ok(count >= leastSums / 4, `${count} figures`);
  });

  test("what a device may have to break, and how far a pair is selective, is what the tables say", () => {
    for (const device of faultsOnPaper(built).devices) {
      if (device.circuit === null || device.toBreak === null) continue;
      const found = all.get(`${device.circuit}.interrupt`);
      const values = found?.figures.filter((f) => f.name === "toBreakA").map((f) => f.value) ?? [];
      const wanted = device.toBreak.highA;
      assert.ok(
        values.some((v) => typeof v === "number" && Math.abs(v - wanted) <= 1e-9 * wanted),
        `${device.device}: ${values.join()} for ${wanted}`,
      );
    }
    const { settled } = built;
    const circuits = studyFaults(settled).devices;
    for (const pair of coordinationOnPaper(built).pairs) {
      const circuit = circuits.find((d) => pair.downstream.startsWith(d.way === undefined ? `${d.circuit ?? d.part} at ${d.part}` : `${d.part}:${d.way}`))?.circuit; // prettier-ignore
      if (circuit == null) continue;
      const figures = all.get(`${circuit}.selectivity`)?.figures ?? [];
      assert.ok(
        figures.some((f) => f.value === (pair.upToA ?? pair.verdict)),
        `${pair.downstream} before ${pair.upstream}`,
      );
    }
  });

  test("every sum can be done again from what is printed", () => {
    let count = 0;
    for (const [subject, { sections }] of all) {
      for (const step of sections.flatMap((s) => s.steps)) {
        if (step.equation === "" || typeof step.value !== "number") continue;
        count++;
        const { value, slack } = redoWorking(step);
        const what = `${subject}, ${step.name}: ${step.working} = ${step.text}`;
        assert.ok(Math.abs(value - step.value) <= slack + 1e-9 * Math.abs(step.value), `${what}: done again ${value}, kept ${step.value}, rounding ${slack}`); // prettier-ignore
        assert.ok(slack <= 0.02 * Math.max(Math.abs(step.value), 0.01), `${what}: printed too coarsely, ${slack}`);
      }
    }
    assert.ok(count >= leastSums, `${count} sums`);
  });

  test("a battery loses all its volts on the way into a dead short and back, and Ohm's law holds in each element", () => {
    let ways = 0;
    for (const [subject, { sections }] of all) {
      if (!subject.endsWith(".fault")) continue;
      for (const { way, steps, title } of sections) {
        if (way.length === 0) continue;
        ways++;
        const total = way.reduce((sum, e) => sum + e.volts, 0);
        const rest = steps.find((s) => / at rest$/.test(s.name))?.value;
        // Flows below a billionth of the fault's are left out, and each element has its own rounding.
        assert.ok(typeof rest === "number" && Math.abs(total - rest) < 1e-6 * rest, `${subject}, ${title}: ${total} of ${String(rest)} V`); // prettier-ignore
        for (const { element, amps, ohms, volts } of way) {
          assert.ok(Math.abs(amps * ohms - volts) < 1e-9, `${subject}: ${element}`);
          assert.ok(ohms > 0, `${subject}: ${element} has ${ohms} Ω`);
        }
      }
    }
    assert.ok(ways >= leastWays, `${ways} ways`);
  });

  test("explanations are plain data, fit into a terminal, and leave the build as they found it", () => {
    for (const [subject, one] of all) {
      assert.deepEqual(JSON.parse(JSON.stringify(one)), one);
      assert.doesNotMatch(JSON.stringify(one), /undefined|NaN|\[object|Infinity/, subject);
      assert.match(one.answer, /\.$/);
      assert.ok(explanationPage(one, "plan").includes("</html>"));
      for (const width of [80, 120])
        for (const line of printWhy(one, width, plain).split("\n"))
          assert.ok(textWidth(line) <= width, `${subject} at ${width}: ${line}`);
    }
    assert.deepEqual(compile(read(name)).design, built.design);
  });
});

test("windlass: what its wire adds to the least short, by hand", () => {
  const built = compile(read("sloop"));
  const fault = explained(built, "windlass fault");
  const way = fault.sections.find((s) => s.title.startsWith("The least"))?.way ?? [];
  // IEC 60228:2004 Table 3, class 5, metal-coated, 35 mm²: 0.565 Ω/km at 20 °C; IEC 60287-1-1 Table 1: α20 = 0.00393; insulation of 90 °C; 8.6 m
  const wire = 0.565e-3 * 8.6 * (1 + 0.00393 * 70);
  const found = way.filter((e) => e.element.startsWith("W12") && e.what === "wire").map((e) => e.ohms);
  assert.equal(found.length, 2);
  for (const ohms of found) assert.ok(Math.abs(ohms - wire) < 1e-9, `${ohms} for ${wire}`);
  // 12.8 V over 3.0 kA declared, three times as much cold and aged
  const inside = way.find((e) => e.what === "source");
  assert.ok(Math.abs((inside?.ohms ?? 0) - (3 * 12.8) / 3000) < 1e-12);
});

test("faults, heat and coordination can be asked as people write it", () => {
  const built = compile(read("sloop"));
  const same: readonly (readonly [string, readonly string[]])[] = [
    ["W12.fault", ["W12 fault", "w12.short circuit", "W12 short", "W12.withstand"]],
    ["windlass.fault", ["windlass fault", "Windlass.short"]],
    ["B1.fault", ["B1 fault", "B1.sharing"]],
    ["W12.selectivity", ["W12 selectivity", "W12.coordination"]],
    ["W12.interrupt", ["W12 interrupt rating", "W12.interrupt"]],
    ["W12.heat", ["W12 heat"]],
    ["W12.margin", ["W12 margin"]],
  ];
  for (const [subject, ways] of same) for (const asked of ways) assert.equal(explained(built, asked).subject, subject);
});
