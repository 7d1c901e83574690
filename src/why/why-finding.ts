import { alsoInSays, printFigure, type Finding } from "../rules/index.ts";
import { printCitation } from "../explain/index.ts";
import { circuitAt, laidWeigher, type Built } from "./built.ts";
import { emptyExplanation, finish } from "./finish.ts";
import type { Explanation, WorkedFigure, WorkedStep } from "./explanation.ts";
import { ofCircuit, ofPart, type Thing } from "./leans-on.ts";
import { placeOf } from "./plan-place.ts";
import { explainCircuit, type CircuitTopic } from "./why-circuit.ts";
import { explainLoad } from "./why-part.ts";

/** Which working stands behind what a rule measures. */
const topics: readonly (readonly [unit: string, rule: RegExp, topic: CircuitTopic])[] = [
  ["A", /device|fuse|breaker/, "device"],
  ["A", /overload|ampacity|conductor/, "ampacity"],
  ["share", /drop/, "drop"],
  ["V", /./, "volts"],
  ["°C", /./, "temperature"],
  ["m", /./, "length"],
  ["mm²", /./, "size"],
];

/**
 * Explains what a rule found: what could happen, what was measured against which limit, and the working behind the figure.
 *
 * @param finding of this very build
 */
export function whyFinding(finding: Finding, built: Built): Explanation {
  const { rule, about, title, measured, limit, clause, trust, danger, because, state, alsoIn, needs } = finding;
  const [section = "", name = "", end = ""] = pathOf(about, built);
  const steps: WorkedStep[] = [];
  const figures: WorkedFigure[] = [];
  for (const [label, value] of [
    ["measured", measured],
    ["limit", limit],
  ] as const) {
    if (value === null) continue;
    const text = printFigure(value);
    const unit = value.unit === "share" || value.unit === "count" ? "" : value.unit;
    figures.push({ name: label, value: value.value, unit, text });
    const said = label === "limit" && clause !== null;
    steps.push({
      name: label,
      equation: "",
      working: text,
      value: value.value,
      unit,
      text,
      table: null,
      source: said ? printCitation(clause) : "",
      trust: said ? clause.trust : null,
    });
  }
  const when = state === null ? "" : `in ${state}${alsoIn.length === 0 ? "" : `; also in ${alsoInSays(alsoIn)}`}`;
  laidWeigher(built);
  const behind = workingBehind(built, finding, section, name);
  const things: Thing[] = section === "circuits" ? [ofCircuit(name)] : section === "parts" ? [ofPart(name)] : [];
  const places = finding.at
    .slice(0, 1)
    .map((span) => ({ kind: "plan" as const, says: about, ...placeOf(built.plan, span), pin: "", trust: null }));
  return finish(
    built,
    {
      ...emptyExplanation(
        `${rule} ${about}`,
        `${title}: why at ${name === "" ? about : `${name}${end === "" ? "" : ` ${end}`}`}?`,
        capital(because),
      ),
      figures: [...figures, ...(behind?.figures ?? [])],
      ladder: behind?.ladder ?? [],
      sections: [{ title: "What the rule compares", says: when, steps, way: [] }, ...(behind?.sections ?? [])],
      leansOn: [
        ...places,
        ...needs.map(({ fact, about: whom }) => ({
          kind: "missing" as const,
          says: `${whom}: ${fact} is missing`,
          line: null,
          column: null,
          pin: fact,
          trust: "missing" as const,
        })),
        ...(behind?.leansOn ?? []),
      ],
      cautions: [
        ...(danger === "" ? [] : [capital(danger)]),
        ...(trust === "practice" ? ["The limit is common practice, not a clause."] : []),
      ],
      further: behind === null ? [] : [behind.subject, ...behind.further],
    },
    things,
  );
}

function workingBehind(built: Built, { rule, measured }: Finding, section: string, name: string): Explanation | null {
  if (measured === null) return null;
  if (section === "parts")
    return measured.unit === "V" || measured.unit === "share"
      ? explainLoad(built, name, measured.unit === "V" ? "volts" : "drop")
      : null;
  const circuit = section === "circuits" ? circuitAt(built, name) : null;
  const topic = topics.find(([unit, words]) => unit === measured.unit && words.test(rule))?.[2];
  return circuit === null || topic === undefined ? null : explainCircuit(built, circuit, topic);
}

/** `circuits.W13.from` → its section, the name, what stands behind; a name may hold dots. */
function pathOf(about: string, { system }: Built): readonly string[] {
  const dot = about.indexOf(".");
  if (dot < 0) return [about];
  const section = about.slice(0, dot);
  const rest = about.slice(dot + 1);
  const names =
    section === "circuits"
      ? system.circuits.map((c) => c.id)
      : section === "parts"
        ? system.parts.map((p) => p.id)
        : [rest];
  const name = names.filter((n) => rest === n || rest.startsWith(`${n}.`)).sort((a, b) => b.length - a.length)[0];
  return name === undefined ? [section, rest] : [section, name, rest.slice(name.length + 1)];
}

function capital(text: string): string {
  const first = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.!?]$/.test(first) ? first : `${first}.`;
}
