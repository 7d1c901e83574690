/**
 * The coastal sloop worked out a second time, from docs/method.md and the tables of reference/ alone: nothing of the program is
 * imported. It rests on that page for every rule, on examples/sloop.yaml for the boat (told again as data below, each circuit with
 * its conductors written out by hand) and on the plan language for what the words of the plan mean.
 *
 *   npx tsx test/peers/sloop-by-hand.ts          works out the boat and its 25 changes, writes sloop-by-hand.json beside this file
 *                                                (prettier then gives the file the house's form)
 *   npx tsx test/peers/sloop-by-hand.ts base     prints the table of the boat as drawn (or of the change of that name)
 *
 * Where the page leaves a choice, the reading taken is marked READING.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const ROOT = join(import.meta.dirname, "..", "..");

// ── Tables ──────────────────────────────────────────────────────────────────────────────────────────────────────────────────

type Row = Readonly<Record<string, string>>;

/** RFC 4180 after comment lines; no cell holds a line feed. */
function table(name: string): Row[] {
  const lines = readFileSync(join(ROOT, "reference", `${name}.csv`), "utf8").split("\n");
  const [head = [], ...body] = lines
    .filter((line) => line !== "" && !line.startsWith("#"))
    .map((line) => [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)].map((m) => m[1] ?? m[2] ?? ""));
  return body.map((cells) => Object.fromEntries(head.map((key, i) => [key, cells[i] ?? ""])));
}
/** NaN where the cell is empty or the row is missing. */
const num = (row: Row | undefined, key: string): number => {
  const text = row?.[key];
  return text === undefined || text === "" ? NaN : Number(text);
};
const must = <T>(value: T | undefined, what: string): T => {
  if (value === undefined) throw new Error(`not there: ${what}`);
  return value;
};
const rowOf = (rows: readonly Row[], key: string, value: string): Row => {
  const row = rows.find((r) => r[key] === value);
  return must(row, `${key} ${value}`);
};

const iec = table("wire/iec60228");
const awg = table("wire/awg");
const ampacityTable = { iso: table("ampacity/iso_small_craft"), us: table("ampacity/us_small_craft_dc") };
const engineTable = {
  iso: table("ampacity/iso_small_craft_engine_factors"),
  us: table("ampacity/us_small_craft_engine_factors"),
};
const bundleTable = { iso: table("ampacity/iso_small_craft_bundle_factors"), us: table("ampacity/e11_bundle_factors") };
const families = table("device/families");
const interrupts = table("device/interrupt_ratings");
const gates = table("device/opening_gates");
const drops = table("device/drops");
const lfp = table("energy/lfp_ocv");
const lead = table("energy/lead_acid_rest_voltage");

/** Between the rows of a measured curve: a straight line. */
function onCurve(rows: readonly Row[], column: string, charge: number): number {
  const above = rows.findIndex((row) => num(row, "soc") >= charge - 1e-12);
  const [a, b] = [rows[Math.max(1, above) - 1], rows[Math.max(1, above)]];
  const share = (charge - num(a, "soc")) / (num(b, "soc") - num(a, "soc"));
  return num(a, column) + share * (num(b, column) - num(a, column));
}

// ── The boat ────────────────────────────────────────────────────────────────────────────────────────────────────────────────

interface Circuit {
  id: string;
  /** Ends of the plus conductor, from → to; a panel way starts at the panel's bar. */
  plus?: [string, string];
  /** Ends of the return, in the direction of its current. */
  back?: [string, string];
  /** Metres and zone of each stretch, one way. */
  run: [number, string][];
  way?: boolean;
  bundle?: number;
  demand?: number;
  pinned?: string;
  unknownLength?: boolean;
}
interface Load {
  circuit: string;
  amps: number;
  watts: number;
  /** Greatest steady watts, where above `watts`: transmitting, or an inverter at its rating. */
  mostWatts?: number;
  starting?: number;
  runsAbove?: number;
  startsAbove?: number;
  sort?: "navigation light" | "bilge pump" | "electronics" | "motor" | "inverter";
  critical?: boolean;
  always?: boolean;
}
interface State {
  on: string[];
  charge: number;
  /** Charging parts that run. */
  push?: string[];
}
const load = (circuit: string, amps: number, more: Partial<Load> = {}): Load => ({
  circuit,
  amps,
  watts: 0,
  ...more,
});
const electronics = (circuit: string, amps: number, most = amps): Load => ({
  circuit,
  amps: 0,
  watts: amps * 12,
  mostWatts: most * 12,
  sort: "electronics",
});
const way = (id: string, metres: number, zone = "plain"): Circuit => ({
  id,
  plus: ["PNL+", `${id}+`],
  back: [`${id}-`, "PNL-"],
  run: [[metres, zone]],
  way: true,
});
const battery = { emf: "LFP" as "LFP" | "AGM", ohms: 12.8 / 3000, shortAmps: 3000, minus: "" };

