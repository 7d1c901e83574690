import { LONGEST_LINE } from "../src/plan/text/cut-text.ts";
import { LONGEST_PLAN } from "../src/plan/text/read-document.ts";
import { MOST_LEVELS } from "../src/plan/text/reading.ts";
import { partKeys } from "../src/plan/grammar/part-keys.ts";
import type { JsonSchema, KeyRule, KeyRules } from "../src/plan/grammar/rule.ts";
import { readPlan, sectionNames } from "../src/plan/read-plan.ts";
import { units, type UnitRow } from "../src/quantity/units.ts";
import { kinds } from "../src/system/kinds/index.ts";
import type { Kind } from "../src/system/kind.ts";
import type { Port } from "../src/system/terminal.ts";
import { sectionDocs, type SectionDoc } from "./plan-sections.ts";
import { kindExamples, quantityExamples, spellings, valueForms } from "./plan-values.ts";

/** The reference of the plan language, made from the tables that the reader reads by. */
export function languagePage(): string {
  const sections = sectionNames.map((name) => sectionDocs.find((s) => s.name === name) ?? bare(name));
  return [
    HEAD,
    overview(sections),
    RULES,
    keyboards(),
    values(),
    "## Sections",
    ...sections.filter((s) => s.keys !== undefined || s.more !== undefined).map(sectionPage),
    kindsPages(),
    notUsed(sections),
  ].join("\n\n");
}

const bare = (name: string): SectionDoc => ({ name, holds: "", shape: "anything" });

const HEAD = `# The plan language, version 1

<!-- Made by \`npm run docs\` from the tables that the reader reads by. Do not edit. -->

A plan is one text file that says what a person knows of a build: its parts, the runs between them, what is on when, and which rules apply.
Whatever is left out is chosen, or assumed and listed. A whole plan:

\`\`\`yaml plan
wireworthy: 1
name: Weekend van
rules: { DC: iso-small-craft 2020+A1:2022 }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
stock: { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }
climate: { ambient: 35 °C }

parts:
  B1: { kind: battery, chemistry: LFP, capacity: 150 Ah, short-circuit: 3.0 kA, management: { continuous: 150 A, warns: yes },
        held down: yes, posts covered: yes, vents: { to: outside } }
  SW1: { kind: switch, name: main switch, rated: 200 A }
  BN: { kind: bus bar, name: negative bus }
  PNL: { kind: panel, ways: 6, device: breaker, negative bar: yes }
  fridge: { kind: load, running: 4.3 A, starting: 8 A, starts above: 11.5 V }
  lights: { kind: light, count: 5, looped: yes, running: 0.12 A }

circuits: # the key is the number on the sleeve
  W1: { path: B1 → SW1, length: 0.9 m }
  W2: { path: SW1 → PNL, length: 1.4 m, demand: 30 A }
  W3: { path: "B1:− → BN", length: 0.6 m }
  W4: { path: PNL:1 → fridge, length: 5.2 m }
  W5: { path: PNL:2 → lights, length: 7.6 m, wire: 1.5 mm² } # pinned: judged, never changed

states:
  evening: { on: [fridge, lights], charge: 40 % }
\`\`\`

What is wrong is said with its place and one next step, and the rest is still read:

\`\`\`yaml plan
wireworthy: 1
systems: { DC: { kind: DC, nominal: 12 V } }
parts:
  fridge: { kind: load, running: 4.3 } #! error plan/unit-missing
  freezer: { kind: laod, running: 4 A } #! error plan/kind-unknown
\`\`\`

In the tables below a key in _slanted_ letters is read, kept and said to be **read, not used yet**: no study needs it so far.`;

function overview(sections: readonly SectionDoc[]): string {
  return `## Overview

Sections stand at the left edge, in any order; none but \`wireworthy\` is needed.

${table(
  ["section", "holds"],
  sections.map((s) => [s.idle === true ? `_\`${s.name}\`_` : `\`${s.name}\``, s.holds]),
)}`;
}

const thousands = (n: number): string => n.toLocaleString("en-GB");

const RULES = `## How a plan is written

* \`key: value\`, one a line; what belongs to a key is indented under it, with blanks and never with tabs. \`{ key: value, key: value }\` and \`[value, value]\`
  say the same on one line, with a blank behind each colon and comma.
* Values are taken from the text as they stand: \`0000\` stays a wire size and \`1.10\` stays \`1.10\`.
* \`#\` with a blank before it starts a comment. Comments, order and style of every line outlive an edit made by the program.
* \`unknown\` says that nobody knows, and no default takes its place. A key that is left out takes its default, which is listed.
* A text that holds \`: \` or \` #\`, or starts with one of \`\`& * ! % @ \` " '\`\`, stands in quotes.
* Names are matched without regard to case and to doubled blanks. Names of parts, systems, zones and states do not get in each other's way.
* A key that nothing knows, a name that stands twice, a bracket that is not closed: each is said with its place, and the rest is still read.
* Anchors, aliases, tags, merge keys, directives and a second document are refused: nothing here needs them.
* At most ${thousands(LONGEST_PLAN)} characters, ${thousands(LONGEST_LINE)} a line, ${MOST_LEVELS} levels inside one another.`;

