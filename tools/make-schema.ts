import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { createGenerator, type Schema } from "ts-json-schema-generator";

/**
 * Makes the published schemas of `schema/` from the TypeScript types of the results: one source, so that they cannot drift apart. Meaning
 * comes from the doc comments; every number says its unit. The same sources give the same bytes.
 */
const root = join(import.meta.dirname, "..");
const to = join(root, "schema");

interface Published {
  readonly file: string;
  readonly type: string;
  readonly title: string;
}

/** Every type can be reached from here. */
const documents = join(root, "src", "cli", "documents.ts");

export const published: readonly Published[] = [
  { file: "design.schema.json", type: "DesignDocument", title: "A computed build" },
  { file: "check.schema.json", type: "CheckDocument", title: "What is said about plans" },
  { file: "cure.schema.json", type: "CureDocument", title: "Changes of a plan that make a finding go" },
  { file: "build.schema.json", type: "BuildDocument", title: "What was written" },
  { file: "size.schema.json", type: "SizeDocument", title: "The wire for one circuit" },
  { file: "why.schema.json", type: "WhyDocument", title: "Why a figure of a plan is what it is" },
  { file: "read.schema.json", type: "ReadDocument", title: "What a wire label means" },
  { file: "convert.schema.json", type: "ConvertDocument", title: "A size of another system" },
  { file: "substitute.schema.json", type: "SubstituteDocument", title: "A wire in place of the drawn one" },
  { file: "faults.schema.json", type: "FaultsDocument", title: "What short circuits draw, and what they meet" },
  { file: "selectivity.schema.json", type: "SelectivityDocument", title: "Which device opens, and what goes dark" },
  { file: "states.schema.json", type: "StatesDocument", title: "States of the alternating side" },
  { file: "compare.schema.json", type: "CompareDocument", title: "A plan under two rule sets" },
  { file: "question.schema.json", type: "QuestionText", title: "A question about one circuit" },
];

/** The unit that the end of a name stands for; the longest end counts. */
const unitOfEnd: readonly (readonly [end: RegExp, unit: string])[] = [
  [/Mm2M$/, "mm²·m"],
  [/Mm2$/, "mm²"],
  [/[a-z]Mm$/, "mm"],
  [/PerKm$/, "Ω/km"],
  [/(?:[a-z0-9]M|Metres|^metres)$/, "m"],
  [/(?:[a-z]C)$/, "°C"],
  [/(?:[a-z]A|[aA]mps|ampacity)$/, "A"],
  [/(?:[a-z]V|[vV]olts|[a-z]Above)$/, "V"],
  [/(?:Share|[mM]argin)$/, "parts of one: 0.03 is 3 %"],
  [/[pP]ercent$/, "%"],
  [/(?:[a-z]S|Seconds)$/, "s"],
];

/** Numbers that count or place, money, and the ends of a value, whose unit is that of the fact they belong to. */
const unitless =
  /^(?:line|column|start|end|errors|warnings|hints|notes|bytes|tried|lines|rounds|parallel|low|high|must|should|note|waived|cannotTell|cannotTellMust|pass|thin|notApplicable|insulated|total|count|number|actions|positions|combinations|reached|runs|wires|price)$/;
/** A text that says its unit itself. */
const saysUnit = /[ ,(](?:mm²·m|mm²|m|°C|A²s|A|V|W|Ω|%|s)(?:[ .;,)]|$)|in the unit beside it/;

type Property = Schema & { type?: string | string[]; description?: string };

/** Adds the unit to the description of each number that does not say it; a number without any unit stops the work. */
function sayUnits(schema: Schema, where: string): void {
  for (const [name, definition] of Object.entries(schema.properties ?? {})) {
    if (typeof definition === "boolean") continue;
    const property = definition as Property; // what the generator makes of a property
    const says = property.description ?? "";
    // A figure carries its unit beside it.
    const besideUnit = name === "value" && schema.properties?.["unit"] !== undefined;
    if ([property.type].flat().includes("number") && !besideUnit && !unitless.test(name) && !saysUnit.test(says)) {
      const unit = unitOfEnd.find(([end]) => end.test(name))?.[1];
      if (unit === undefined) throw new Error(`${where}.${name}: no unit for this number`);
      property.description = says === "" ? `In ${unit}.` : `${says} In ${unit}.`;
    }
    sayUnits(property, `${where}.${name}`);
  }
  const inside = [schema.items, ...(schema.anyOf ?? [])].flat();
  for (const one of inside) if (typeof one === "object") sayUnits(one, where);
}

/** Text of each schema, by file. */
export function makeSchemas(): Map<string, string> {
  const generator = createGenerator({
    path: documents,
    tsconfig: join(root, "tsconfig.json"),
    expose: "export",
    jsDoc: "extended",
    topRef: false,
    sortProps: false,
    additionalProperties: false,
    skipTypeCheck: true,
  });
  return new Map(
    published.map(({ file, type, title }) => {
      const schema = generator.createSchema(type);
      for (const [name, definition] of Object.entries(schema.definitions ?? {})) {
        if (typeof definition !== "boolean") sayUnits(definition, name);
      }
      sayUnits(schema, type);
      const { $schema, ...rest } = schema;
      return [file, `${JSON.stringify({ $schema, title, ...rest }, null, "\t")}\n`];
    }),
  );
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  mkdirSync(to, { recursive: true });
  const schemas = makeSchemas();
  for (const [file, text] of schemas) writeFileSync(join(to, file), text);
  console.log(`schema: ${schemas.size} schemas`);
}
