import { isVerified, printCitation, printTrust } from "../src/explain/index.ts";
import { cureMoves, rules, rulesOnDemand, type Rule } from "../src/rules/index.ts";
import { examplesOf } from "../src/rules/rule.ts";

/** Text as it may stand in a line of Markdown. */
const oneLine = (text: string): string => text.replace(/\s+/g, " ").trim();

const fence = (plan: string): string[] =>
  plan === "" ? ["the small boat as it is."] : ["```yaml", ...plan.split("\n"), "```"];

function severityLine({ severity }: Rule): string {
  if (typeof severity === "string") return `**${severity}**, in every rule set`;
  const sets = Object.entries(severity.sets).map(([set, word]) => `**${word}** in ${set}`);
  return [...sets, `**${severity.otherwise}** in the others`].join(", ");
}

/** The page of one rule, made from the rule itself; its examples are those that the tests run. */
function rulePage(rule: Rule): string {
  const sources = rule.sources.map(({ cite, sets }) => {
    const where = sets === undefined ? "" : `${sets.join(", ")}: `;
    const trust = isVerified(cite.trust) ? "" : ` (${printTrust(cite.trust)})`;
    return `* ${where}${printCitation(cite)}${trust}`;
  });
  const cures =
    rule.cures.length === 0
      ? ["No change of a plan: a fact has to be found out, or the build to be laid out anew."]
      : [
          ...rule.cures.map((move) => `* ${cureMoves[move]}`),
          "",
          "`wireworthy cure` makes each change that fits, computes again, and shows what is then gone.",
        ];
  return [
    `# ${rule.title}`,
    "",
    `\`${rule.id}\` — ${severityLine(rule)}`,
    "",
    `**What could happen:** ${oneLine(rule.danger)}.`,
    "",
    ...Object.entries<string | undefined>(rule.dangers ?? {}).map(
      ([message, danger]) => `* \`${message}\`: ${oneLine(danger ?? "")}.`,
    ),
    ...(rule.dangers === undefined ? [] : [""]),
    oneLine(rule.why),
    "",
    "## It does not apply to",
    "",
    ...rule.silent.map((s) => `* ${oneLine(s)}`),
    "",
    "## What it says",
    "",
    ...Object.values<string>(rule.messages).map((m) => `* ${oneLine(m)}`),
    "",
    "## What may cure it",
    "",
    ...cures,
    "",
    "## Sources",
    "",
    ...(sources.length === 0 ? ["None but good sense: it asks for a record, not for a number."] : sources),
    "",
    "## Right",
    "",
    "Laid over a small boat with one battery, a switch, two bars, a panel, a lamp and a fridge (`test/rules/plain-boat.yaml`).",
    ...examplesOf(rule).good.flatMap((e) => ["", `${oneLine(e.says)}:`, "", ...fence(e.plan)]),
    "",
    "## Wrong",
    ...examplesOf(rule).bad.flatMap((e) => [
      "",
      `${oneLine(e.says)}, found in \`${e.about}\`${e.fails === "cannot tell" ? " as what cannot be told" : ""}:`,
      "",
      ...fence(e.plan),
    ]),
    "",
    "This page is made from the rule by `npm run docs`. A finding is advice to a competent person, not a certificate: local law, the edition in force and a",
    "licensed electrician or surveyor decide.",
    "",
  ].join("\n");
}

/** The list of all rules. */
function listPage(): string {
  const rows = [...rules, ...rulesOnDemand].map(({ id, title, danger, severity }) => {
    const word = typeof severity === "string" ? severity : `${severity.otherwise}, by set`;
    return `| [${id}](${id}.md) | ${title} | ${word} | ${oneLine(danger).replaceAll("|", "\\|")} |`;
  });
  return [
    "# The rules",
    "",
    "Rules judge the computed build, never the words of a plan. Each says one of four things of everything that it speaks of: it **passes** with its margin, it",
    "**fails** with its figures, it **does not apply** and why, or it **cannot be told** and which fact is missing. `must` is a law, a “shall” of the chosen rule set or",
    "sure harm; `should` is advised by a standard or agreed in the trade; `note` is worth knowing.",
    "",
    "A finding that somebody answers for is waived in the plan, under the rule and the thing that it is about; it stays visible:",
    "",
    "```yaml",
    "waivers:",
    "  protection/distant-device W04: { reason: the tap is in a conduit, by: surveyor, date: 2026-02-11, until: 2027-02-11 }",
    "```",
    "",
    "| rule | fault | how grave | what could happen |",
    "| --- | --- | --- | --- |",
    ...rows,
    "",
  ].join("\n");
}

/** Pages of all rules, by place. */
export const rulePages = (): [string, string][] => [
  ["docs/rules/README.md", listPage()],
  ...[...rules, ...rulesOnDemand].map((rule): [string, string] => [`docs/rules/${rule.id}.md`, rulePage(rule)]),
];