const sloop = () => ({
  set: "iso" as "iso" | "us",
  sizes: "mm²" as "mm²" | "AWG",
  tinned: true,
  insulationC: 90,
  leastMm2: "0.5",
  ambientC: 30,
  engineC: 60, // the only zone that states an ambient; the others (plain, dry, locker, deck, bilge, wet, mast) have the plan's
  batteries: {
    "B1+": { ...battery, minus: "B1-" },
    "B2+": { ...battery, minus: "B2-" },
    // 5.4 V ÷ cold cranking amps; declared short circuit none: × 2.73
    "B3+": { emf: "AGM", ohms: 5.4 / 720, shortAmps: 720 * 2.73, minus: "B3-" },
  } as Record<string, typeof battery>,
  /** Charging parts by plus terminal: limit, and whether the plan knows that it limits itself. */
  chargers: {
    "ALT+": { amps: 80, selfLimited: false, minus: "ALT-" },
    "DO+": { amps: 30, selfLimited: true, minus: "D-" },
    "CHG+": { amps: 30, selfLimited: true, minus: "CHG-" },
    "MO+": { amps: 30, selfLimited: true, minus: "MO-" },
    "PV1+": { amps: 9.2, selfLimited: true, minus: "PV1-" },
    "PV2+": { amps: 9.2, selfLimited: true, minus: "PV2-" },
  } as Record<string, { amps: number; selfLimited: boolean; minus: string }>,
  dcdcInputAmps: 36,
  moduleVmp: 20.2,
  // DI+ is the plus of the DC-DC input; both its minus terminals are one node, D-. MI± is the controller's input.
  circuits: [
    { id: "W01", plus: ["B1+", "SWin"], back: ["BN", "B1-"], run: [[0.9, "plain"]] },
    { id: "W02", plus: ["B2+", "SWin"], back: ["BN", "B2-"], run: [[0.9, "plain"]] },
    { id: "W33", plus: ["SWout", "BP"], run: [[0.3, "plain"]] },
    { id: "W03", plus: ["BP", "W03+"], back: ["W03-", "BN"], run: [[0.9, "plain"]] },
    { id: "W04", plus: ["BP", "PNL+"], back: ["PNL-", "BN"], run: [[1.4, "plain"]], demand: 45 },
    // prettier-ignore
    { id: "W05", plus: ["DO+", "BP"], back: ["BN", "D-"], run: [[0.5, "engine"], [1.1, "dry"]] },
    { id: "W06", plus: ["ALT+", "B3+"], back: ["B3-", "ALT-"], run: [[1.5, "engine"]] },
    { id: "W34", back: ["BN", "B3-"], run: [[2.3, "engine"]] },
    { id: "W07", plus: ["B3+", "DI+"], back: ["D-", "B3-"], run: [[1.4, "engine"]] },
    { id: "W08", plus: ["MO+", "BP"], back: ["BN", "MO-"], run: [[1.5, "plain"]] },
    { id: "W09", plus: ["PV1+", "MI+"], back: ["MI-", "PV1-"], run: [[7.9, "deck"]] },
    { id: "W10", plus: ["PV2+", "MI+"], back: ["MI-", "PV2-"], run: [[6.8, "deck"]] },
    { id: "W11", plus: ["CHG+", "BP"], back: ["BN", "CHG-"], run: [[1.2, "plain"]] },
    // prettier-ignore
    { id: "W12", plus: ["BP", "W12+"], back: ["W12-", "BN"], run: [[7.4, "dry"], [1.2, "locker"]] },
    way("W13", 5.2),
    way("W14", 20.5, "mast"),
    way("W15", 4.3, "locker"),
    way("W16", 5.4, "locker"),
    way("W17", 4.6, "bilge"),
    { id: "W18", plus: ["BP", "W18+"], back: ["W18-", "BN"], run: [[3.4, "bilge"]] },
    way("W19", 6.6, "wet"),
    way("W20", 4.8),
    way("W21", 4.4, "deck"),
    way("W22", 7.6),
    way("W23", 3.4),
    way("W24", 0.9),
    way("W31", 0.4),
    { id: "W32", plus: ["SWin", "W32+"], back: ["W32-", "BN"], run: [[1.5, "plain"]] },
  ] as Circuit[],
  loads: {
    windlass: load("W12", 85, { starting: 150, sort: "motor" }),
    fridge: load("W13", 4.3, { starting: 8, runsAbove: 10.5, startsAbove: 11.5 }),
    "masthead light": load("W14", 0.3, { sort: "navigation light" }),
    "air heater": load("W15", 1.3, { starting: 10, runsAbove: 10.8 }),
    autopilot: load("W16", 2.4, { starting: 11, critical: true }),
    "water pump": load("W17", 6, { sort: "motor" }),
    "bilge pump": load("W18", 4.5, { sort: "bilge pump", critical: true, always: true }),
    toilet: load("W19", 18, { sort: "motor" }),
    USB: load("W20", 5),
    plotter: electronics("W21", 1.4),
    AIS: electronics("W21", 0.2),
    instruments: electronics("W21", 0.4),
    "lights fore": load("W22", 5 * 0.12),
    "lights aft": load("W23", 5 * 0.12),
    VHF: electronics("W24", 0.4, 5.5),
    audio: load("W31", 0.8),
    "battery monitor": load("W32", 0.05, { always: true }),
    // at idle, and alone at rated ÷ efficiency, VA counted as W. READING: no idle watts on top of the latter
    INV: { circuit: "W03", amps: 0, watts: 8, mostWatts: 1200 / 0.88, sort: "inverter" },
  } as Record<string, Load>,
  // motoring gives TS no position, so it stands in its first, shore, and the inverter rests as it does alongside
  // in plan order: at anchor, hauling the anchor, on passage, motoring, alongside
  // prettier-ignore
  states: [
    { charge: 0.4, on: ["fridge", "masthead light", "VHF", "lights fore", "lights aft", "INV"] },
    { charge: 0.2, on: ["fridge", "VHF", "windlass", "INV"] },
    { charge: 0.6, on: ["fridge", "masthead light", "autopilot", "plotter", "AIS", "instruments", "VHF"] },
    { charge: 0.2, on: ["fridge", "autopilot", "plotter", "AIS", "instruments", "VHF"], push: ["ALT+", "DO+"] },
    { charge: 0.2, on: ["fridge", "lights fore", "lights aft"], push: ["CHG+"] },
  ] as State[],
});
type Plan = ReturnType<typeof sloop>;
const circuitOf = (plan: Plan, id: string): Circuit => {
  const circuit = plan.circuits.find((c) => c.id === id);
  return must(circuit, id);
};

const isCharging = (plan: Plan, c: Circuit) => plan.chargers[c.plus?.[0] ?? ""] !== undefined;
const isSolar = (c: Circuit) => c.plus?.[1] === "MI+";
const metresOf = (c: Circuit) => c.run.reduce((sum, [m]) => sum + m, 0);

const NOMINAL = 12;
const CEILING = 14.4; // what a charging part pushes up to
const JOINT = 0.1e-3;
const SWITCH = 0.2e-3;
const LOWEST = 0.2;
const SAME_AMPS = 1 + 1e-9; // equalities count as met
const SAME_VOLTS = 1e-7;

// ── One conductor ───────────────────────────────────────────────────────────────────────────────────────────────────────────

interface Metal {
  label: string;
  mm2: number;
  ohmsPerM: number;
}
function metalOf(system: "mm²" | "AWG", text: string, tinned: boolean): Metal {
  if (system === "mm²") {
    const ohmsPerKm = num(rowOf(iec, "nominal_mm2", text), `class5_cu_${tinned ? "tinned" : "plain"}_ohm_per_km`);
    return { label: `${text} mm²`, mm2: Number(text), ohmsPerM: ohmsPerKm / 1000 };
  }
  const row = rowOf(awg, "size", text);
  // Ω/kft at 75 °C → Ω/m at 20 °C
  const at75 = num(row, `stranded_cu_${tinned ? "coated" : "bare"}_75C_ohm_per_kft`) / 304.8;
  const ohmsPerM = at75 * (1 + 0.00323 * (20 - 75));
  return { label: `${text} ${row["kind"] ?? ""}`, mm2: num(row, "area_exact_mm2"), ohmsPerM };
}
const STOCK = {
  "mm²": "0.5 0.75 1 1.5 2.5 4 6 10 16 25 35 50 70 95 120 150 185 240".split(" "),
  AWG: "18 16 14 12 10 8 6 4 2 1 1/0 2/0 3/0 4/0 250 300 350 400 500".split(" "),
};

/** A size on sale with what the rule set says of it. */
interface Size extends Metal {
  /** Of the table; 0: below it. */
  amps: number;
  mechanical: boolean;
}
function stockOf(plan: Plan): Size[] {
  const { set, tinned } = plan;
  const [system, key, least] =
    set === "iso" ? (["mm²", "area_mm2", "1"] as const) : (["AWG", "size_awg", "16"] as const);
  const rating = (column: string) => Number(/^amps_.*?(\d+)C$/.exec(column)?.[1] ?? Infinity);
  const columns = Object.keys(must(ampacityTable[set][0], "row"));
  const column = must(
    columns.findLast((name) => rating(name) <= plan.insulationC),
    "column",
  );
  const rows = ampacityTable[set].map((row) => {
    return { amps: num(row, column), ohmsPerM: metalOf(system, row[key] ?? "", tinned).ohmsPerM };
  });
  // READING: a least size of another system is compared by resistance, as a row of the table is.
  const most = Math.min(metalOf(system, least, tinned).ohmsPerM, metalOf("mm²", plan.leastMm2, tinned).ohmsPerM);
  return STOCK[plan.sizes].map((text) => {
    const metal = metalOf(plan.sizes, text, tinned);
    // Its own row, else the next row down, or by resistance: within a system it falls with size, so that one test serves all.
    const fits = rows.filter((row) => row.ohmsPerM >= metal.ohmsPerM);
    return { ...metal, amps: Math.max(0, ...fits.map((row) => row.amps)), mechanical: metal.ohmsPerM <= most };
  });
}

interface Stretch {
  m: number;
  ambientC: number;
  amps: number;
}
function stretchesOf(plan: Plan, circuit: Circuit, { amps }: Size): Stretch[] {
  const count = circuit.bundle ?? (circuit.plus && circuit.back ? 2 : 1);
  const bundle = bundleTable[plan.set].find(
    (r) => count >= num(r, "conductors_min") && !(count > num(r, "conductors_max")),
  );
  const engine = engineTable[plan.set].find(
    (r) => (num(r, "insulation_max_C") || num(r, "insulation_C")) >= plan.insulationC,
  );
  return circuit.run.map(([m, zone]) => {
    const ambientC = zone === "engine" ? plan.engineC : plan.ambientC;
    const root = Math.min(1, Math.sqrt((plan.insulationC - ambientC) / (plan.insulationC - 30)));
    const heat = zone === "engine" ? Math.min(root, num(engine, "factor")) : root;
    return { m, ambientC, amps: amps * heat * (bundle ? num(bundle, "factor") : 1) };
  });
}
/** Ω of one conductor at the temperature that its design current brings. */
const wireOhms = (plan: Plan, size: Size, stretches: readonly Stretch[], ib: number) =>
  stretches.reduce((sum, s) => {
    const hot = s.amps > 0 ? s.ambientC + (plan.insulationC - s.ambientC) * (ib / s.amps) ** 2 : 250;
    return sum + size.ohmsPerM * s.m * (1 + 0.00393 * (Math.min(250, hot) - 20));
  }, 0);

