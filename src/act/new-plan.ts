import { writeName, writeValue } from "../plan/text/write-value.ts";
import { findRuleSet } from "../ruleset/index.ts";
import { newLoad } from "./add-load.ts";
import type { NewPlanAnswers } from "./new-plan-answers.ts";
import { isRefusal, refuse } from "./draft.ts";
import { readBattery, type BatterySentence } from "./read-battery.ts";
import { readLoadSentence } from "./read-load-sentence.ts";
import { oneLine } from "./read-value.ts";
import { readNewName } from "./rename.ts";
import type { KeyPath, NotActed } from "./request.ts";

/** A plan from nothing. */
export interface NewPlan {
  readonly ok: true;
  readonly text: string;
  readonly step: string;
  readonly select: KeyPath | null;
  readonly remarks: readonly string[];
}

/** Countries whose trade builds and buys by gauge and inch. */
const GAUGED = new Set(["US", "CA"]);
const SETS = {
  boat: { gauged: "us-small-craft", others: "iso-small-craft" },
  van: { gauged: "us-rv", others: "iec-caravan" },
  cabin: { gauged: "us-cabin", others: "iec-cabin" },
} as const;
const CALLED = { boat: "New boat", van: "New van", cabin: "New cabin" } as const;

/** Rules that are proposed for a build: `used` on its direct-current side, `own` of its kind and country on the other. */
export function proposedRules(
  what: NewPlanAnswers["what"],
  country = "",
): { readonly own: string; readonly used: string } {
  const own = spelt(SETS[what][GAUGED.has(country.trim().toUpperCase()) ? "gauged" : "others"]);
  return { own, used: own };
}

function spelt(id: string): string {
  const found = findRuleSet(id);
  return found.found ? `${found.set.id} ${found.edition.name}` : id;
}

/** A plan of six lines, to be filled in. */
export function emptyPlan(name: string): string {
  const line = oneLine(name);
  return [
    "wireworthy: 1",
    `name: ${writeValue(typeof line === "string" && line !== "" ? line : "New build", false)}`,
    `rules: { DC: ${spelt(SETS.boat.others)} }`,
    "systems: { DC: { kind: DC, nominal: 12 V } }",
    "parts:      # fridge: { kind: load, running: 45 W }",
    "circuits:   # W01: { path: B1 → fridge, length: 3 m }",
    "",
  ].join("\n");
}

/** A whole plan from plain answers: a battery, a switch, two bars, a panel, and the first load with its circuit. */
export function newPlan(answers: NewPlanAnswers): NewPlan | NotActed {
  const { what, there = "nothing", shore = "none", country = "" } = answers;
  const name = oneLine(answers.name ?? "");
  if (typeof name !== "string") return name;
  const land = oneLine(country);
  if (typeof land !== "string") return land;
  const found = there === "old wiring";
  const bank = readBank(answers.battery, found);
  if (isRefusal(bank)) return bank;
  const load = answers.load === undefined || answers.load.trim() === "" ? null : readLoadSentence(answers.load);
  if (load?.ok === false) {
    const [problem] = load.problems;
    return refuse(problem?.message ?? "the load was not understood", problem?.hint ?? "", problem?.at);
  }
  const loadName = load === null ? null : readNewName(load.load.name, "parts", TAKEN);
  if (loadName !== null && typeof loadName !== "string") return loadName;
  const rules = readRules(answers);
  if (isRefusal(rules)) return rules;
  const gauged = GAUGED.has(land.toUpperCase());
  const made = load === null || loadName === null ? null : { ...newLoad(load.load), name: loadName };
  const shorts = { found, gauged, what } as const;
  const text = [
    "wireworthy: 1",
    `name: ${writeValue(name === "" ? CALLED[what] : name, false)}`,
    "revision: A",
    ...(land === "" ? [] : [`country: ${writeValue(land, false)}`]),
    ...(found ? ["for: survey of what stands"] : []),
    "",
    "# who judges it: a rule set and its edition for each supply",
    "rules:",
    `  DC: ${rules.used}`,
    ...(shore === "none" ? [] : [`  AC: ${rules.own}`]),
    "",
    "# what a percentage of drop is taken of, and where a return goes when a circuit says nothing",
    "systems:",
    `  DC: { kind: DC, nominal: ${bank.nominalV} V, return: BN }`,
    ...(shore === "none" ? [] : [alternating(shore, shorts)]),
    "",
    "# what is bought",
    gauged
      ? "stock: { sizes: AWG, metal: tinned copper, strands: type 3, insulation: 105 °C }"
      : "stock: { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }",
    `climate: { ambient: ${gauged ? "86 °F" : "30 °C"} }`,
    "",
    ...partsOf(bank, shore, made, shorts),
    "",
    ...circuitsOf(shore, made, shorts),
    "",
  ].join("\n");
  return {
    ok: true,
    text,
    step: `new plan: ${name === "" ? CALLED[what].toLowerCase() : name}`,
    select: made === null ? "parts.PNL" : `circuits.${ownNumber(shore, shorts)}`,
    remarks: remarksOf(made?.remarks ?? [], shorts, shore),
  };
}

