import { nearestNames } from "../plan/text/nearest.ts";
import { readQuantity } from "../quantity/index.ts";
import { isStrands, type Strands } from "../wire/index.ts";
import { kindOfMake, type ConvertBy, type ConvertInput, type LadderSystem } from "../wire/convert/index.ts";
import { readLabel } from "../wire/label/read-label.ts";
import type { PrintedMetal, PrintedSize, WireMake } from "../wire/make/wire-make.ts";
import { plainName } from "../wire/name/index.ts";
import type { Given } from "./command.ts";

/** What is asked of `convert`, or why it cannot be told. */
export type ConvertQuestion =
  | {
      readonly ok: true;
      readonly input: ConvertInput & { readonly conductorC: number };
      /** What the answer should tell of the question. */
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly problem: string; readonly hint: string };

const no = (problem: string, hint: string) => ({ ok: false, problem, hint }) as const;

/** The systems as people write them, without case or blanks. */
const systems: Readonly<Record<string, LadderSystem>> = {
  "mm²": "mm²",
  mm2: "mm²",
  sqmm: "mm²",
  mmsq: "mm²",
  metric: "mm²",
  awg: "AWG",
  "b&s": "AWG",
  kcmil: "AWG",
  mcm: "AWG",
  sae: "SAE",
  swg: "SWG",
  jis: "JIS",
  sq: "JIS",
  vehiclediameter: "vehicle diameter",
  auto: "vehicle diameter",
  soliddiameter: "solid diameter",
};

const ways = ["area", "resistance", "table"] as const satisfies readonly ConvertBy[];
const metals = ["copper", "aluminium", "copper-clad aluminium"] as const satisfies readonly PrintedMetal[];

/** Reads the size and the options of `convert`. */
export function readConvertQuestion({ names, options }: Given): ConvertQuestion {
  const given = sizeGiven(names.join(" "));
  if (!given.ok) return given;
  const { make, size } = given;
  const text = (name: string): string | null => {
    const value = options[name];
    return typeof value === "string" ? value : null;
  };

  const to = systemAsked(text("to"), size);
  if (typeof to !== "string") return to;
  const way = text("by") ?? "area";
  const by = ways.find((known) => known === way);
  if (by === undefined) return no(`\`--by\` takes area, resistance or table, and got \`${way}\``, nearOf(way, ways));
  if (by === "table" && options["nearest"] === true)
    return no("a published list has one pair for a size, no nearest", "ask for `--by area --nearest`");
  const temperature = temperatureAsked(text("temperature"));
  if (typeof temperature !== "number") return temperature;
  const strands = strandsAsked(text("strands"));
  if (strands !== null && typeof strands !== "string") return strands;
  const metalText = text("metal");
  const metal = metals.find((known) => known === (metalText?.toLowerCase().replace("aluminum", "aluminium") ?? ""));
  if (metalText !== null && metal === undefined)
    return no(`there is no metal \`${metalText}\``, `the metals are ${metals.join(", ")}`);
  const tinned = options["tinned"] === true ? ({ plating: "tinned" } as const) : {};
  const ofStrands = strands === null ? {} : { strands };
  const isOfGiven = strands !== null && isOfGivenSize(strands, size, to);
  return {
    ok: true,
    input: {
      size,
      to,
      by,
      direction: options["nearest"] === true ? "nearest" : "not smaller",
      among: options["all"] === true ? "all" : "stocked",
      conductorC: temperature,
      from: { ...(isOfGiven ? ofStrands : {}), ...kindOfMake(make), ...tinned },
      into: { ...(isOfGiven ? {} : ofStrands), ...tinned, ...(metal === undefined ? {} : { metal }) },
    },
    notes: notesOf(make, text("to")),
  };
}

/** Classes of IEC 60228 are of metric sizes, letters and types of American ones; where that decides nothing, they are of the size that is asked for. */
function isOfGivenSize(strands: Strands, { system }: PrintedSize, to: LadderSystem): boolean {
  const isMetric = (one: string): boolean => one === "mm²" || one === "JIS" || one.endsWith("diameter");
  const isIec = /^class [1256]$/.test(strands);
  return isMetric(system) === isIec && isMetric(to) !== isIec;
}

/** Facts of the label that a conversion of sizes leaves behind. */
function notesOf({ cores }: WireMake, to: string | null): string[] {
  return [
    ...(cores !== null && cores.total > 1
      ? [`of one conductor of the ${cores.total}; the cable is another matter`]
      : []),
    ...(to !== null && /^(?:kcmil|mcm)$/i.test(to.trim())
      ? ["sizes of thousands of circular mils begin at 250 kcmil; what is thinner has an AWG number"]
      : []),
  ];
}

type SizeGiven =
  | { readonly ok: true; readonly make: WireMake; readonly size: PrintedSize }
  | { readonly ok: false; readonly problem: string; readonly hint: string };

function sizeGiven(text: string): SizeGiven {
  const read = readLabel(text);
  switch (read.verdict) {
    case "rejected":
      return no(read.problems[0].message, read.problems[0].hint);
    case "ambiguous": {
      const labels = read.readings.flatMap(({ make, exactLabel }) => {
        const label = plainName(make) ?? exactLabel;
        return label === null ? [] : [`\`${label}\``];
      });
      return no(
        `\`${text}\`: ${read.question}`,
        labels.length === 0 ? "" : `write ${[...new Set(labels)].join(" or ")}`,
      );
    }
    case "exact": {
      const [{ make }] = read.readings;
      return make.size === null
        ? no(`\`${text}\` names no size`, "write `12 AWG` or `2.5 mm²`")
        : { ok: true, make, size: make.size };
    }
  }
}

function systemAsked(asked: string | null, { system }: PrintedSize): LadderSystem | ReturnType<typeof no> {
  // What is American is asked for in metric, and the other way round.
  if (asked === null) return system === "mm²" || system === "JIS" || system === "SAE metric label" ? "AWG" : "mm²";
  const key = asked.toLowerCase().replace(/[\s._-]/g, "");
  if (Object.hasOwn(systems, key)) return systems[key] ?? "mm²";
  return no(
    `there is no size system \`${asked}\``,
    `the systems are mm², AWG, kcmil, SAE, SWG, JIS, vehicle diameter, solid diameter`,
  );
}

function temperatureAsked(asked: string | null): number | ReturnType<typeof no> {
  if (asked === null) return 20;
  const read = readQuantity(asked, "temperature");
  if (!read.ok)
    return no(`--temperature: ${read.problems[0]?.message ?? "a temperature was expected"}`, "write `75 °C`");
  const { amount } = read;
  const value = amount.form === "exact" ? amount.low : null;
  if (value === null || !(value >= -40 && value <= 250))
    return no(`\`--temperature\` takes one temperature from −40 to 250 °C, and got \`${asked}\``, "write `75 °C`");
  return value;
}

function strandsAsked(asked: string | null): Strands | null | ReturnType<typeof no> {
  if (asked === null) return null;
  const name = asked
    .trim()
    .toLowerCase()
    .replace(
      /^(class|type) ?([a-z0-9])$/,
      (_, kind: string, which: string) => `${kind} ${kind === "class" ? which.toUpperCase() : which}`,
    );
  const plain = name === "solid" ? "class 1" : name;
  return isStrands(plain)
    ? plain
    : no(`there is no strand class \`${asked}\``, "write `class 5`, `type 3`, `class K` or `solid`");
}

function nearOf(asked: string, known: readonly string[]): string {
  const [near] = nearestNames(asked, known, 1);
  return near === undefined ? `write \`--by ${known[0] ?? ""}\`` : `did you mean \`--by ${near}\`?`;
}