// ── Devices ─────────────────────────────────────────────────────────────────────────────────────────────────────────────────

const ENDS = ["from", "to"] as const;
type End = (typeof ENDS)[number];
interface Device {
  end: End;
  rating: number;
  family: string;
}
type Devices = Record<string, Device[]>;
/** What protects an end (`W33 from`): a device in it, or those behind it. Absent: nothing, because nothing needs to. */
type Placement = Record<string, "device" | "guarded">;
const ON_BATTERY = ["strip_SF30", "strip_SF51", "terminal_post", "ul_class_T", "anl_limiter"];
const ELSEWHERE = ["blade_type_C", "strip_SF30", "strip_SF51", "terminal_post", "anl_limiter", "ul_class_T"];
/** A family whose least rating that is enough is more than twice what is needed is looked past. */
const FAR_TOO_LARGE = 2;

const endNode = (c: Circuit, end: End) => must(c.plus?.[end === "from" ? 0 : 1], `${c.id} ${end}`);
/** Worked out once for each family: it is asked for in every trial. */
function once<T>(work: (family: string) => T): (family: string) => T {
  const done = new Map<string, T>();
  return (family) => {
    const value = done.has(family) ? (done.get(family) as T) : work(family); // what was put there
    done.set(family, value);
    return value;
  };
}
const ratingsOf = once((family) => (rowOf(families, "family", family)["ratings_A"] ?? "").split(" ").map(Number));
const within = (row: Row, family: string, rating: number) =>
  row["family"] === family && rating >= num(row, "rating_min_A") && rating <= num(row, "rating_max_A");
/** The least rating whose opening times are published. */
const leastTold = once((family) => ratingsOf(family).find((amps) => gates.some((r) => within(r, family, amps))) ?? 0);

/** Does a device of this rating carry a start for 1.5 × 0.5 s, by the published least opening times? */
function carries(family: string, rating: number, amps: number): boolean {
  if (amps <= rating * SAME_AMPS) return true;
  const next = gates.find((r) => within(r, family, rating) && num(r, "multiple") * SAME_AMPS >= amps / rating);
  return num(next, "min_s") >= 0.75;
}
/** @param breaks what the device has to break, A */
function chooseDevice(plan: Plan, circuit: Circuit, end: End, ib: number, start: number, breaks: number): Device {
  const node = endNode(circuit, end);
  const cell = plan.batteries[node];
  // The other batteries that can push there: those of the same bank.
  const bank = Object.entries(plan.batteries).filter(([n, b]) => n !== node && b.emf === cell?.emf);
  const others = bank.reduce((sum, [, b]) => sum + b.shortAmps, 0);
  const fault = Math.max(cell?.shortAmps ?? 0, cell ? others : 0, breaks);
  const volts = (14.6 * NOMINAL) / 12;
  const isWay = circuit.way === true && end === "from";
  // Where none breaks it, the first that carries it stands in.
  for (const toBreak of [fault, 0]) {
    let larger: Device | undefined;
    for (const family of isWay ? ["thermal_breaker"] : cell ? ON_BATTERY : ELSEWHERE) {
      if (num(rowOf(families, "family", family), "dc_volts") < volts) continue;
      const opens = (amps: number) =>
        interrupts.find((r) => within(r, family, amps) && r["supply"] === "DC" && num(r, "up_to_volts") >= volts);
      // None smaller than the first whose opening times are published.
      const told = leastTold(family);
      const isEnough = (amps: number) => amps * SAME_AMPS >= ib / 0.8 && amps >= told && carries(family, amps, start);
      const least = ratingsOf(family).find(isEnough);
      const rating = ratingsOf(family).find(
        (amps) => isEnough(amps) && (toBreak === 0 || num(opens(amps), "interrupt_A") >= toBreak),
      );
      if (rating === undefined || least === undefined) continue;
      // What is needed: the steady amps over 0.8, or the least rating that carries the start.
      const forStart =
        start > ib * SAME_AMPS ? (ratingsOf(family).find((amps) => carries(family, amps, start)) ?? Infinity) : 0;
      if (rating <= FAR_TOO_LARGE * Math.max(ib / 0.8, forStart)) return { end, rating, family };
      if (larger === undefined || rating < larger.rating) larger = { end, rating, family };
    }
    if (larger !== undefined) return larger;
  }
  return { end, rating: Infinity, family: "none" }; // only in trials with far too thin a wire
}
/** Ω at room temperature; 0 where none is published. */
function coldOhms({ family, rating }: Device): number {
  const rows = drops.filter((r) => r["family"] === family);
  const exact = rows.find((r) => num(r, "rating_A") === rating);
  const hasCommon = rows.some((r) => r["rating_A"] === "");
  const row = hasCommon ? exact : (exact ?? rows.find((r) => num(r, "rating_A") >= rating));
  const cold = num(row, "cold_mohm") / 1000;
  return Number.isFinite(cold) ? cold : 0;
}
function deviceOhms({ family, rating }: Device): number {
  if (rating === Infinity) return 0;
  const rows = drops.filter((r) => r["family"] === family);
  const row = rows.find((r) => num(r, "rating_A") === rating) ?? rows.find((r) => r["rating_A"] === "");
  return num(row, "drop_mV") / 1000 / rating;
}
/** Does the rule set allow this device on a conductor of this ampacity? */
function allowed(plan: Plan, { rating, family }: Device, iz: number): boolean {
  if (rating <= iz * SAME_AMPS) return true;
  const next = ratingsOf(family).find((amps) => amps > iz);
  return plan.set === "us" && rating === next && rating <= 1.5 * iz * SAME_AMPS;
}

/** What can push into a node, leaving one circuit out: along each branch no more than its devices let through or stands behind it. */
function behind(plan: Plan, node: string, except: Circuit, devices: Devices): { amps: number; selfLimited: boolean } {
  const all = [{ amps: 0, selfLimited: true }];
  if (plan.batteries[node]) all.push({ amps: Infinity, selfLimited: false });
  const charger = plan.chargers[node];
  if (charger) all.push(charger);
  const metal = node.startsWith("SW") ? ["SWin", "SWout"] : [node]; // the main switch is closed
  for (const c of plan.circuits)
    for (const end of c.plus && c !== except ? ENDS : [])
      if (metal.includes(endNode(c, end))) {
        const beyond = behind(plan, endNode(c, end === "from" ? "to" : "from"), c, devices);
        all.push({ ...beyond, amps: Math.min(beyond.amps, ...(devices[c.id] ?? []).map((d) => d.rating)) });
      }
  return { amps: all.reduce((sum, s) => sum + s.amps, 0), selfLimited: all.every((s) => s.selfLimited) };
}
/** Section 5, where. `iz` is that of the least size by ampacity and mechanical alone. */
function placeAt(plan: Plan, c: Circuit, end: End, iz: number, devices: Devices): Placement[string] | undefined {
  const node = endNode(c, end);
  const source = behind(plan, node, c, devices);
  const covered = source.amps <= iz * SAME_AMPS;
  const charger = plan.chargers[node];
  if (source.amps === 0) return undefined; // 4a
  if ((c.way && end === "from") || plan.batteries[node]) return "device"; // 1, 2
  if (source.selfLimited && covered) return undefined; // 3, 4b
  if (end === "from" && (node === "BP" || node === "PNL+")) return "device"; // 3
  const alone = plan.circuits.filter((other) => other.plus?.includes(node)).length === 1;
  // READING: a terminal of a source's own is not one that a conductor goes on from.
  const goesOn = end === "from" && alone && !charger;
  const arrives = end === "to" && node.startsWith("SW");
  if (goesOn || arrives) return "guarded"; // 4c
  if (covered && !charger) return "guarded"; // 4d
  const otherHasOne = devices[c.id]?.some((d) => d.end !== end) ?? false;
  const short = otherHasOne && metresOf(c) <= 1.8;
  if (charger && !charger.selfLimited && (short || (plan.set === "us" && covered))) return undefined; // 4e
  return "device"; // 4f
}