function keyboards(): string {
  return `## What keyboards differ in

${table(
  ["", "read alike"],
  spellings.map(({ what, alike }) => [what, alike.map(code).join("  ")]),
)}

A decimal comma is read where a quantity is expected and its unit follows, in brackets too: \`at: [5,5 m, 1,1 m, 0,1 m]\` is three lengths. What
could mean two things (\`1,000 W\`, \`6 mm\` where an area is expected, \`[1,2,3]\`) is asked back, never guessed.`;
}

function values(): string {
  const used = dimensionsUsed();
  return `## Values

${table(
  ["form", "written", "means"],
  valueForms.map(({ form, examples, means }) => [form, examples.map(code).join("  "), means]),
)}

Quantities by what they measure, with every unit that is read (other spellings of a unit are read too):

${table(
  ["quantity", "written", "units"],
  used.map((d) => [
    d,
    (quantityExamples[d] ?? []).map(code).join("  "),
    Object.keys(units[d] as Readonly<Record<string, UnitRow>>) // rows of one dimension
      .filter((u) => u !== "") // without a unit only counts and shares inside the program are written
      .map(code)
      .join("  "),
  ]),
)}`;
}

/** Dimensions that some key asks for, in the order of the list of units. */
function dimensionsUsed(): (keyof typeof units)[] {
  const all = [
    ...sectionDocs.flatMap((s) => Object.values(s.keys ?? {})),
    ...Object.values(partKeys),
    ...kinds.flatMap((k) => Object.values(k.facts)),
  ];
  const said = all.flatMap(({ value }) => [value.says, JSON.stringify(value.schema)]).join("\n");
  // An object's keys are plain strings to the compiler; these are the dimensions.
  return (Object.keys(units) as (keyof typeof units)[]).filter((d) =>
    new RegExp(`\\b(an?|or) ${d}( or | with )`).test(said),
  );
}

function sectionPage({ name, holds, keys, more = [], example, idle }: SectionDoc): string {
  const parts = [`### ${name}`, `${capital(holds)}.${idle === true ? " _Read, not used yet._" : ""}`, ...more];
  if (example !== undefined) parts.push(`\`\`\`yaml\n${example}\n\`\`\``);
  if (name === "parts") parts.push("Keys of every part:", keyTable(partKeys));
  if (keys !== undefined) parts.push(keyTable(keys));
  return parts.join("\n\n");
}

function keyTable(keys: KeyRules): string {
  const rows = (entries: readonly [string, KeyRule<unknown>][]): string[][] =>
    entries.flatMap(([key, rule]) => [
      [keyCell(key, rule.idle), valueCell(rule.value.says), rule.doc],
      ...innerKeys(rule.value.schema).map(([inner, doc]) => [`${keyCell(key, rule.idle)} · \`${inner}\``, "", doc]),
    ]);
  const all = Object.entries(keys);
  return table(
    ["key", "value", "says"],
    [...rows(all.filter(([, r]) => r.idle !== true)), ...rows(all.filter(([, r]) => r.idle === true))],
  );
}

const keyCell = (key: string, idle: true | undefined): string => (idle === true ? `_\`${key}\`_` : `\`${key}\``);

const valueCell = (says: string): string =>
  says
    .replace(/^(an?|the) (?=.* with its unit)/, "")
    .replaceAll(" with its unit", "")
    .replace(/^one of /, "")
    .replaceAll(" or one of ", " or ")
    .replace(/^an? (?=text|path|position|wire|device|whole|map)/, "")
    .replace(/^the (?=name)/, "")
    .replaceAll(" such as `10 A at BP`, `10 A 0.12 m from BP`, `none`, `unknown` or a part's name", " in a line")
    .replace("a device in a line", "device in a line")
    .replace(/^path such as .*/, "path")
    .replace(/^wire size such as `2.5 mm²`, `10 AWG` or `2\/0`/, "wire size")
    .replace(/^wire such as `[^,]*(?:, `[^`]*`)* or `[^`]*`/, "wire label")
    .replace(/^a cable such as .*/, "cable label")
    .replace(
      /^a colour such as `red`, `yellow\/red` or `GNYE`, or a list of them, or .*/,
      "colour, list of them, or map by core",
    )
    .replace(/^position .*/, "position");

/** Keys of a map that stands under a key, with what they say. */
function innerKeys(schema: JsonSchema): [string, string][] {
  const properties = schema["properties"];
  if (typeof properties === "object" && properties !== null) {
    return Object.entries(properties as Readonly<Record<string, JsonSchema>>).map(([key, inner]) => [
      key,
      // The description of a key in a schema: what it is for, then what is expected.
      typeof inner["description"] === "string" ? (inner["description"].split(" Expected: ")[0] ?? "") : "",
    ]);
  }
  const inside = [
    schema["additionalProperties"],
    ...(Array.isArray(schema["anyOf"]) ? (schema["anyOf"] as unknown[]) : []),
  ];
  return inside.flatMap((s) => (typeof s === "object" && s !== null ? innerKeys(s as JsonSchema) : [])); // a schema inside a schema
}

function kindsPages(): string {
  // Neighbours that differ in nothing but their words share a page.
  const groups = new Map<string, Kind[]>();
  for (const kind of kinds) {
    const page = kindFacts(kind);
    const alike = groups.get(page);
    if (alike === undefined) groups.set(page, [kind]);
    else alike.push(kind);
  }
  const all = kinds.map((k) => [code(k.name), (k.also ?? []).map(code).join("  "), k.says]);
  return `## Kinds of parts