/** Number of the first load's circuit: behind the leads, and where there is shore power its lead and what joins its earth. */
const ownNumber = (shore: NewPlanAnswers["shore"], shorts: Shorts): string =>
  shore === undefined || shore === "none" ? "W04" : earthOf(shorts) === null ? "W05" : "W06";

/** Designations that a new plan has already. */
const TAKEN = ["B1", "SW1", "BP", "BN", "PNL", "INL", "CU", "ROD"];

/**
 * What the protective conductors of a build with shore power are joined to, and by what: the minus on a boat, an electrode of its own at a cabin. Of
 * old wiring nobody has said that there is one.
 */
function earthOf({ what, found, gauged }: Shorts): { readonly to: "BN" | "ROD"; readonly wire: string } | null {
  if (found || what === "van") return null;
  return what === "boat"
    ? { to: "BN", wire: gauged ? "8 AWG" : "10 mm²" }
    : { to: "ROD", wire: gauged ? "6 AWG" : "16 mm²" };
}

function readBank(said: string | undefined, found: boolean): BatterySentence | NotActed {
  if (said !== undefined && said.trim() !== "") return readBattery(said);
  if (found) return { chemistry: "unknown", nominalV: 12, volts: null, capacity: "unknown", count: 1 };
  return refuse("which battery?", "write it as in `LiFePO4 12 V 200 Ah`");
}

function readRules(answers: NewPlanAnswers): ReturnType<typeof proposedRules> | NotActed {
  const proposed = proposedRules(answers.what, answers.country);
  if (answers.rules === undefined || answers.rules.trim() === "") return proposed;
  const found = findRuleSet(answers.rules);
  if (!found.found) return refuse(found.problem, found.hint);
  return { ...proposed, used: `${found.set.id} ${found.edition.name}` };
}

interface Shorts {
  readonly found: boolean;
  readonly gauged: boolean;
  readonly what: NewPlanAnswers["what"];
}

type MadeLoad = ReturnType<typeof newLoad> | null;

function alternating(shore: "230 V" | "120 V", { found, what }: Shorts): string {
  // Where old wiring meets earth is for whoever surveys it to find; a vehicle has no soil of its own to ask for.
  const earthed = found && what !== "van" ? ", earthed at: unknown" : "";
  return `  AC: { kind: AC, nominal: ${shore}, frequency: ${shore === "230 V" ? "50 Hz" : "60 Hz"}, cores: [L, N, PE]${earthed} }`;
}