// ── States ──────────────────────────────────────────────────────────────────────────────────────────────────────────────────

interface Draw {
  name: string;
  amps: number;
  watts: number;
}
interface Case {
  kind: "given" | "base" | "alone" | "start" | "demand" | "rating";
  emf: Record<"LFP" | "AGM", number>;
  draws: Draw[];
  /** Charging parts that run. */
  push: string[];
  /** The loads that are judged. */
  judged: string[];
  demand?: number;
  /** Of a start in a given state: the index of that state, whose amps all else keeps. */
  over?: number;
}
function casesOf(plan: Plan): Case[] {
  const draw = (name: string, most = false): Draw => {
    const { amps, watts, mostWatts = watts } = must(plan.loads[name], name);
    return { name, amps, watts: most ? mostWatts : watts };
  };
  const names = Object.keys(plan.loads);
  const always = names.filter((name) => plan.loads[name]?.always);
  const withAlways = (draws: Draw[]) => [
    ...draws,
    ...always.filter((name) => draws.every((d) => d.name !== name)).map((name) => draw(name)),
  ];
  const emfAt = (charge: number) => {
    return { LFP: 4 * onCurve(lfp, "cell_v", charge), AGM: onCurve(lead, "battery_12v_v", charge) };
  };
  const lowest = { emf: emfAt(LOWEST), push: [] as string[], draws: withAlways([]), judged: [] as string[] };
  const cases: Case[] = plan.states.map(({ charge, on, push = [] }) => {
    const draws = withAlways(on.map((name) => draw(name)));
    return { kind: "given", emf: emfAt(charge), push, draws, judged: draws.map((d) => d.name) };
  });
  for (const [over, state] of [...cases.entries()])
    for (const { name } of state.draws) {
      const amps = plan.loads[name]?.starting;
      if (amps === undefined) continue;
      const draws = state.draws.map((d) => (d.name === name ? { name, amps, watts: 0 } : d));
      cases.push({ ...state, kind: "start", draws, judged: [name], over });
    }
  cases.push({ ...lowest, kind: "base", judged: always });
  for (const { id, demand } of plan.circuits) {
    const own = names.filter((name) => plan.loads[name]?.circuit === id);
    const running = own.map((name) => draw(name, true));
    if (own.length > 0) cases.push({ ...lowest, kind: "alone", draws: withAlways(running), judged: own });
    for (const name of own) {
      const amps = plan.loads[name]?.starting;
      if (amps === undefined) continue;
      const draws = withAlways(running.map((d) => (d.name === name ? { name, amps, watts: 0 } : d)));
      cases.push({ ...lowest, kind: "start", draws, judged: [name] });
    }
    if (demand !== undefined) cases.push({ ...lowest, kind: "demand", demand });
  }
  for (const push of [["ALT+"], ["DO+"], ["CHG+"], ["MO+", "PV1+", "PV2+"]])
    cases.push({ ...lowest, kind: "rating", push });
  return cases;
}

// ── The network ─────────────────────────────────────────────────────────────────────────────────────────────────────────────

/** Inverse in place by Gauss-Jordan elimination; a grounded network's matrix is dominated by its diagonal and needs no pivoting. */
function invert(rows: Float64Array[]): void {
  for (const [k, pivot] of rows.entries()) {
    const p = 1 / (pivot[k] ?? 0);
    pivot[k] = 1;
    for (let j = 0; j < pivot.length; j++) pivot[j] = (pivot[j] ?? 0) * p;
    for (const row of rows) {
      const factor = row[k] ?? 0;
      if (row === pivot || factor === 0) continue;
      row[k] = 0;
      for (let j = 0; j < row.length; j++) row[j] = (row[j] ?? 0) - factor * (pivot[j] ?? 0);
    }
  }
}

/** A plan made ready to be worked out. */
interface Work {
  plan: Plan;
  stock: Size[];
  cases: Case[];
  placement: Placement;
  /** Row of each node in the matrix; none: a ground. */
  index: Record<string, number>;
  /** By circuit and end (`W03 from`): what a device there has to break, A. */
  breaks: Record<string, number>;
}
/** Index into the stock, by circuit. */
type Sizes = Record<string, number>;
interface Judged {
  kind: "drop" | "start" | "least-volts";
  circuit: string;
  volts: number;
  ok: boolean;
}
/** What one round of working out hands to the next. */
interface Round {
  ib: Record<string, number>;
  /** Greatest steady amps through the live conductor, which its devices answer for. */
  live: Record<string, number>;
  /** Greatest amps through the live conductor in a start. */
  starts: Record<string, number>;
  /** By state and node. */
  volts: Float64Array[];
}
interface Result extends Round {
  iz: Record<string, number>;
  devices: Devices;
  /** Amps that the size answers for: what stands behind a guarded conductor, what a return link may have to send back. */
  answers: Record<string, number>;
  judged: Judged[];
  /** The most volts that any charging part pushes against. */
  highest: number;
}

