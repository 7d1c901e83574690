import { namesIn, takeOff } from "../cure/write.ts";
import { foldName, shown } from "../plan/index.ts";
import type { Finding } from "../rules/index.ts";
import { nothingToDo, prove, refuse } from "./draft.ts";
import { oneLine } from "./read-value.ts";
import type { ActRequest, ActResult } from "./request.ts";
import type { Stand } from "./stand.ts";
import { brief } from "./step-name.ts";

/** What a waiver is called: the rule and the name of the thing. */
const waiverName = ({ rule, about }: Pick<Finding, "rule" | "about">): string =>
  `${rule} ${about === "plan" ? "plan" : about.replace(/^[a-z]+\./, "").replace(/\.(?:from|to)$/, "")}`;

const DAY = /^\d{4}-\d{2}-\d{2}$/;

/** Somebody answers for a finding: it stays visible, with the reason. */
export function waive(stand: Stand, asked: Extract<ActRequest, { readonly do: "waive" }>): ActResult {
  const { finding, by, date, until } = asked;
  const own = stand.compiled.judgement.findings.find((f) => f.rule === finding.rule && f.about === finding.about);
  if (own === undefined) return refuse("the plan has no such finding", "choose one in the margin");
  const reason = oneLine(asked.reason);
  if (typeof reason !== "string") return reason;
  if (reason === "") return refuse("why may this stand?", "the reason is printed with the finding");
  for (const day of [date, until]) {
    if (day !== undefined && day !== "" && !DAY.test(day)) {
      return refuse(`\`${shown(day)}\` is no day`, "write it as `2027-05-31`");
    }
  }
  const given = [["by", by], ["date", date], ["until", until]] as const; // prettier-ignore
  const entries = [
    ["reason", reason] as const,
    ...given.flatMap(([key, text]) => (text === undefined || text.trim() === "" ? [] : [[key, text.trim()] as const])),
  ];
  const name = waiverName(finding);
  const written = namesIn(stand.document, ["waivers"]).find((n) => foldName(n) === foldName(name));
  return prove(stand, {
    edits: [
      written === undefined
        ? { do: "add", path: ["waivers"], key: name, value: { entries } }
        : { do: "set", path: ["waivers", written], value: { entries } },
    ],
    step: `waived: ${brief(own.title.toLowerCase())}, ${brief(name.slice(finding.rule.length + 1))}`,
    select: finding.about,
    remarks: until === undefined || until === "" ? ["it has no end: it stands until somebody takes it back"] : [],
    mustHold: "everything",
  });
}

export function unwaive(stand: Stand, { finding }: Extract<ActRequest, { readonly do: "unwaive" }>): ActResult {
  const name = waiverName(finding);
  const edits = takeOff(stand.document, ["waivers", name]);
  const step = `waiver taken back: ${brief(name)}`;
  if (edits.length === 0) return nothingToDo(stand, step, finding.about, "it is not waived");
  return prove(stand, { edits, step, select: finding.about, remarks: [], mustHold: null });
}
