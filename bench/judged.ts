import { readFileSync } from "node:fs";
import { join } from "node:path";
import { compile } from "../src/compile.ts";
import { defaultPaper, drawOneLine, writeSvg } from "../src/index.ts";
import { judgeDesign, rules } from "../src/rules/index.ts";
import { explainWhy } from "../src/why/index.ts";
import type { Row } from "./bench.ts";
import { makePlan } from "./make-plan.ts";
import { timeWork } from "./time.ts";

/** Judging, drawing and explaining a build that is computed; beside each the time that computing it takes. */
export function judgedRows(): Row[] {
  const rows: Row[] = [];
  const plans = [
    {
      name: "sloop",
      text: readFileSync(join(import.meta.dirname, "..", "examples", "sloop.yaml"), "utf8"),
      goals: [null, 30],
    },
    { name: "40 circuits", text: makePlan(40), goals: [null, null] },
    { name: "400 circuits", text: makePlan(400), goals: [20, null] },
  ] as const;
  for (const { name, text, goals } of plans) {
    const compiled = compile(text);
    const beside = { what: "computing the same plan", ms: timeWork(() => void compile(text), 1500).median };
    // What rules keep from one judgement to the next hangs on the settled build, so each gets one of its own.
    const anew = () => ({ ...compiled, settled: { ...compiled.settled, model: { ...compiled.settled.model } } });
    rows.push({
      work: `all rules: ${name}`,
      ...timeWork(() => void judgeDesign(anew(), rules), 1500),
      goalMs: goals[0],
      beside,
    });
    const drawing = { ...compiled, findings: compiled.judgement.findings };
    rows.push({
      work: `one-line drawing as SVG: ${name}`,
      ...timeWork(() => void drawOneLine(drawing, defaultPaper(compiled.system)).map((scene) => writeSvg(scene)), 1500),
      goalMs: goals[1],
      beside,
    });
    const [wire] = compiled.design.circuits.flatMap((c) => (c.decidedBy === null ? [] : [c.id]));
    if (wire === undefined) continue;
    rows.push({
      work: `why one wire has its size: ${name}`,
      ...timeWork(() => void explainWhy(compiled, wire, { changes: false }), 1500),
      goalMs: null,
      beside,
    });
  }
  return rows;
}