/** Everything that a set of sizes brings about, in rounds until it stands still; `last` is where to start from. */
function evaluate(
  { plan, stock, cases, placement, index, breaks }: Work,
  sizes: Sizes,
  last: Round = { ib: {}, live: {}, starts: {}, volts: [] },
): Result {
  const n = Object.keys(index).length;
  const circuits = plan.circuits.map((c) => {
    const size = must(stock[sizes[c.id] ?? -1], c.id);
    const stretches = stretchesOf(plan, c, size);
    return { c, size, stretches, iz: Math.min(...stretches.map((s) => s.amps)) };
  });
  const iz = Object.fromEntries(circuits.map(({ c, iz }) => [c.id, iz]));
  for (let round = 0; ; round++) {
    const { ib, starts, volts } = last;
    const devices: Devices = Object.fromEntries(
      plan.circuits.map((c) => {
        const ends = ENDS.filter((end) => placement[`${c.id} ${end}`] === "device");
        const toBreak = (end: End) => breaks[`${c.id} ${end}`] ?? 0;
        return [
          c.id,
          ends.map((end) => chooseDevice(plan, c, end, last.live[c.id] ?? 0, starts[c.id] ?? 0, toBreak(end))),
        ];
      }),
    );
    const wires = circuits.flatMap(({ c, size, stretches }) => {
      const wire = wireOhms(plan, size, stretches, ib[c.id] ?? 0) + 2 * JOINT;
      const inLine = devices[c.id]?.reduce((sum, d) => sum + deviceOhms(d) + (c.way ? 0 : 2 * JOINT), 0) ?? 0;
      return [
        ...(c.plus ? [{ id: c.id, ends: c.plus, ohms: wire + inLine, live: true }] : []),
        ...(c.back ? [{ id: c.id, ends: c.back, ohms: wire, live: false }] : []),
      ];
    });
    const z = Array.from({ length: n }, () => new Float64Array(n));
    const join = ([a, b]: readonly [string, string], ohms: number) => {
      for (const [near, far] of [
        [a, b],
        [b, a],
      ] as const) {
        const row = z[index[near] ?? -1];
        if (row === undefined) continue;
        for (const [k, sign] of [
          [index[near], 1],
          [index[far], -1],
        ] as const)
          if (k !== undefined) row[k] = (row[k] ?? 0) + sign / ohms;
      }
    };
    for (const { ends, ohms } of wires) join(ends, ohms);
    for (const [node, b] of Object.entries(plan.batteries)) join([node, b.minus], b.ohms);
    join(["SWin", "SWout"], SWITCH);
    invert(z);
    // A module's circuit carries at least 1.25 × its Isc.
    const isc = Object.fromEntries(
      plan.circuits.map((c) => [c.id, isSolar(c) ? 1.25 * (plan.chargers[endNode(c, "from")]?.amps ?? 0) : 0]),
    );
    const now: Round = {
      ib: { ...isc },
      live: { ...isc },
      starts: {},
      volts: cases.map((one, k) => solve(plan, one, z, index, volts[one.over ?? k])),
    };
    const potential = (k: number, node: string) => now.volts[k]?.[index[node] ?? -1] ?? 0;
    for (const [k, one] of cases.entries())
      for (const { id, ends, ohms, live } of wires) {
        const amps = Math.abs(potential(k, ends[0]) - potential(k, ends[1])) / ohms;
        if (one.kind !== "start") now.ib[id] = Math.max(now.ib[id] ?? 0, amps);
        if (!live) continue;
        const most = one.kind === "start" ? now.starts : now.live;
        most[id] = Math.max(most[id] ?? 0, amps);
      }
    const near = (a: number, b = NaN) => Math.abs(a - b) <= 1e-11 * (1 + Math.abs(a));
    const still =
      Object.entries(now.ib).every(([id, amps]) => near(amps, ib[id])) &&
      Object.entries(now.live).every(([id, amps]) => near(amps, last.live[id])) &&
      Object.entries(now.starts).every(([id, amps]) => near(amps, starts[id])) &&
      now.volts.every((v, k) => v.every((x, i) => near(x, volts[k]?.[i])));
    last = now;
    if (!still && round < 100) continue;

    const answers: Record<string, number> = {};
    for (const { c } of circuits) {
      const guarded = ENDS.filter((end) => placement[`${c.id} ${end}`] === "guarded");
      const sums = guarded.map((end) => behind(plan, endNode(c, end), c, devices).amps);
      const battery = c.plus ? undefined : Object.entries(plan.batteries).find(([, b]) => c.back?.includes(b.minus));
      const onIt = plan.circuits.flatMap((o) => devices[o.id]?.filter((d) => endNode(o, d.end) === battery?.[0]) ?? []);
      answers[c.id] = Math.max(0, ...sums, ...onIt.map((d) => d.rating));
    }
    return { ...now, iz, devices, answers, ...judge(plan, cases, potential) };
  }
}
/** Section 7: greatest fault current at the line side of every device, against the other pole beside it. */
function shortsOf(
  plan: Plan,
  index: Work["index"],
  devices: Devices,
  circuits: readonly { c: Circuit; size: Size }[],
): Record<string, number> {
  const n = Object.keys(index).length;
  const g = Array.from({ length: n }, () => new Float64Array(n));
  const amps = new Float64Array(n);
  const add = (i: number | undefined, j: number | undefined, siemens: number) => {
    if (i !== undefined) g[i]?.set([(g[i]?.[j ?? i] ?? 0) + siemens], j ?? i);
  };
  const join = (a: string, b: string, ohms: number) => {
    const [i, j] = [index[a], index[b]];
    add(i, i, 1 / ohms);
    add(j, j, 1 / ohms);
    if (i !== undefined && j !== undefined) {
      add(i, j, -1 / ohms);
      add(j, i, -1 / ohms);
    }
  };
  const inject = (plus: string, minus: string, current: number) => {
    const [i, j] = [index[plus], index[minus]];
    if (i !== undefined) amps[i] = (amps[i] ?? 0) + current;
    if (j !== undefined) amps[j] = (amps[j] ?? 0) - current;
  };
  for (const { c, size } of circuits) {
    const wire = Math.max(1e-6, size.ohmsPerM * metresOf(c));
    const inLine = (devices[c.id] ?? []).reduce((sum, d) => sum + coldOhms(d), 0);
    if (c.plus) join(...c.plus, wire + inLine);
    if (c.back) join(...c.back, wire);
  }
  join("SWin", "SWout", SWITCH);
  for (const [node, b] of Object.entries(plan.batteries)) {
    const volts = b.emf === "LFP" ? 4 * onCurve(lfp, "cell_v", 1) : onCurve(lead, "battery_12v_v", 1);
    const short = b.emf === "LFP" ? b.shortAmps : (b.shortAmps / 2.73) * 4.2;
    join(node, b.minus, volts / short);
    inject(node, b.minus, short);
  }
  // Beside a fault every charging part gives all that it can; modules are parted by their controller.
  for (const [node, charger] of Object.entries(plan.chargers))
    if (!node.startsWith("PV")) inject(node, charger.minus, 1.2 * charger.amps);
  invert(g);
  const of = (row: number | undefined, column: number | undefined) =>
    row === undefined || column === undefined ? 0 : (g[row]?.[column] ?? 0);
  const volts = (node: string) => {
    const i = index[node];
    return i === undefined ? 0 : (g[i] ?? new Float64Array(n)).reduce((sum, z, k) => sum + z * (amps[k] ?? 0), 0);
  };
  const found: Record<string, number> = {};
  for (const c of plan.circuits)
    for (const { end } of devices[c.id] ?? []) {
      const plus = endNode(c, end);
      const minus = plan.batteries[plus]?.minus ?? plan.chargers[plus]?.minus ?? (plus === "PNL+" ? "PNL-" : "BN");
      const [p, m] = [index[plus], index[minus]];
      const ohms = of(p, p) + of(m, m) - 2 * of(p, m);
      found[`${c.id} ${end}`] = Math.abs(volts(plus) - volts(minus)) / ohms;
    }
  return found;
}
/** Volts of every node in one state, with the amps of constant powers and of the DC-DC by the volts of the round before. */
function solve(plan: Plan, one: Case, z: readonly Float64Array[], index: Work["index"], before?: Float64Array) {
  const push = new Float64Array(z.length);
  const inject = (plus: string, minus: string, amps: number) => {
    const [i, j] = [index[plus], index[minus]];
    if (i !== undefined) push[i] = (push[i] ?? 0) + amps;
    if (j !== undefined) push[j] = (push[j] ?? 0) - amps;
  };
  // Below half the nominal volts the current is held (only in trials with far too thin a wire, which fail anyway).
  const across = (plus: string, minus: string) =>
    before ? Math.max(NOMINAL / 2, (before[index[plus] ?? -1] ?? 0) - (before[index[minus] ?? -1] ?? 0)) : NOMINAL;
  for (const [node, b] of Object.entries(plan.batteries)) inject(node, b.minus, one.emf[b.emf] / b.ohms);
  for (const { name, amps, watts } of one.draws) {
    const id = must(plan.loads[name], name).circuit;
    inject(`${id}+`, `${id}-`, -amps - watts / across(`${id}+`, `${id}-`));
  }
  inject("PNL+", "PNL-", -(one.demand ?? 0));
  for (const node of one.push) {
    const charger = must(plan.chargers[node], node);
    if (node !== "DO+") {
      inject(node, charger.minus, charger.amps);
      continue;
    }
    // Each side at its own rating there; else the output asks its watts ÷ 0.9 of the input and gets what the input's limit leaves.
    const ratio = across("DO+", "D-") / 0.9 / across("DI+", "D-");
    const rated = one.kind === "rating";
    const drawn = rated ? plan.dcdcInputAmps : Math.min(plan.dcdcInputAmps, charger.amps * ratio);
    inject("DO+", "D-", rated ? charger.amps : drawn / ratio);
    inject("DI+", "D-", -drawn);
  }
  const v = new Float64Array(z.length);
  for (const [j, column] of z.entries()) {
    const amps = push[j] ?? 0; // the inverse is symmetric, so its row is its column
    if (amps !== 0) for (let i = 0; i < v.length; i++) v[i] = (v[i] ?? 0) + (column[i] ?? 0) * amps;
  }
  return v;
}

