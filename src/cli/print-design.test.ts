import { test } from "vitest";
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { compile } from "../compile.ts";
import { hostilePlan } from "../../test/package/hostile-plan.ts";
import { printDesign } from "./print-design.ts";
import { printDiagnostics } from "./print-diagnostics.ts";
import { plain } from "./terminal.ts";
import { textWidth } from "./text-width.ts";

const folder = fileURLToPath(new URL("../../examples", import.meta.url));
const plans = [
  ...readdirSync(folder)
    .filter((name) => name.endsWith(".yaml"))
    .map((name) => ({ name, text: readFileSync(`${folder}/${name}`, "utf8") })),
  { name: "hostile.yaml", text: hostilePlan },
  { name: "empty.yaml", text: "" },
];

test("at every width no line is too long and none ends in blanks", () => {
  for (const { name, text } of plans) {
    const compiled = compile(text);
    for (const width of [80, 81, 97, 120, 160]) {
      const page = printDesign(name, compiled, width, plain).split("\n");
      const told = printDiagnostics(name, text, compiled.diagnostics, { width, paint: plain });
      for (const line of [...page, ...told]) {
        assert.ok(textWidth(line) <= width, `${name} at ${width}: ${line}`);
        assert.equal(line, line.trimEnd(), name);
      }
    }
  }
});

test("numbers of a column stand on their point, at every width", () => {
  const text = plans.find(({ name }) => name === "sloop.yaml")?.text ?? "";
  const compiled = compile(text);
  for (const width of [80, 100, 140]) {
    const lines = printDesign("sloop.yaml", compiled, width, plain).split("\n");
    const head = lines.findIndex((line) => /^wire .* V +V +by$/.test(line));
    const above = lines[head - 1] ?? "";
    const rows = lines.slice(head + 1, head + 21);
    for (const column of ["Iz", "drop", "least"]) {
      const from = above.indexOf(column) - 3;
      const points = rows.map((row) => row.slice(from, from + column.length + 3).indexOf(".")).filter((at) => at >= 0);
      assert.ok(points.length > 3, `${column} at ${width}`);
      assert.equal(new Set(points).size, 1, `${column} at ${width}:\n${rows.join("\n")}`);
    }
  }
});

test("a device is never cut short: its length is part of what is bought", () => {
  const text = plans.find(({ name }) => name === "sloop.yaml")?.text ?? "";
  const compiled = compile(text);
  for (const width of [80, 90, 100, 120, 140, 160]) {
    const page = printDesign("sloop.yaml", compiled, width, plain);
    assert.match(page, /battery-post fuse/);
    assert.doesNotMatch(page, /battery(?:-p?o?s?t?)?(?: f?u?s?)?…/);
  }
});

test("a wire that the schedule marks stands among what is to be looked at first", () => {
  const plan = (wire: string): string =>
    `systems:\n  AC: { kind: AC, nominal: 240 V, phases: split, frequency: 60 Hz, cores: [L1, L2, N, PE] }\nrules: { AC: us-cabin }\nstock: { sizes: AWG, metal: copper, insulation: 75 °C }\nparts:\n  GEN: { kind: generator, rated: 7 kW, neutral: bonded }\n  PIB: { kind: shore inlet, rated: 30 A }\n  heater: { kind: load, running: 2 A, rated at: 240 V }\ncircuits:\n  C2: { path: GEN → PIB, length: 6 m${wire} }\n  C3: { path: PIB → heater, length: 5 m, cores: [L1, L2, PE] }\n`;
  const page = (wire: string): string => printDesign("x.yaml", compile(plan(wire)), 160, plain);
  const marked = page(", cable: 12/4 SOOW");
  assert.match(marked, /pinned !$/m);
  assert.match(marked, /^! must: C2 .*; 12 AWG may carry 20 A where it is hottest$/m);
  assert.doesNotMatch(page(""), /^! C2|!: not met/m);
});
