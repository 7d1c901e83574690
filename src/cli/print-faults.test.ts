import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { hostilePlan } from "../../test/package/hostile-plan.ts";
import { compareRuleSets } from "../act/compare-rule-sets.ts";
import { compile } from "../compile.ts";
import { ruleSets } from "../ruleset/index.ts";
import { studyFaults } from "../size/study-faults.ts";
import { coordinationOnPaper } from "./coordination-on-paper.ts";
import { circuitRows, openRows } from "./fault-rows.ts";
import { faultSchedule } from "./fault-schedule.ts";
import { faultsOnPaper } from "./faults-on-paper.ts";
import { faultsOfCircuit, printCircuitFault } from "./print-circuit-fault.ts";
import { printCompare } from "./print-compare.ts";
import { printFaults } from "./print-faults.ts";
import { printSelectivity } from "./print-selectivity.ts";
import { plain } from "./terminal.ts";
import { textWidth } from "./text-width.ts";

const folder = fileURLToPath(new URL("../../examples", import.meta.url));
const plans = [
  ...readdirSync(folder)
    .filter((name) => name.endsWith(".yaml"))
    .map((name) => [name, readFileSync(`${folder}/${name}`, "utf8")] as const),
  ["hostile.yaml", hostilePlan] as const,
  ["empty.yaml", ""] as const,
];
const WIDTHS = [80, 100, 120, 160];

describe.each(plans)("%s", (_, text) => {
  const compiled = compile(text);
  const faults = faultsOnPaper(compiled);
  const coordination = coordinationOnPaper(compiled);

  test("no line is too long and none ends in blanks", () => {
    const ids = compiled.system.circuits.map(({ id }) => id);
    for (const width of WIDTHS) {
      const pages = [
        printFaults(compiled, faults, width, plain),
        printSelectivity(compiled, coordination, width, plain),
        ...ids.map((id) => printCircuitFault(compiled, id, faultsOfCircuit(faults, id), width, plain)),
      ];
      for (const line of pages.join("").split("\n")) {
        assert.ok(textWidth(line) <= width, `at ${width}: ${line}`);
        assert.equal(line, line.trimEnd());
      }
    }
  });

  test("says what the studies say, by name: nothing is lost and nothing is added", () => {
    const study = studyFaults(compiled.settled);
    assert.equal(faults.open.length, study.open.length);
    assert.equal(faults.devices.length, study.devices.length);
    assert.equal(new Set(faults.devices.map(({ device }) => device)).size, faults.devices.length);
    for (const row of circuitRows(faults, compiled.design.circuits)) {
      const own = study.circuits.find((c) => c?.circuit === row.id);
      const highs = own?.ends.filter((e) => e.to === "return").map((e) => e.greatest?.amps.high ?? 0) ?? [];
      assert.equal(row.nearA ?? 0, Math.max(...highs));
    }
    const places = new Set(study.open.map(({ at }) => at.replace(/ at \w+$/, "")));
    assert.deepEqual(new Set(openRows(faults.open).map(({ at }) => at)), places);
    for (const one of [faults, coordination]) assert.deepEqual(JSON.parse(JSON.stringify(one)), one);
  });
});

test("the margin of what governs is that of the schedule's own figures", () => {
  const [, text = ""] = plans.find(([name]) => name === "sloop.yaml") ?? [];
  const rows = new Map(faultSchedule(compile(text)).map((row) => [row.circuit.id, row]));
  const drop = rows.get("W12");
  assert.equal(drop?.governing.id, "drop");
  const { dropShare, dropLimitShare } = drop?.circuit ?? {};
  assert.ok(dropShare != null && dropLimitShare != null);
  assert.equal(drop?.governing.margin, 1 - dropShare / dropLimitShare);
  const device = rows.get("W03");
  // 150 A where the wire allows 185 A
  assert.equal(device?.governing.id, "device");
  assert.ok(Math.abs((device?.governing.margin ?? 0) - (1 - 150 / 185)) < 1e-9);
});

describe("another rule set", () => {
  const [, text = ""] = plans.find(([name]) => name === "sloop.yaml") ?? [];
  const compiled = compile(text);

  test.each(ruleSets.map(({ id }) => id))("%s: every line fits, and nothing of the plan moves", (id) => {
    const before = JSON.stringify(compiled.design);
    const result = compareRuleSets(text, compiled, id, compile);
    assert.ok(result.ok);
    assert.equal(JSON.stringify(compiled.design), before);
    assert.equal(result.circuits.length, compiled.design.circuits.length);
    for (const width of WIDTHS)
      for (const line of printCompare(result, width, plain).split("\n"))
        assert.ok(textWidth(line) <= width, `${id} at ${width}: ${line}`);
  });

  test("its own set changes nothing, raises nothing and clears nothing", () => {
    const own = compareRuleSets(text, compiled, "iso-small-craft 2020+A1:2022", compile);
    assert.ok(own.ok);
    assert.deepEqual(
      own.circuits.filter((c) => c.changed).map((c) => c.id),
      [],
    );
    assert.deepEqual([own.raises, own.clears], [[], []]);
    assert.match(printCompare(own, 120, plain), /nothing would be built otherwise/);
  });

  test("what is written by hand with that set in the plan comes to the same", () => {
    const result = compareRuleSets(text, compiled, "us-small-craft", compile);
    assert.ok(result.ok);
    const byHand = compile(text.replaceAll("iso-small-craft 2020+A1:2022", result.then));
    for (const { id, then } of result.circuits) {
      const own = byHand.design.circuits.find((c) => c.id === id);
      assert.equal(then.areaMm2, own?.size == null ? null : own.size.areaMm2 * own.make.parallel, id);
      assert.equal(then.ampacityA, own?.ampacityA, id);
    }
    assert.deepEqual(result.tally.anew, byHand.judgement.tally);
  });

  test("a set that there is not is asked back", () => {
    const result = compareRuleSets(text, compiled, "iso boat", compile);
    assert.ok(!result.ok);
    assert.match(result.hint, /iso-small-craft/);
  });
});