/** Section 3: who is judged in which state, and what is measured. */
function judge(plan: Plan, cases: readonly Case[], potential: (k: number, node: string) => number) {
  const judged: Judged[] = [];
  let highest = 0;
  for (const [k, one] of cases.entries()) {
    const across = (plus: string, minus: string) => potential(k, plus) - potential(k, minus);
    const drop = (circuit: string, volts: number, limit: number) =>
      judged.push({ kind: "drop", circuit, volts, ok: volts <= limit + SAME_VOLTS });
    const low = (kind: Judged["kind"], circuit: string, volts: number, least = 0) =>
      judged.push({ kind, circuit, volts, ok: volts >= least - SAME_VOLTS });
    // Drop is measured from the terminals of the batteries that are joined to both of the load's poles.
    const dropAt = (plus: string, minus: string, emf = "LFP") => {
      const bank = Object.entries(plan.batteries).filter(([, b]) => b.emf === emf);
      const above = Math.max(...bank.map(([node]) => across(node, plus)));
      return above + Math.max(...bank.map(([, b]) => across(minus, b.minus)));
    };
    const steadyAt = (circuit: string, plus: string, minus: string, share: number, emf?: string, least?: number) => {
      drop(circuit, dropAt(plus, minus, emf), share * NOMINAL);
      low("least-volts", circuit, across(plus, minus), least);
    };
    for (const name of one.judged) {
      const l = must(plan.loads[name], name);
      const [id, plus, minus] = [l.circuit, `${l.circuit}+`, `${l.circuit}-`];
      if (circuitOf(plan, id).unknownLength) continue; // cannot be told
      if (one.kind === "start")
        low("start", id, across(plus, minus), l.startsAbove ?? (l.sort === "motor" ? 0.75 * NOMINAL : undefined));
      else {
        const strict = ["navigation light", plan.set === "iso" ? "bilge pump" : "electronics"].includes(l.sort ?? "");
        steadyAt(id, plus, minus, l.critical || strict ? 0.03 : 0.1, "LFP", l.runsAbove);
      }
    }
    if (one.kind === "given" || one.kind === "demand") steadyAt("W04", "PNL+", "PNL-", 0.03);
    // READING: the DC-DC input is a load of the class "the rest".
    if (one.push.includes("DO+")) steadyAt("W07", "DI+", "D-", 0.1, "AGM");
    if (one.kind === "given" || one.kind === "base" || one.kind === "rating")
      for (const c of plan.circuits)
        if (c.plus && c.back && isCharging(plan, c))
          drop(c.id, across(...c.plus) + across(...c.back), 0.03 * (isSolar(c) ? plan.moduleVmp : NOMINAL));
    for (const node of one.push)
      if (!node.startsWith("PV")) highest = Math.max(highest, across(node, must(plan.chargers[node], node).minus));
  }
  return { judged, highest };
}

// ── Constraints and the choice ──────────────────────────────────────────────────────────────────────────────────────────────

const ORDER = ["ampacity", "drop", "start", "least-volts", "device", "mechanical", "stock"] as const;
type Constraint = (typeof ORDER)[number];

/** The circuits that a circuit's loads hang on, itself first: up to the batteries. */
function pathOf(plan: Plan, c: Circuit): string[] {
  const from = c.plus?.[0] === "SWout" ? "SWin" : c.plus?.[0];
  return [
    c.id,
    ...plan.circuits.filter((f) => f.plus?.[1] === from && !isCharging(plan, f)).flatMap((f) => pathOf(plan, f)),
  ];
}
function meets(plan: Plan, id: string, constraint: Constraint, r: Result, size: Size): boolean {
  const iz = r.iz[id] ?? 0;
  if (constraint === "stock") return true;
  if (constraint === "mechanical") return size.mechanical;
  if (constraint === "ampacity") return iz > 0 && (r.ib[id] ?? 0) <= iz * SAME_AMPS;
  if (constraint === "device")
    return (r.answers[id] ?? 0) <= iz * SAME_AMPS && (r.devices[id] ?? []).every((d) => allowed(plan, d, iz));
  return r.judged.every((j) => j.ok || j.kind !== constraint || !pathOf(plan, circuitOf(plan, j.circuit)).includes(id));
}

/** Circuits whose size is felt by other circuits' voltages: the branches behind them are settled for each of their sizes. */
const CORE = ["W01", "W33", "W04", "W03", "W34", "W05", "W07"];

/** `reach`: how many sizes to each side the check apart from the search goes. */
/** What a device has to break hangs on the wires, and they on the devices: the choice is made again until the devices stay. */
function design(plan: Plan, reach: number) {
  let breaks: Work["breaks"] = {};
  for (let pass = 0; pass < 8; pass++) {
    const found = designWith(plan, reach, breaks);
    const { chosen, stock, sizes, index } = found;
    const circuits = plan.circuits.map((c) => ({ c, size: must(stock[sizes[c.id] ?? -1], c.id) }));
    breaks = shortsOf(plan, index, chosen.devices, circuits);
    const stays = plan.circuits.every((c) =>
      (chosen.devices[c.id] ?? []).every((d) => {
        const toBreak = breaks[`${c.id} ${d.end}`] ?? 0;
        const again = chooseDevice(plan, c, d.end, chosen.live[c.id] ?? 0, chosen.starts[c.id] ?? 0, toBreak);
        return again.family === d.family && again.rating === d.rating;
      }),
    );
    if (stays) return found;
  }
  throw new Error("devices and wires do not come to rest");
}