${table(["kind", "also written", "is"], all)}

\`kind: unknown\` is lawful for a part that nobody could identify. Where a terminal is left out in a path, the one that fits is taken.

${[...groups].map(([facts, group]) => kindPage(facts, group)).join("\n\n")}`;
}

const exampleOf = (kind: Kind): string => kindExamples[kind.name] ?? `{ kind: ${kind.name} }`;

function kindPage(facts: string, group: readonly Kind[]): string {
  const alone = group.length === 1;
  return [
    `### ${group.map((k) => k.name).join(", ")}`,
    group.map((k) => (alone ? `${capital(k.says)}.` : `${code(k.name)}: ${k.says}.`)).join("\\\n"),
    `\`\`\`yaml\n${group.map((k, i) => `X${i + 1}: ${exampleOf(k)}`).join("\n")}\n\`\`\``,
    facts,
  ].join("\n\n");
}

/** Terminals, positions and keys of a part as in the example of its kind. */
function kindFacts(kind: Kind): string {
  const facts = readPlan(`parts:\n  X: ${exampleOf(kind)}\n`, kinds).value.parts[0]?.kindFacts ?? {};
  const at = { facts } as Parameters<Kind["ports"]>[0]; // read by the kind's own rules
  const positions = kind.positions?.(at) ?? [];
  const moves = ` Positions: ${positions.map(code).join(", ")}; the first is taken where a state says nothing.`;
  return [
    `Terminals: ${terminals(kind.ports(at))}.${positions.length > 0 ? moves : ""}`,
    ...(Object.keys(kind.facts).length === 0 ? [] : [keyTable(kind.facts)]),
  ].join("\n\n");
}

/** Ports of one form are named together: `1`, `2`, `3` (one pole …). */
function terminals(ports: readonly Port[]): string {
  const forms = new Map<string, string[]>();
  for (const port of ports) {
    const form = formOf(port);
    const named = forms.get(form);
    if (named === undefined) forms.set(form, [port.name]);
    else named.push(port.name);
  }
  return [...forms]
    .map(([form, names]) => {
      const written = names
        .filter((n) => n !== "")
        .map(code)
        .join(", ");
      return written === "" ? form : names.includes("") ? `${form}; ${written} are the same` : `${written} (${form})`;
    })
    .join("; ");
}

function formOf({ current, shape }: Port): string {
  if (shape === "pole") return "one point of whichever pole or core is joined to it";
  if (current === "DC") return shape === "pair" ? "`+` and `−`" : "one pole";
  if (current === "AC") return "the cores of the AC supply";
  return shape === "pair"
    ? "`+` and `−`, or the cores of the AC supply"
    : "one pole of direct current, or the cores of the AC supply";
}

function notUsed(sections: readonly SectionDoc[]): string {
  const idleKeys = (keys: KeyRules): string =>
    Object.entries(keys)
      .filter(([, r]) => r.idle === true)
      .map(([k]) => code(k))
      .join("  ");
  const rows = [
    [
      "sections",
      sections
        .filter((s) => s.idle === true)
        .map((s) => code(s.name))
        .join("  "),
    ],
    ...sections.filter((s) => s.keys !== undefined && s.idle !== true).map((s) => [s.name, idleKeys(s.keys ?? {})]),
    ["parts", idleKeys(partKeys)],
  ];
  return `## Read, not used yet

These may be written: they are read, kept with their place, and named in a note. The kinds list their own in slanted letters.

${table(
  ["where", "keys"],
  rows.filter(([, keys]) => keys !== ""),
)}
`;
}

const code = (text: string): string => `\`${text}\``;

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.map((c) => c.replaceAll("|", "\\|")).join(" | ")} |`;
  return [line(head), `|${head.map(() => " --- |").join("")}`, ...rows.map(line)].join("\n");
}
