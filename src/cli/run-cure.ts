import { compile } from "../compile.ts";
import { findCures, type Cure, type CureSearch } from "../cure/index.ts";
import { foldName } from "../plan/index.ts";
import type { Finding } from "../rules/index.ts";
import type { Given, Run } from "./command.ts";
import { codeOf, compileFile, today } from "./compile-file.ts";
import { complain } from "./complain.ts";
import { cureDocument, printJson } from "./documents.ts";
import { exitCodes } from "./exit-codes.ts";
import { printCures } from "./print-cures.ts";
import { printFindings } from "./print-findings.ts";
import { widthOf, WIDTH_PROBLEM } from "./width-of.ts";
import { writePlanBeside, writePlanInPlace, type WrittenPlan } from "./write-plan.ts";

/** Where a cure is to go: which one, and into which file; null: nowhere. */
type Apply = { readonly number: number; readonly to: string | null } | null;

/** `cure PLAN RULE ABOUT` */
export const runCure: Run = async (given, terminal) => {
  const width = widthOf(given, terminal);
  if (width === null) return complain(terminal, WIDTH_PROBLEM, "write `--width 100`");
  const apply = applyOf(given);
  if (apply !== null && "problem" in apply) return complain(terminal, apply.problem, apply.hint);
  const [file = "", rule = "", ...words] = given.names;
  const read = await compileFile(file);
  if (!read.ok) return complain(terminal, read.problem, read.hint);
  const { compiled } = read;
  const { plan, judgement } = compiled;
  const finding = named(judgement.findings, rule, words.join(" "));
  if (finding === null) {
    return complain(
      terminal,
      `nothing is found by \`${rule}\` of \`${words.join(" ")}\``,
      nearby(judgement.findings, rule),
    );
  }
  const search = findCures(plan.text, finding, compile, { today: today(), compiled });
  const cure = apply === null ? null : cureBy(search, apply.number);
  if (apply !== null && cure === null) {
    return complain(
      terminal,
      `there is no cure ${apply.number} of this`,
      `run \`wireworthy cure\` without \`--apply\` to see what there is`,
    );
  }
  let written: WrittenPlan | null = null;
  if (apply !== null && cure !== null) {
    written = await (apply.to === null
      ? writePlanInPlace(file, cure.text, plan.text)
      : writePlanBeside(apply.to, cure.text, file));
    if (!written.ok) return complain(terminal, written.problem, written.hint);
  }
  const path = written?.ok === true ? written.path : null;
  if (given.options["json"] === true) terminal.data(printJson(cureDocument(file, compiled, finding, search, path)));
  else {
    const options = { width, paint: terminal.paint };
    const lines = [...printFindings(file, plan.text, [finding], options), ...printCures(search, finding, options)];
    if (path !== null && apply !== null) lines.push("", `wrote ${path} with cure ${apply.number}`);
    terminal.out(`${lines.join("\n")}\n`);
  }
  const code = codeOf(compiled);
  return code === exitCodes.clean && search.is !== "edits" ? exitCodes.findings : code;
};

function applyOf({ names, options }: Given): Apply | { readonly problem: string; readonly hint: string } {
  const [number, out, inPlace] = [options["apply"], options["out"], options["in-place"] === true];
  if (typeof number !== "string") {
    if (typeof out !== "string" && !inPlace) return null;
    return { problem: "it is not said which cure is to be made", hint: "write `--apply 1`" };
  }
  if (!/^[1-9]\d?$/.test(number)) {
    return { problem: `\`--apply\` takes the number of a cure, and got \`${number}\``, hint: "write `--apply 1`" };
  }
  if (typeof out === "string" && inPlace) {
    return { problem: "both `-o` and `--in-place` are asked for", hint: "ask for one of the two" };
  }
  if (typeof out !== "string" && !inPlace) {
    return {
      problem: "`--apply` needs a file to write to",
      hint: "write `-o FILE`, or `--in-place` to change the plan itself",
    };
  }
  if (inPlace && names[0] === "-") {
    return { problem: "standard input cannot be changed in place", hint: "write `-o FILE`" };
  }
  return { number: Number(number), to: typeof out === "string" ? out : null };
}

const cureBy = (search: CureSearch, number: number): Cure | null =>
  search.is === "not searched" ? null : (search.cures[number - 1] ?? null);

/** The finding that is meant by a rule, perhaps without its topic, and a thing, perhaps without its section. */
function named(findings: readonly Finding[], rule: string, thing: string): Finding | null {
  const asked = foldName(thing);
  const isRule = (f: Finding): boolean => f.rule === rule || f.rule.endsWith(`/${rule}`);
  const own = findings.filter(isRule);
  return (
    own.find((f) => foldName(f.about) === asked) ??
    own.find((f) => foldName(f.about.replace(/^\w+\./, "")) === asked) ??
    own.find((f) => foldName(f.about.replace(/^\w+\.|\.(?:from|to)$/g, "")) === asked) ??
    null
  );
}

/** What is found by that rule; else where to look. */
function nearby(findings: readonly Finding[], rule: string): string {
  const things = findings.filter((f) => f.rule === rule || f.rule.endsWith(`/${rule}`)).map((f) => f.about);
  return things.length > 0
    ? `it is found of ${things
        .slice(0, 8)
        .map((t) => `\`${t}\``)
        .join(", ")}`
    : "`wireworthy check PLAN` names each rule that finds something, and in what";
}