function designWith(plan: Plan, reach: number, breaks: Work["breaks"]) {
  const stock = stockOf(plan);
  const top = stock.length - 1;
  // Grounds: the negative bus; both ends of the solar input, whose volts are held from outside.
  const nodes = new Set(plan.circuits.flatMap((c) => [...(c.plus ?? []), ...(c.back ?? [])]));
  for (const ground of ["BN", "MI+", "MI-"]) nodes.delete(ground);
  const index = Object.fromEntries([...nodes].map((node, i) => [node, i]));
  const work: Work = { plan, stock, cases: casesOf(plan), placement: {}, index, breaks };
  // Leads of equal batteries that meet at one terminal get one size.
  const leads = plan.circuits.map((c) => c.id).filter((id) => ["W01", "W02"].includes(id));
  const unitOf = (id: string) => (leads.includes(id) ? leads : [id]);
  const set = (sizes: Sizes, id: string, size: number): Sizes => ({
    ...sizes,
    ...Object.fromEntries(unitOf(id).map((twin) => [twin, size])),
  });
  const isFree = (id: string) => circuitOf(plan, id).pinned === undefined;
  const every = (size: (c: Circuit) => number): Sizes =>
    Object.fromEntries(
      plan.circuits.map((c) => [c.id, isFree(c.id) ? size(c) : stock.findIndex((s) => s.label === c.pinned)]),
    );
  const copper = (sizes: Sizes) =>
    plan.circuits.reduce((sum, c) => {
      const conductors = c.plus && c.back ? 2 : 1;
      return sum + (stock[sizes[c.id] ?? -1]?.mm2 ?? NaN) * metresOf(c) * conductors;
    }, 0);
  const better = (a: Sizes, b: Sizes) => {
    const more = copper(a) - copper(b);
    const differs = plan.circuits.find((c) => a[c.id] !== b[c.id])?.id ?? "";
    return Math.abs(more) > 1e-9 ? more < 0 : (a[differs] ?? 0) < (b[differs] ?? 0);
  };

  // Where devices go, with the least size by ampacity and mechanical alone: currents as with the thickest wires, then as with these.
  const ampsOf = (c: Circuit, size: Size) => Math.min(...stretchesOf(plan, c, size).map((s) => s.amps));
  const leastFor = (ib: Result["ib"]) =>
    every((c) => stock.findIndex((s) => s.mechanical && ampsOf(c, s) * SAME_AMPS >= (ib[c.id] ?? 0)));
  const placed = (least: Sizes, devices: Devices): Placement => {
    const placement: Placement = {};
    for (const c of plan.circuits)
      for (const end of c.plus ? ENDS : []) {
        const place = placeAt(plan, c, end, ampsOf(c, must(stock[least[c.id] ?? -1], c.id)), devices);
        if (place) placement[`${c.id} ${end}`] = place;
      }
    return placement;
  };
  let r = evaluate(
    work,
    every(() => top),
  );
  // Each answer may hang on devices that stand elsewhere: until it stands still.
  for (let last = ""; last !== JSON.stringify(work.placement);) {
    last = JSON.stringify(work.placement);
    for (let round = 0; round < 2; round++) r = evaluate(work, leastFor(r.ib), r);
    work.placement = placed(leastFor(r.ib), r.devices);
  }

  const meetsAll = (id: string, sizes: Sizes, r: Result) =>
    ORDER.every((constraint) => meets(plan, id, constraint, r, must(stock[sizes[id] ?? -1], id)));
  /** Raises each branch until it is enough, the circuits of `held` standing still; undefined: they are too thin for that. */
  function settle(start: Sizes, held: readonly string[], most = Infinity): { sizes: Sizes; r: Result } | undefined {
    for (let sizes = start; copper(sizes) <= most + 1e-9;) {
      r = evaluate(work, sizes, r);
      const failed = new Set(r.judged.filter((j) => !j.ok).map((j) => j.circuit));
      const alone = plan.circuits.filter((c) =>
        (["ampacity", "device", "mechanical"] as const).some(
          (constraint) => !meets(plan, c.id, constraint, r, must(stock[sizes[c.id] ?? -1], c.id)),
        ),
      );
      // A pinned circuit that fails by itself is its own affair; where its load fails, thicker feeders have to answer.
      const raise = new Set([...failed, ...alone.map((c) => c.id).filter(isFree)]);
      if (raise.size === 0) return { sizes, r };
      // Those that stand still may fail for as long as thin branches draw too much.
      const open = [...raise].filter((id) => !held.includes(id));
      if (open.length === 0) return undefined;
      for (const id of open) {
        if (!isFree(id) || sizes[id] === top) return undefined;
        if (unitOf(id)[0] === id || !raise.has(unitOf(id)[0] ?? "")) sizes = set(sizes, id, (sizes[id] ?? 0) + 1);
      }
    }
    return undefined;
  }

  // Branch and bound over the core: with the core circuits that are still open at their thickest, the rest can only be thinner
  // than in any real answer, so the copper so found, with the open ones at their floors, is a bound from below.
  const core = CORE.filter((id) => plan.circuits.some((c) => c.id === id) && isFree(id));
  const held = core.flatMap(unitOf);
  const relaxed = must(
    settle(
      every((c) => (held.includes(c.id) ? top : 0)),
      held,
    ),
    "set of sizes that meets every constraint",
  );
  // The floor of each core circuit: its least size when all the others are at their thickest.
  const floor: Sizes = {};
  for (const id of core) {
    floor[id] = 0;
    while (!settle(set(relaxed.sizes, id, floor[id]), held)) floor[id]++;
  }
  let best: Sizes | undefined;
  function search(depth: number, sizes: Sizes): void {
    const id = core[depth];
    if (id === undefined) {
      if (!best || better(sizes, best)) best = sizes;
      return;
    }
    const hopeless = (s: Sizes) => {
      const bound = copper(core.slice(depth + 1).reduce((t, open) => set(t, open, floor[open] ?? 0), s));
      return best !== undefined && bound > copper(best) + 1e-9;
    };
    for (let size = floor[id] ?? 0; size <= top; size++) {
      // The branches come from one level up, where this circuit was at its thickest: thinner they can never be.
      if (hopeless(set(sizes, id, size))) break;
      const tried = settle(set(sizes, id, size), held);
      if (tried && !hopeless(tried.sizes)) search(depth + 1, tried.sizes);
    }
  }
  search(0, relaxed.sizes);
  const sizes = must<Sizes>(best, "best");
  const chosen = evaluate(work, sizes, r);

  // Checks on the page's model and on the search.
  if (chosen.highest > CEILING) throw new Error(`a charging part pushes against ${chosen.highest} V`);
  if (JSON.stringify(placed(leastFor(chosen.ib), chosen.devices)) !== JSON.stringify(work.placement))
    throw new Error("with the currents as chosen devices would stand elsewhere");
  // Apart from the search: no battery lead × main link × panel feeder around the optimum gives less copper, with the rest raised
  // from what ampacity alone asks for until it is enough or too much.
  const least = leastFor(relaxed.r.ib);
  const steps = Array.from({ length: 2 * reach + 1 }, (_, i) => i - reach);
  const around = (id: string, all: Sizes[]) =>
    all.flatMap((s) => steps.map((step) => set(s, id, Math.min(top, (sizes[id] ?? 0) + step))));
  for (const start of around("W01", around("W33", around("W04", [least])))) {
    const found = settle(start, [...leads, "W33", "W04"], copper(sizes));
    if (found && better(found.sizes, sizes)) throw new Error(`less copper: ${JSON.stringify(found.sizes)}`);
  }

  /** The constraint that asks for the largest size when every other circuit is as chosen; none where the plan decided. */
  function deciding(id: string): Constraint | null {
    if (!isFree(id)) return null;
    const asks = new Map<Constraint, number>();
    const own = sizes[id] ?? -1;
    for (let size = 0; size <= top && (size <= own || asks.size < ORDER.length); size++) {
      const trial = evaluate(work, set(sizes, id, size), chosen);
      const meet = (constraint: Constraint) =>
        unitOf(id).every((twin) => meets(plan, twin, constraint, trial, must(stock[size], id)));
      for (const constraint of ORDER) if (!asks.has(constraint) && meet(constraint)) asks.set(constraint, size);
      // A check on the search: with the rest as chosen this size is enough for all, and no smaller one is.
      const enough = plan.circuits.every((c) => !isFree(c.id) || meetsAll(c.id, set(sizes, id, size), trial));
      if (size <= own && enough !== (size === own)) throw new Error(`${id} is not as thin as it can be`);
    }
    return ORDER.reduce((a, b) => ((asks.get(b) ?? Infinity) > (asks.get(a) ?? Infinity) ? b : a));
  }
  return { sizes, chosen, stock, deciding, index };
}

// ── Rows ────────────────────────────────────────────────────────────────────────────────────────────────────────────────────

interface HandRow {
  id: string;
  size: string;
  Ib: number;
  Iz: number | null;
  devices: Device[];
  drop: { volts: number; percent: number } | null;
  leastVolts: { steady: number | null; starting: number | null };
  deciding: Constraint | null;
}
const digits = (x: number, n: number) => (Number.isFinite(x) ? Number(x.toFixed(n)) : null);

function rowsOf(plan: Plan, reach = 1): HandRow[] {
  const { sizes, chosen, stock, deciding } = design(plan, reach);
  return plan.circuits.map((c) => {
    const { id } = c;
    const told = !c.unknownLength;
    const all = (kind: Judged["kind"]) =>
      chosen.judged.filter((j) => j.kind === kind && j.circuit === id).map((j) => j.volts);
    const drop = Math.max(...all("drop"));
    const [volts, percent] = [digits(drop, 2), digits((100 * drop) / (isSolar(c) ? plan.moduleVmp : NOMINAL), 1)];
    return {
      id,
      size: told ? must(stock[sizes[id] ?? -1], id).label : "cannot tell",
      Ib: Number(must(chosen.ib[id], id).toPrecision(3)),
      Iz: told ? digits(must(chosen.iz[id], id), 1) : null,
      devices: chosen.devices[id] ?? [],
      drop: volts === null || percent === null ? null : { volts, percent },
      leastVolts: {
        steady: digits(Math.min(...all("least-volts")), 2),
        starting: digits(Math.min(...all("start")), 2),
      },
      deciding: told ? deciding(id) : null,
    };
  });
}

// ── The changes ─────────────────────────────────────────────────────────────────────────────────────────────────────────────

type Change = [name: string, edit: string, text: [find: string, replace: string][], apply: (plan: Plan) => unknown];
const theLoad = (plan: Plan, name: string) => must(plan.loads[name], name);