function partsOf(bank: BatterySentence, shore: NewPlanAnswers["shore"], load: MadeLoad, shorts: Shorts): string[] {
  const { what, found } = shorts;
  const rated = shore === "230 V" ? "16 A" : "30 A";
  // Aboard a boat the metres behind the inlet that nothing but the pier guards are few: the breaker stands at the inlet.
  const breaker = what === "boat" && !found ? `, breaker: ${rated} 2-pole` : "";
  const entries = [
    ["kind", "battery"] as const,
    ["chemistry", bank.chemistry] as const,
    ...(bank.volts === null || bank.volts === `${bank.nominalV} V` ? [] : [["nominal", bank.volts] as const]),
    ["capacity", bank.capacity] as const,
    ...(bank.count > 1 ? [["count", String(bank.count)] as const] : []),
  ];
  const stands = found ? ", as found: yes" : "";
  const board =
    what === "van"
      ? "{ kind: fuse block, name: DC fuses, ways: 6, negative bar: yes"
      : "{ kind: panel, name: DC panel, ways: 6, device: breaker, negative bar: yes";
  return [
    "parts:",
    "  # source and main switch; a battery that states its short-circuit current and its limits is judged by them",
    `  B1: ${writeValue({ entries }, false)}`,
    "  SW1: { kind: switch, name: main switch }",
    ...(shore === undefined || shore === "none"
      ? []
      : [
          "  # shore power; the rating stands on the inlet",
          `  INL: { kind: shore inlet, rated: ${rated}${breaker} }`,
          "  CU: { kind: panel, name: consumer unit, main: { residual device: 30 mA, poles: 2 }, ways: 4, device: breaker }",
          ...(earthOf(shorts)?.to === "ROD" ? ["  ROD: { kind: earth electrode }"] : []),
        ]),
    "  # distribution",
    "  BP: { kind: bus bar, name: positive bus }",
    "  BN: { kind: bus bar, name: negative bus }",
    `  PNL: ${board}${stands} }`,
    "  # loads: amps or watts while it runs, what it takes at its start, the least volts that its maker asks for",
    ...(load === null
      ? ["  # fridge: { kind: load, running: 45 W, starting: 8 A }"]
      : [`  ${writeName(load.name, false)}: ${writeValue({ entries: load.part }, false)}`]),
  ];
}

function circuitsOf(shore: NewPlanAnswers["shore"], load: MadeLoad, shorts: Shorts): string[] {
  const { found, gauged } = shorts;
  const earth = earthOf(shorts);
  const length = (feet: string, metric: string): string => (found ? "unknown" : `about ${gauged ? feet : metric}`);
  const stands = found ? ", wire: unknown, fuse: unknown, as found: yes" : "";
  const guess = found ? "" : "   # a guess: measure it";
  const lead = (id: string, path: string, feet: string, metric: string): string =>
    `  ${id}: { path: ${path}, length: ${length(feet, metric)}${stands} }${guess}`;
  const own =
    load?.circuit.some(([key]) => key === "length") === true ? load.circuit : [["length", "unknown"] as const];
  return [
    "# the key is the number on the sleeve; a path is the plus conductor, its length one way; sizes and devices that are left out are chosen",
    "circuits:",
    lead("W01", "B1 → SW1", "3 ft", "1 m"),
    lead("W02", "SW1 → BP", "1 ft", "0.3 m"),
    lead("W03", "BP → PNL", "5 ft", "1.5 m"),
    ...(shore === undefined || shore === "none" ? [] : [lead("W04", "INL → CU:in", "6 ft", "2 m")]),
    ...(shore === undefined || shore === "none" || earth === null
      ? []
      : [
          earth.to === "BN"
            ? "  # the one join of protective earth and minus: a fault of mains to a low-voltage wire opens a breaker by it"
            : "  # protective earth to the soil: local code and a licensed electrician decide what it has to be",
          `  W05: { path: CU:PE → ${earth.to}, length: ${length("6 ft", "2 m")}, cores: [PE], wire: ${earth.wire} }${guess}`,
        ]),
    ...(load === null
      ? [`  # ${ownNumber(shore, shorts)}: { path: PNL:1 → fridge, length: 3 m }`]
      : [
          `  ${ownNumber(shore, shorts)}: ${writeValue({ entries: [["path", `PNL:1 → ${load.name}`], ...own] }, false).replace(/ \}$/, `${stands} }`)}`,
        ]),
  ];
}

function remarksOf(ofLoad: readonly string[], shorts: Shorts, shore: NewPlanAnswers["shore"]): readonly string[] {
  const own = ownNumber(shore, shorts);
  const earth = earthOf(shorts);
  return [
    ...(shorts.found
      ? ["nothing is assumed of what stands: fill in what you find, `unknown` stays where you cannot"]
      : [
          `the lengths of W01 to ${own === "W04" ? "W03" : own === "W05" ? "W04" : "W05"} are guesses, marked in the text: measure them`,
        ]),
    ...(shore === undefined || shore === "none"
      ? []
      : [
          ...(earth === null
            ? []
            : [
                `W05 joins the protective conductors to ${earth.to === "BN" ? "the minus" : "an earth electrode"}: whether that is right where you are is for a licensed electrician to decide`,
              ]),
          "add a charger to the consumer unit when you know it",
        ]),
    ...ofLoad,
  ];
}
