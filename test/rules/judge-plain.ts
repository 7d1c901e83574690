import { readFileSync } from "node:fs";
import { compile, type Compiled } from "../../src/compile.ts";
import { layOver } from "./lay-over.ts";

const plain = readFileSync(new URL("plain-boat.yaml", import.meta.url), "utf8");

/** The plain boat with sections laid over it, compiled and judged. */
export const judgePlain = (fragment: string): Compiled => compile(layOver(plain, fragment));

/** What a rule says of a thing: `fail`, `pass`, `cannot tell`, or why it does not apply. */
export function saidOf({ judgement }: Compiled, rule: string, about: string): string | undefined {
  const finding = judgement.findings.find((f) => f.rule === rule && f.about === about);
  if (finding !== undefined) return finding.outcome;
  if (judgement.passes.some((p) => p.rule === rule && p.about === about)) return "pass";
  return judgement.notApplicable.find((n) => n.rule === rule && n.about.includes(about))?.reason;
}