// prettier-ignore
const changes: Change[] = [
  ["W12 longer", "W12 3 m longer", [["windlass, length: 8.6 m", "windlass, length: 11.6 m"]],
    (p) => (circuitOf(p, "W12").run = [[10.4, "dry"], [1.2, "locker"]])],
  ["W12 shorter", "W12 3 m shorter", [["windlass, length: 8.6 m", "windlass, length: 5.6 m"]],
    (p) => (circuitOf(p, "W12").run = [[4.4, "dry"], [1.2, "locker"]])],
  ["W13 doubled", "W13 twice as long", [["fridge, length: 5.2 m", "fridge, length: 10.4 m"]],
    (p) => (circuitOf(p, "W13").run = [[10.4, "plain"]])],
  ["hot engine space", "engine space at 80 °C", [["fuel: diesel, ambient: 60 °C", "fuel: diesel, ambient: 80 °C"]],
    (p) => (p.engineC = 80)],
  ["hot climate", "ambient of the plan 40 °C", [["climate: { ambient: 30 °C", "climate: { ambient: 40 °C"]],
    (p) => (p.ambientC = 40)],
  ["W15 bundled", "W15 in a bundle of six conductors", [["air heater, length: 4.3 m", "air heater, bundle: 6, length: 4.3 m"]],
    (p) => (circuitOf(p, "W15").bundle = 6)],
  ["105 °C insulation", "stock with insulation of 105 °C", [["insulation: 90 °C", "insulation: 105 °C"]],
    (p) => (p.insulationC = 105)],
  ["untinned copper", "stock of untinned copper", [["metal: tinned copper", "metal: copper"]],
    (p) => (p.tinned = false)],
  ["AWG stock", "stock in AWG sizes", [["sizes: mm²", "sizes: AWG"]],
    (p) => (p.sizes = "AWG")],
  ["bank nearly empty", "state at anchor at 10 % charge", [["charge: 40 %", "charge: 10 %"]],
    (p) => (must(p.states[0], "state").charge = 0.1)],
  ["one battery lost", "B2 and its lead W02 removed",
    [["  B2: { like: B1, at: [5.9 m, 1.1 m, 0.1 m] }\n", ""], ["  W02: { path: B2 → SW1, length: 0.9 m }\n", ""]],
    (p) => { p.batteries = Object.fromEntries(Object.entries(p.batteries).filter(([node]) => node !== "B2+"));
      p.circuits = p.circuits.filter((c) => c.id !== "W02"); }],
  ["unequal leads", "lead of B1 0.3 m longer", [["B1 → SW1, length: 0.9 m", "B1 → SW1, length: 1.2 m"]],
    (p) => (circuitOf(p, "W01").run = [[1.2, "plain"]])],
  ["fridge wants 12 V", "fridge starts above 12.0 V", [["starts above: 11.5 V", "starts above: 12.0 V"]],
    (p) => (theLoad(p, "fridge").startsAbove = 12)],
  ["windlass rated at 24 V", "windlass says rated at: 24 V, its currents unchanged; constant current does not look at it: nothing changes",
    [["rated: 1 kW, running: 85 A", "rated: 1 kW, rated at: 24 V, running: 85 A"]], () => undefined],
  ["autopilot starts at 20 A", "starting current of the autopilot 20 A", [["running: 2.4 A, starting: 11 A", "running: 2.4 A, starting: 20 A"]],
    (p) => (theLoad(p, "autopilot").starting = 20)],
  ["toilet at 25 A", "running current of the toilet 25 A", [["running: 18 A", "running: 25 A"]],
    (p) => (theLoad(p, "toilet").amps = 25)],
  ["panel demand 60 A", "demand of W04 60 A", [["demand: 45 A", "demand: 60 A"]],
    (p) => (circuitOf(p, "W04").demand = 60)],
  ["W14 pinned thin", "W14 pinned at the 1 mm² it has anyway: only its deciding constraint goes",
    [["length: 20.5 m, zone: mast", "length: 20.5 m, wire: 1 mm², zone: mast"]],
    (p) => (circuitOf(p, "W14").pinned = "1 mm²")],
  ["W14 pinned thick", "W14 pinned at 6 mm², so that no constraint decides it",
    [["length: 20.5 m, zone: mast", "length: 20.5 m, wire: 6 mm², zone: mast"]],
    (p) => (circuitOf(p, "W14").pinned = "6 mm²")],
  ["W18 from the bank side", "W18 starts ahead of the main switch", [["path: BP → bilge pump", "path: SW1:in → bilge pump"]],
    (p) => (circuitOf(p, "W18").plus = ["SWin", "W18+"])],
  ["DC-DC of 50 A", "output of the DC-DC charger 50 A, its input still 36 A", [["DC-DC charger, output: 30 A", "DC-DC charger, output: 50 A"]],
    (p) => (must(p.chargers["DO+"], "DCDC").amps = 50)],
  ["larger modules", "solar modules of 250 W with Isc 13.1 A", [["rated: 175 W", "rated: 250 W"], ["Isc: 9.2 A", "Isc: 13.1 A"]],
    (p) => { for (const node of ["PV1+", "PV2+"]) must(p.chargers[node], node).amps = 13.1; }],
  ["least size 1.5 mm²", "stock with a least size of 1.5 mm²", [["insulation: 90 °C }", "insulation: 90 °C, least size: 1.5 mm² }"]],
    (p) => (p.leastMm2 = "1.5")],
  ["us-small-craft", "rule set us-small-craft for the DC system", [["  DC: iso-small-craft 2020+A1:2022", "  DC: us-small-craft"]],
    (p) => (p.set = "us")],
  ["W16 of unknown length", "length of W16 unknown; for the network the straight distance between its ends",
    [["autopilot, length: 5.4 m", "autopilot, length: unknown"]],
    (p) => Object.assign(circuitOf(p, "W16"), { unknownLength: true, run: [[Math.hypot(3.3, 0.8, 0.8), "locker"]] })],
];

/** Cells of one row, each by the name under which a change of it is listed. */
const cellsOf = (row: HandRow) => ({
  size: row.size,
  Ib: row.Ib,
  Iz: row.Iz,
  devices: row.devices,
  drop: row.drop?.volts ?? null,
  percent: row.drop?.percent ?? null,
  volts: row.leastVolts.steady,
  startVolts: row.leastVolts.starting,
  deciding: row.deciding,
});
function changedCells(before: readonly HandRow[], after: readonly HandRow[]): string[] {
  return before.flatMap((row) => {
    const now = after.find((r) => r.id === row.id);
    if (!now) return [`${row.id}.row`];
    const [a, b] = [cellsOf(row), cellsOf(now)];
    return (Object.keys(a) as (keyof typeof a)[])
      .filter((key) => JSON.stringify(a[key]) !== JSON.stringify(b[key]))
      .map((key) => `${row.id}.${key}`);
  });
}

/** The boat as drawn and the changes named (all when none are named), as they stand in sloop-by-hand.json. */
export function workOutSloop(only?: readonly string[]) {
  const text = readFileSync(join(ROOT, "examples", "sloop.yaml"), "utf8");
  const reach = only ? 1 : 2;
  const base = rowsOf(sloop(), reach);
  return {
    base: { rows: base },
    changes: changes
      .filter((change) => only === undefined || only.includes(change[0]))
      .map(([name, edit, edits, apply]) => {
        for (const [find] of edits)
          if (text.split(find).length !== 2) throw new Error(`not once in the sloop: ${find}`);
        const plan = sloop();
        apply(plan);
        const rows = rowsOf(plan, reach);
        return {
          name,
          edit,
          replacements: edits.map(([find, replace]) => ({ find, replace })),
          rows,
          changed: changedCells(base, rows),
        };
      }),
  };
}

function print(rows: readonly HandRow[]): void {
  for (const row of rows) {
    const c = cellsOf(row);
    const devices = row.devices.map((d) => `${d.end} ${d.rating} A ${d.family}`).join(" + ") || "–";
    console.log(
      [
        row.id,
        c.size.padEnd(9),
        String(c.Ib).padStart(5),
        String(c.Iz).padStart(6),
        devices.padEnd(42),
        String(c.drop).padStart(5),
        String(c.percent).padStart(5),
        String(c.volts).padStart(6),
        String(c.startVolts).padStart(6),
        c.deciding,
      ].join("  "),
    );
  }
}

if (process.argv[1]?.endsWith("sloop-by-hand.ts")) {
  const name = process.argv[2];
  if (name !== undefined) {
    const plan = sloop();
    changes.find((change) => change[0] === name)?.[3](plan);
    print(rowsOf(plan));
  } else writeFileSync(join(import.meta.dirname, "sloop-by-hand.json"), `${JSON.stringify(workOutSloop(), null, 2)}\n`);
}
