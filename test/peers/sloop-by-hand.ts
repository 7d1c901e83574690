/**
 * The coastal sloop worked out a second time, from docs/method.md and the tables of reference/ alone: nothing of the program is
 * imported. The boat is told again as data below, each circuit with its conductors written out by hand.
 *
 *   npx tsx test/peers/sloop-by-hand.ts          works out the boat and its 25 changes, writes sloop-by-hand.json beside this file
 *   npx tsx test/peers/sloop-by-hand.ts base     prints the table of the boat as drawn
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
  const rows = lines
    .filter((line) => line !== "" && !line.startsWith("#"))
    .map((line) => [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)].map((m) => m[1] ?? m[2] ?? ""));
  const [head = [], ...body] = rows;
  return body.map((cells) => Object.fromEntries(head.map((key, i) => [key, cells[i] ?? ""])));
}
const num = (row: Row | undefined, key: string): number => {
  const text = row?.[key];
  if (text === undefined || text === "") return NaN;
  return Number(text);
};
const must = <T>(value: T | undefined, what: string): T => {
  if (value === undefined) throw new Error(`not there: ${what}`);
  return value;
};

/** Metric sizes by mm², American by label. */
const rowOf = (rows: readonly Row[], key: string, value: string) => {
  const row = rows.find((r) => r[key] === value);
  return must(row, `${key} ${value}`);
};
const iecRow = (mm2: string) => rowOf(iec, "nominal_mm2", mm2);
const awgRow = (size: string) => rowOf(awg, "size", size);

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

const KEPT = {
  "mm²": "0.5 0.75 1 1.5 2.5 4 6 10 16 25 35 50 70 95 120 150 185 240".split(" "),
  AWG: "18 16 14 12 10 8 6 4 2 1 1/0 2/0 3/0 4/0 250 300 350 400 500".split(" "),
};
/** Between the rows of a measured curve: a straight line. */
function onCurve(rows: readonly Row[], column: string, soc: number): number {
  const i = Math.max(
    1,
    rows.findIndex((row) => num(row, "soc") >= soc - 1e-12),
  );
  const [a, b] = [rows[i - 1], rows[i]];
  const share = (soc - num(a, "soc")) / (num(b, "soc") - num(a, "soc"));
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
  amps?: number;
  watts?: number;
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
  name: string;
  on: string[];
  charge: number;
  /** Charging parts that run. */
  push?: string[];
  idle?: boolean;
}
const load = (circuit: string, amps: number, more: Partial<Load> = {}): Load => ({ circuit, amps, ...more });
const electronics = (circuit: string, amps: number, most = amps): Load => ({
  circuit,
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
const battery = { emf: "LFP", ohms: 12.8 / 3000, shortAmps: 3000, minus: "" };

const sloop = () => ({
  set: "iso" as "iso" | "us",
  sizes: "mm²" as "mm²" | "AWG",
  tinned: true,
  insulationC: 90,
  leastMm2: 0,
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
    // at idle, and alone at rated ÷ efficiency. READING: no idle watts on top of the latter, VA taken as W
    INV: { circuit: "W03", watts: 8, mostWatts: 1200 / 0.88, sort: "inverter" },
  } as Record<string, Load>,
  // READING: motoring gives TS no position, so it joins nothing and the inverter rests
  // prettier-ignore
  states: [
    { name: "at anchor", charge: 0.4, idle: true, on: ["fridge", "masthead light", "VHF", "lights fore", "lights aft"] },
    { name: "hauling the anchor", charge: 0.2, idle: true, on: ["fridge", "VHF", "windlass"] },
    { name: "on passage", charge: 0.6, on: ["fridge", "masthead light", "autopilot", "plotter", "AIS", "instruments", "VHF"] },
    { name: "motoring", charge: 0.2, push: ["ALT+", "DO+"], on: ["fridge", "autopilot", "plotter", "AIS", "instruments", "VHF"] },
    { name: "alongside", charge: 0.2, push: ["CHG+"], on: ["fridge", "lights fore", "lights aft"] },
  ] as State[],
});
type Plan = ReturnType<typeof sloop>;
const circuitOf = (plan: Plan, id: string): Circuit => {
  const circuit = plan.circuits.find((c) => c.id === id);
  return must(circuit, id);
};

const NOMINAL = 12;
const CEILING = 14.4; // what a charging part pushes up to
const JOINT = 0.1e-3;
const SWITCH = 0.2e-3;
const LOWEST = 0.2;
const EPS = 1e-6; // relative; 4.8 ÷ 0.8 has to be allowed a 6 A device whatever the last bits are

/** Circuits that get one size, in plan order: leads of equal batteries that meet at one terminal, else each on its own. */
const unitsOf = (plan: Plan): string[][] => {
  const leads: string[] = plan.circuits.map((c) => c.id).filter((id) => id === "W01" || id === "W02");
  return [leads, ...plan.circuits.filter((c) => !leads.includes(c.id)).map((c) => [c.id])];
};

// ── One conductor ───────────────────────────────────────────────────────────────────────────────────────────────────────────

interface Size {
  label: string;
  mm2: number;
  ohmsPerM: number;
}
const r20Awg = (row: Row, tinned: boolean) =>
  // Ω/kft at 75 °C → Ω/m at 20 °C
  (num(row, `stranded_cu_${tinned ? "coated" : "bare"}_75C_ohm_per_kft`) / 304.8) * (1 + 0.00323 * (20 - 75));
const r20Iec = (row: Row, tinned: boolean) => num(row, `class5_cu_${tinned ? "tinned" : "plain"}_ohm_per_km`) / 1000;

function stock(plan: Plan): Size[] {
  if (plan.sizes === "mm²")
    return KEPT["mm²"].map((text) => {
      return { label: `${text} mm²`, mm2: Number(text), ohmsPerM: r20Iec(iecRow(text), plan.tinned) };
    });
  return KEPT.AWG.map((text) => {
    const row = awgRow(text);
    const label = `${text} ${row["kind"] ?? ""}`;
    return { label, mm2: num(row, "area_exact_mm2"), ohmsPerM: r20Awg(row, plan.tinned) };
  });
}

/** Table amps of one size: its own row, else the next row down; another system's size by resistance at 20 °C. 0: below the table. */
function tableAmps(plan: Plan, size: Size): number {
  const rows = ampacityTable[plan.set];
  const columns = Object.keys(rows[0] ?? {}).filter((key) => key.startsWith("amps_"));
  const rating = (key: string) => Number(key.match(/(\d+)C$/)?.[1]);
  const column = must(columns.filter((key) => rating(key) <= plan.insulationC).at(-1), "column");
  const isMetric = plan.set === "iso";
  const fits = rows.filter((row) => {
    if (isMetric && plan.sizes === "mm²") return num(row, "area_mm2") <= size.mm2;
    if (isMetric) return r20Iec(iecRow(row["area_mm2"] ?? ""), plan.tinned) >= size.ohmsPerM;
    const own = awgRow(row["size_awg"] ?? "");
    if (plan.sizes === "AWG") return num(own, "area_exact_mm2") <= size.mm2 + 1e-9;
    return r20Awg(own, plan.tinned) >= size.ohmsPerM;
  });
  return Math.max(0, ...fits.map((row) => num(row, column)));
}

interface Stretch {
  m: number;
  ambientC: number;
  amps: number;
}
function stretchesOf(plan: Plan, circuit: Circuit, size: Size): Stretch[] {
  const amps = tableAmps(plan, size);
  const count = circuit.bundle ?? (circuit.plus && circuit.back ? 2 : 1);
  const bundle = bundleTable[plan.set].find(
    (r) => count >= num(r, "conductors_min") && !(count > num(r, "conductors_max")),
  );
  return circuit.run.map(([m, zone]) => {
    const ambientC = zone === "engine" ? plan.engineC : plan.ambientC;
    const root = Math.min(1, Math.sqrt((plan.insulationC - ambientC) / (plan.insulationC - 30)));
    const engine = engineTable[plan.set].find(
      (r) => (num(r, "insulation_max_C") || num(r, "insulation_C")) >= plan.insulationC,
    );
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

type End = "from" | "to";
interface Device {
  end: End;
  rating: number;
  family: string;
}
/** What protects an end: a device in it, the devices behind it, or nothing because nothing needs to. */
type Placement = Record<string, "device" | "guarded">;
const ON_BATTERY = ["strip_SF30", "strip_SF51", "terminal_post", "ul_class_T", "anl_limiter"];
const ELSEWHERE = ["blade_type_C", "strip_SF30", "strip_SF51", "anl_limiter", "ul_class_T"];

const ratingsOf = (family: string) => (rowOf(families, "family", family)["ratings_A"] ?? "").split(" ").map(Number);

/** Does a fuse of this rating carry a start for 1.5 × 0.5 s, by the published least opening times? */
function carries(family: string, rating: number, amps: number): boolean {
  if (amps <= rating * (1 + EPS)) return true;
  const own = gates.filter(
    (r) => r["family"] === family && rating >= num(r, "rating_min_A") && rating <= num(r, "rating_max_A"),
  );
  const next = own.find((r) => num(r, "multiple") >= (amps / rating) * (1 - EPS));
  return num(next, "min_s") >= 0.75;
}
function chooseDevice(plan: Plan, circuit: Circuit, end: End, ib: number, start: number): Device | undefined {
  const node = must(circuit.plus?.[end === "from" ? 0 : 1], "end");
  const cell = plan.batteries[node];
  const others = cell ? Object.entries(plan.batteries).filter(([n, b]) => n !== node && b.emf === cell.emf) : [];
  const pushed = others.reduce((sum, [, b]) => sum + b.shortAmps, 0);
  const fault = Math.max(cell?.shortAmps ?? 0, pushed);
  const volts = (14.6 * NOMINAL) / 12;
  for (const family of circuit.way && end === "from" ? ["thermal_breaker"] : cell ? ON_BATTERY : ELSEWHERE) {
    if (num(rowOf(families, "family", family), "dc_volts") < volts) continue;
    const rating = ratingsOf(family).find((amps) => {
      const breaks = interrupts.find(
        (r) =>
          r["family"] === family &&
          r["supply"] === "DC" &&
          num(r, "up_to_volts") >= volts &&
          amps >= num(r, "rating_min_A") &&
          amps <= num(r, "rating_max_A"),
      );
      if (cell && !(num(breaks, "interrupt_A") >= fault)) return false;
      return amps * (1 + EPS) >= ib / 0.8 && carries(family, amps, start);
    });
    if (rating !== undefined) return { end, rating, family };
  }
  return undefined;
}
function deviceOhms({ family, rating }: Device): number {
  const rows = drops.filter((r) => r["family"] === family);
  const row = rows.find((r) => num(r, "rating_A") === rating) ?? rows.find((r) => r["rating_A"] === "");
  return num(row, "drop_mV") / 1000 / rating;
}
/** The device constraint: does the rule set allow this device on a conductor of this ampacity? */
function allowed(plan: Plan, { rating, family }: Device, iz: number): boolean {
  if (rating <= iz * (1 + EPS)) return true;
  return plan.set === "us" && rating === ratingsOf(family).find((amps) => amps > iz) && rating <= 1.5 * iz * (1 + EPS);
}

/** What can push into a node, leaving one circuit out: Σ over branches, each no more than the devices in it or what stands behind it. */
function behind(
  plan: Plan,
  node: string,
  except: Circuit,
  devices: Record<string, Device[]>,
): { amps: number; selfLimited: boolean } {
  const all = [{ amps: 0, selfLimited: true }];
  if (plan.batteries[node]) all.push({ amps: Infinity, selfLimited: false });
  const charger = plan.chargers[node];
  if (charger) all.push({ amps: charger.amps, selfLimited: charger.selfLimited });
  const joined = node.startsWith("SW") ? ["SWin", "SWout"] : [node];
  for (const circuit of plan.circuits)
    if (circuit !== except && circuit.plus)
      for (const [near, far] of [circuit.plus, [circuit.plus[1], circuit.plus[0]]] as const)
        if (joined.includes(near)) {
          const beyond = behind(plan, far, circuit, devices);
          all.push({ ...beyond, amps: Math.min(beyond.amps, ...(devices[circuit.id] ?? []).map((d) => d.rating)) });
        }
  return { amps: all.reduce((sum, s) => sum + s.amps, 0), selfLimited: all.every((s) => s.selfLimited) };
}
/** Section 5, where: for each end of a live conductor. `iz` is that of the least size by ampacity and mechanical alone. */
function placeAt(
  plan: Plan,
  circuit: Circuit,
  end: End,
  iz: number,
  devices: Record<string, Device[]>,
): Placement[string] | undefined {
  const plus = must(circuit.plus, "plus");
  const node = plus[end === "from" ? 0 : 1];
  const source = behind(plan, node, circuit, devices);
  const covered = source.amps <= iz * (1 + EPS);
  if (source.amps === 0) return undefined; // 4a, and nothing to guard at all
  if (circuit.way && end === "from") return "device"; // 1
  if (plan.batteries[node]) return "device"; // 2
  if (source.selfLimited && covered) return undefined; // 3, 4b
  if (end === "from" && (node === "BP" || node === "PNL+")) return "device"; // 3
  const charger = plan.chargers[node];
  const alone = plan.circuits.filter((c) => c.plus?.includes(node)).length === 1;
  if (alone && !charger) return "guarded"; // 4c. READING: meant for a terminal that is fed from behind, not for a source's own
  if (covered && !charger) return "guarded"; // 4d
  const length = circuit.run.reduce((sum, [m]) => sum + m, 0);
  const otherHasOne = devices[circuit.id]?.some((d) => d.end !== end) ?? false;
  if (charger && !charger.selfLimited && ((otherHasOne && length <= 1.8) || (plan.set === "us" && covered)))
    return undefined; // 4e
  return "device"; // 4f
}

// ── The network ─────────────────────────────────────────────────────────────────────────────────────────────────────────────

/** Inverse by Gauss-Jordan elimination, greatest pivot of the column first. */
function inverse(matrix: Float64Array[]): Float64Array[] {
  const n = matrix.length;
  const rows = matrix.map((row, i) => {
    const wide = new Float64Array(2 * n);
    wide.set(row);
    wide[n + i] = 1;
    return wide;
  });
  const at = (i: number) => must(rows[i], "row");
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(at(i)[k] ?? 0) > Math.abs(at(best)[k] ?? 0)) best = i;
    const top = at(best);
    rows[best] = at(k);
    rows[k] = top;
    const pivot = top[k] ?? 0;
    if (Math.abs(pivot) < 1e-12) throw new Error("singular network");
    for (let j = k; j < 2 * n; j++) top[j] = (top[j] ?? 0) / pivot;
    for (let i = 0; i < n; i++) {
      const row = at(i);
      const factor = i === k ? 0 : (row[k] ?? 0);
      if (factor !== 0) for (let j = k; j < 2 * n; j++) row[j] = (row[j] ?? 0) - factor * (top[j] ?? 0);
    }
  }
  return rows.map((row) => row.slice(n));
}

/** A state made ready to solve: what draws between which nodes, what pushes, and who is judged. */
interface Case {
  name: string;
  charge: number;
  running: [string, number | { watts: number }][];
  push: string[];
  demand?: string;
  rating?: string;
  /** Set in a start: the load that starts. */
  starter?: string;
}
function casesOf(plan: Plan): Case[] {
  const always = Object.entries(plan.loads)
    .filter(([, l]) => l.always)
    .map(([name]) => name);
  const draw = (name: string, most = false): [string, number | { watts: number }] => {
    const l = must(plan.loads[name], name);
    return [name, l.watts === undefined ? (l.amps ?? 0) : { watts: most ? (l.mostWatts ?? l.watts) : l.watts }];
  };
  const lowest = { charge: LOWEST, push: [] as string[] };
  const others = (names: string[]) => always.filter((name) => !names.includes(name)).map((name) => draw(name));
  const cases: Case[] = plan.states.map(({ name, charge, on, push = [], idle = false }) => ({
    name,
    charge,
    push,
    running: [...on, ...always, ...(idle ? ["INV"] : [])].map((l) => draw(l)),
  }));
  for (const circuit of plan.circuits) {
    const own = Object.keys(plan.loads).filter((name) => plan.loads[name]?.circuit === circuit.id);
    if (own.length > 0)
      cases.push({
        ...lowest,
        name: `${circuit.id} alone`,
        running: [...own.map((l) => draw(l, true)), ...others(own)],
      });
    for (const name of own) {
      const amps = plan.loads[name]?.starting;
      if (amps !== undefined)
        cases.push({
          ...lowest,
          name: `${name} starts`,
          starter: name,
          running: [[name, amps], ...own.filter((l) => l !== name).map((l) => draw(l, true)), ...others(own)],
        });
    }
    if (circuit.demand !== undefined)
      cases.push({ ...lowest, name: `${circuit.id} at its demand`, running: others([]), demand: circuit.id });
  }
  for (const part of ["ALT+", "DO+", "CHG+", "MO+"])
    cases.push({
      ...lowest,
      name: `${part} at its rating`,
      running: others([]),
      rating: part,
      push: part === "MO+" ? ["MO+", "PV1+", "PV2+"] : [part],
    });
  return cases;
}

/** A voltage that a constraint looks at. */
interface Judged {
  kind: "drop" | "start" | "least-volts";
  circuit: string;
  path: string[];
  state: string;
  volts: number;
  ok: boolean;
}
interface Result {
  ib: Record<string, number>;
  iz: Record<string, number>;
  devices: Record<string, Device[]>;
  /** Amps that stand behind a guarded conductor. */
  sum: Record<string, number>;
  judged: Judged[];
  /** By circuit with something at its end: volts there, steady and in a start, and its drop or that of the charging circuit. */
  steady: Record<string, number>;
  starting: Record<string, number>;
  drop: Record<string, number>;
  tooManyVolts: string[];
}
type Sizes = Record<string, number>;

const isCharging = (plan: Plan, c: Circuit) => plan.chargers[c.plus?.[0] ?? ""] !== undefined;
const isSolar = (c: Circuit) => c.plus?.[1] === "MI+";

/** Everything that a set of sizes brings about. `fixed`: devices as chosen before, else they are chosen with the currents. */
function evaluate(
  plan: Plan,
  sizes: Sizes,
  kept: readonly Size[],
  placement: Placement,
  cases: readonly Case[],
  guess?: Result,
  fixed?: Result["devices"],
): Result {
  const circuits = plan.circuits.map((c) => {
    const size = must(kept[sizes[c.id] ?? 0], c.id);
    const stretches = stretchesOf(plan, c, size);
    return { c, size, stretches, iz: Math.min(...stretches.map((s) => s.amps)) };
  });
  const nodes = new Map<string, number>();
  // Grounds: the negative bus; both ends of the solar input, whose volts are held from outside.
  const grounds = new Set(["BN", "MI+", "MI-"]);
  const index = (node: string) => {
    if (grounds.has(node)) return -1;
    if (!nodes.has(node)) nodes.set(node, nodes.size);
    return nodes.get(node) ?? -1;
  };
  for (const { c } of circuits) for (const node of [...(c.plus ?? []), ...(c.back ?? [])]) index(node);
  const n = nodes.size;
  let ib: Record<string, number> = guess?.ib ?? {};
  let starts: Record<string, number> = {};
  const volts = new Map<Case, Float64Array>(); // of the round before, to start from
  let round = 0;
  for (;;) {
    const devices: Record<string, Device[]> = fixed ?? {};
    if (!fixed)
      for (const { c } of circuits)
        devices[c.id] = (["from", "to"] as const)
          .filter((end) => placement[`${c.id} ${end}`] === "device")
          .map(
            (end) =>
              chooseDevice(plan, c, end, ib[c.id] ?? 0, starts[c.id] ?? 0) ?? { end, rating: Infinity, family: "none" },
          );
    const wires = circuits.flatMap(({ c, size, stretches }) => {
      const between = (a: string, b: string) => ({ id: c.id, a, b, ia: index(a), ib: index(b) });
      const wire = wireOhms(plan, size, stretches, ib[c.id] ?? 0) + 2 * JOINT;
      const extra = (devices[c.id] ?? []).reduce(
        (sum, d) => sum + (d.rating === Infinity ? 0 : deviceOhms(d)) + (c.way ? 0 : 2 * JOINT),
        0,
      );
      return [
        ...(c.plus ? [{ ...between(...c.plus), ohms: wire + extra }] : []),
        ...(c.back ? [{ ...between(...c.back), ohms: wire }] : []),
      ];
    });
    const g = Array.from({ length: n }, () => new Float64Array(n));
    const add = (a: string, b: string, ohms: number) => {
      const [i, j] = [index(a), index(b)];
      const put = (row: Float64Array | undefined, p: number, q: number) => {
        if (row === undefined) return; // a ground
        row[p] = (row[p] ?? 0) + 1 / ohms;
        if (q >= 0) row[q] = (row[q] ?? 0) - 1 / ohms;
      };
      put(g[i], i, j);
      put(g[j], j, i);
    };
    for (const wire of wires) add(wire.a, wire.b, wire.ohms);
    for (const [node, b] of Object.entries(plan.batteries)) add(node, b.minus, b.ohms);
    add("SWin", "SWout", SWITCH);
    const z = inverse(g);

    const result: Result = {
      ib: {},
      iz: {},
      devices,
      sum: {},
      judged: [],
      steady: {},
      starting: {},
      drop: {},
      tooManyVolts: [],
    };
    const newStarts: Record<string, number> = {};
    for (const { c, iz } of circuits) {
      result.iz[c.id] = iz;
      // A module's circuit carries at least its Isc.
      result.ib[c.id] = isSolar(c) ? (plan.chargers[c.plus?.[0] ?? ""]?.amps ?? 0) : 0;
      for (const end of ["from", "to"] as const)
        if (placement[`${c.id} ${end}`] === "guarded")
          result.sum[c.id] = Math.max(
            result.sum[c.id] ?? 0,
            behind(plan, must(c.plus, "plus")[end === "from" ? 0 : 1], c, devices).amps,
          );
    }
    for (const one of cases) solveCase(one, result, newStarts);
    const moved = Math.max(
      ...circuits.map(({ c }) => Math.abs((result.ib[c.id] ?? 0) - (ib[c.id] ?? 0)) / (1 + (ib[c.id] ?? 0))),
      ...circuits.map(({ c }) => Math.abs((newStarts[c.id] ?? 0) - (starts[c.id] ?? 0)) / (1 + (starts[c.id] ?? 0))),
    );
    ib = result.ib;
    starts = newStarts;
    if (moved < 1e-8 || ++round > 60) return result;

    function solveCase(one: Case, out: Result, startAmps: Record<string, number>): void {
      let v = volts.get(one) ?? new Float64Array(n);
      const known = volts.has(one);
      const potential = (node: string) => v[nodes.get(node) ?? -1] ?? 0;
      const across = (plus: string, minus: string) => potential(plus) - potential(minus);
      const emfOf = (emf: string) =>
        emf === "LFP" ? 4 * onCurve(lfp, "cell_v", one.charge) : onCurve(lead, "battery_12v_v", one.charge);
      // Constant power: amps from the volts of the round before, until they stand still. Below half the nominal volts the
      // current is held (only in trials with far too thin a wire, which fail anyway).
      const powered = one.running.some(([, d]) => typeof d !== "number") || one.push.includes("DO+");
      for (let k = 0, before: number[] = []; k < 100; k++) {
        const push = new Float64Array(n + 1);
        const inject = (plus: string, minus: string, amps: number) => {
          const [i, j] = [index(plus), index(minus)];
          if (i >= 0) push[i] = (push[i] ?? 0) + amps;
          if (j >= 0) push[j] = (push[j] ?? 0) - amps;
        };
        const held = (plus: string, minus: string) =>
          k === 0 && !known ? NOMINAL : Math.max(NOMINAL / 2, across(plus, minus));
        for (const [node, b] of Object.entries(plan.batteries)) inject(node, b.minus, emfOf(b.emf) / b.ohms);
        const drawn = one.running.map(([name, d]) => {
          const id = must(plan.loads[name], name).circuit;
          const amps = typeof d === "number" ? d : d.watts / held(`${id}+`, `${id}-`);
          inject(`${id}+`, `${id}-`, -amps);
          return amps;
        });
        if (one.demand !== undefined)
          inject("PNL+", "PNL-", -(plan.circuits.find((c) => c.id === one.demand)?.demand ?? 0));
        for (const node of one.push) {
          const charger = must(plan.chargers[node], node);
          inject(node, charger.minus, charger.amps);
          if (node !== "DO+") continue;
          const input = one.rating
            ? plan.dcdcInputAmps
            : Math.min(plan.dcdcInputAmps, (charger.amps * held("DO+", "D-")) / 0.9 / held("DI+", "D-"));
          inject("DI+", "D-", -input);
          drawn.push(input);
        }
        v = new Float64Array(n);
        for (let j = 0; j < n; j++) {
          const amps = push[j] ?? 0;
          const column = z[j]; // the inverse is symmetric, so its row is its column
          if (amps !== 0 && column) for (let i = 0; i < n; i++) v[i] = (v[i] ?? 0) + (column[i] ?? 0) * amps;
        }
        const still = drawn.every((amps, i) => Math.abs(amps - (before[i] ?? Infinity)) < 1e-9);
        before = drawn;
        if (still || !powered) break;
      }
      volts.set(one, v);

      const peak = one.starter === undefined ? out.ib : startAmps;
      for (const w of wires) peak[w.id] = Math.max(peak[w.id] ?? 0, Math.abs((v[w.ia] ?? 0) - (v[w.ib] ?? 0)) / w.ohms);
      for (const node of one.push) {
        const minus = plan.chargers[node]?.minus ?? "";
        if (!node.startsWith("PV") && across(node, minus) > CEILING) out.tooManyVolts.push(`${node} in ${one.name}`);
      }
      const judge = (kind: Judged["kind"], circuit: string, path: string[], volts: number, ok: boolean) =>
        out.judged.push({ kind, circuit, path, state: one.name, volts, ok });
      const judgeDrop = (circuit: string, path: string[], volts: number, limit: number) => {
        out.drop[circuit] = Math.max(out.drop[circuit] ?? -Infinity, volts);
        judge("drop", circuit, path, volts, volts <= limit * (1 + EPS));
      };
      const low = (list: Record<string, number>, id: string, volts: number) =>
        (list[id] = Math.min(list[id] ?? Infinity, volts));
      // Drop is measured from the terminals of the batteries that are joined to the load's poles.
      const banks = (emf: string) => Object.entries(plan.batteries).filter(([, b]) => b.emf === emf);
      const dropAt = (plus: string, minus: string, emf: string) =>
        Math.max(...banks(emf).map(([node]) => potential(node))) -
        potential(plus) +
        potential(minus) -
        Math.min(...banks(emf).map(([, b]) => potential(b.minus)));
      const feeders = banks("LFP").map(([node]) => plan.circuits.find((c) => c.plus?.[0] === node)?.id ?? "");

      for (const [name] of one.running) {
        const l = must(plan.loads[name], name);
        const circuit = circuitOf(plan, l.circuit);
        if (circuit.unknownLength) continue; // cannot be told
        const [plus, minus] = [`${l.circuit}+`, `${l.circuit}-`];
        const volts = across(plus, minus);
        const from = circuit.plus?.[0] ?? "";
        const path = [...feeders, ...(from === "SWin" ? [] : ["W33"]), ...(circuit.way ? ["W04"] : []), l.circuit];
        if (one.starter !== undefined) {
          if (name !== one.starter) continue;
          low(out.starting, l.circuit, volts);
          const least = l.startsAbove ?? (l.sort === "motor" ? 0.75 * NOMINAL : undefined);
          if (least !== undefined) judge("start", l.circuit, path, volts, volts >= least * (1 - EPS));
          continue;
        }
        low(out.steady, l.circuit, volts);
        const strict =
          l.critical ||
          l.sort === "navigation light" ||
          (plan.set === "iso" ? l.sort === "bilge pump" : l.sort === "electronics");
        judgeDrop(l.circuit, path, dropAt(plus, minus, "LFP"), (strict ? 0.03 : 0.1) * NOMINAL);
        if (l.runsAbove !== undefined) judge("least-volts", l.circuit, path, volts, volts >= l.runsAbove * (1 - EPS));
      }
      if (one.starter !== undefined) return;
      // The panel: READING: judged where something behind it draws. The DC-DC input: a load of the class "the rest".
      const panelDraws =
        one.demand !== undefined ||
        one.running.some(([name]) => plan.circuits.find((c) => c.id === plan.loads[name]?.circuit)?.way);
      if (panelDraws) {
        judgeDrop("W04", [...feeders, "W33", "W04"], dropAt("PNL+", "PNL-", "LFP"), 0.03 * NOMINAL);
        low(out.steady, "W04", across("PNL+", "PNL-"));
      }
      if (one.push.includes("DO+")) {
        judgeDrop("W07", ["W34", "W07"], dropAt("DI+", "D-", "AGM"), 0.1 * NOMINAL);
        low(out.steady, "W07", across("DI+", "D-"));
      }
      for (const { c } of circuits)
        if (isCharging(plan, c) && one.push.includes(c.plus?.[0] ?? "")) {
          const own = across(c.plus?.[0] ?? "", c.plus?.[1] ?? "") + across(c.back?.[0] ?? "", c.back?.[1] ?? "");
          judgeDrop(c.id, [c.id], own, 0.03 * (isSolar(c) ? plan.moduleVmp : NOMINAL));
        }
    }
  }
}

// ── Constraints and the choice ──────────────────────────────────────────────────────────────────────────────────────────────

const ORDER = ["ampacity", "drop", "start", "least-volts", "device", "mechanical", "stock"] as const;
type Constraint = (typeof ORDER)[number];

function mechanical(plan: Plan, size: Size): boolean {
  const least = plan.set === "iso" ? 1 : num(awgRow("16"), "area_exact_mm2");
  return size.mm2 >= Math.max(least, plan.leastMm2) - 1e-9;
}
function meets(plan: Plan, id: string, constraint: Constraint, r: Result, size: Size): boolean {
  const iz = r.iz[id] ?? 0;
  if (constraint === "stock") return true;
  if (constraint === "mechanical") return mechanical(plan, size);
  if (constraint === "ampacity") return iz > 0 && (r.ib[id] ?? 0) <= iz * (1 + EPS);
  if (constraint === "device")
    return (r.devices[id] ?? []).every((d) => allowed(plan, d, iz)) && (r.sum[id] ?? 0) <= iz * (1 + EPS);
  return r.judged.every((j) => j.ok || j.kind !== constraint || !j.path.includes(id));
}

/** Circuits whose size is felt by other circuits' voltages: the branches behind them are settled for each of their sizes. */
const CORE = ["W01", "W33", "W04", "W03", "W34", "W05", "W07"];

function design(plan: Plan) {
  const kept = stock(plan);
  const top = kept.length - 1;
  const cases = casesOf(plan);
  const units = unitsOf(plan);
  const pinnedAt = (c: Circuit) => kept.findIndex((s) => s.label === c.pinned);
  const unitOf = (id: string) => units.find((u) => u.includes(id)) ?? [id];
  const metres = (c: Circuit) => c.run.reduce((sum, [m]) => sum + m, 0) * (c.plus && c.back ? 2 : 1);
  const copper = (sizes: Sizes) =>
    plan.circuits.reduce((sum, c) => sum + (kept[sizes[c.id] ?? 0]?.mm2 ?? 0) * metres(c), 0);
  const every = (index: (c: Circuit) => number): Sizes =>
    Object.fromEntries(plan.circuits.map((c) => [c.id, c.pinned === undefined ? index(c) : pinnedAt(c)]));

  // Where devices go, with the least size by ampacity and mechanical alone (currents as with the thickest wires, then as with these).
  let least = every(() => top);
  for (let round = 0; round < 3; round++) {
    const r = evaluate(plan, least, kept, {}, cases);
    least = every((c) =>
      kept.findIndex(
        (size) =>
          mechanical(plan, size) &&
          Math.min(...stretchesOf(plan, c, size).map((s) => s.amps)) * (1 + EPS) >= (r.ib[c.id] ?? 0),
      ),
    );
  }
  // Twice over: rule 4d looks at devices that stand elsewhere.
  let placement: Placement = {};
  for (let round = 0; round < 2; round++) {
    const r = evaluate(plan, least, kept, placement, cases);
    const next: Placement = {};
    for (const c of plan.circuits)
      for (const end of c.plus ? (["to", "from"] as const) : []) {
        const place = placeAt(plan, c, end, r.iz[c.id] ?? 0, r.devices);
        if (place) next[`${c.id} ${end}`] = place;
      }
    placement = next;
  }

  let near: Result | undefined; // currents of the last evaluation, a good first guess for the next
  /** Raises each branch until it is enough, the circuits of `held` standing still; undefined: they are too thin for that. */
  function settle(start: Sizes, held: readonly string[]): { sizes: Sizes; r: Result } | undefined {
    const sizes = { ...start };
    for (;;) {
      const r = evaluate(plan, sizes, kept, placement, cases, near);
      near = r;
      const raise = new Set<string>();
      for (const c of plan.circuits)
        for (const constraint of ["ampacity", "device", "mechanical"] as const)
          if (!meets(plan, c.id, constraint, r, must(kept[sizes[c.id] ?? 0], c.id))) raise.add(c.id);
      for (const j of r.judged) if (!j.ok) raise.add(j.circuit);
      if (raise.size === 0) return { sizes, r };
      for (const id of raise) {
        const c = circuitOf(plan, id);
        // A pinned circuit that fails by itself is its own affair; where its load fails, thicker feeders have to answer.
        if (c.pinned !== undefined && r.judged.every((j) => j.ok || j.circuit !== id)) continue;
        if (held.includes(id) || c.pinned !== undefined || sizes[id] === top) return undefined;
        for (const twin of unitOf(id)) sizes[twin] = Math.max(sizes[twin] ?? 0, (sizes[id] ?? 0) + 1);
      }
      if ([...raise].every((id) => circuitOf(plan, id).pinned !== undefined)) return { sizes, r };
    }
  }

  // Branch and bound over the core: with the core circuits that are still open at their thickest, the rest can only be thinner
  // than in any real answer, so the copper so found is a bound from below.
  const core = CORE.filter((id) => plan.circuits.some((c) => c.id === id && c.pinned === undefined));
  const set = (sizes: Sizes, id: string, index: number): Sizes => ({
    ...sizes,
    ...Object.fromEntries(unitOf(id).map((twin) => [twin, index])),
  });
  let best: { sizes: Sizes; r: Result } | undefined;
  const better = (a: Sizes, b: Sizes) => {
    const less = copper(a) - copper(b);
    if (Math.abs(less) > 1e-9) return less < 0;
    const differs = plan.circuits.find((c) => a[c.id] !== b[c.id]);
    return differs !== undefined && (a[differs.id] ?? 0) < (b[differs.id] ?? 0);
  };
  const heldBy = core.flatMap(unitOf);
  const floor: Sizes = {};
  function search(depth: number, sizes: Sizes): void {
    const id = core[depth];
    if (id === undefined) {
      const found = settle(sizes, heldBy);
      if (found && (!best || better(found.sizes, best.sizes))) best = found;
      return;
    }
    for (let index = floor[id] ?? 0; index <= top; index++) {
      const open = core.slice(depth + 1);
      const toFloor = (s: Sizes) => open.reduce((t, other) => set(t, other, floor[other] ?? 0), s);
      // The branches come from one level up, where this circuit was at its thickest: thinner they can never be.
      const barest = set(sizes, id, index);
      if (best && copper(toFloor(barest)) > copper(best.sizes) + 1e-9) break;
      const tried = settle(set(sizes, id, index), heldBy);
      if (!tried) continue;
      if (best && copper(toFloor(tried.sizes)) > copper(best.sizes) + 1e-9) continue;
      search(depth + 1, tried.sizes);
    }
  }
  const thick = every((c) => (core.some((id) => unitOf(id).includes(c.id)) ? top : 0));
  // The floor of each core circuit: its least size when all the others are at their thickest.
  const relaxed = settle(thick, heldBy);
  if (!relaxed) return undefined;
  for (const id of core) {
    floor[id] = 0;
    while (!settle(set(relaxed.sizes, id, floor[id]), heldBy)) floor[id]++;
  }
  search(0, relaxed.sizes);
  if (!best) return undefined;
  const { sizes } = best;
  const r = evaluate(plan, sizes, kept, placement, cases);
  if (r.tooManyVolts.length > 0) throw new Error(`above ${CEILING} V: ${r.tooManyVolts.join(", ")}`);

  /** The constraint that asks for the largest size when every other circuit is as chosen. */
  function deciding(id: string): Constraint {
    const asks = new Map<Constraint, number>();
    for (let index = 0; index <= top && asks.size < ORDER.length; index++) {
      const trial = evaluate(plan, set(sizes, id, index), kept, placement, cases, r, r.devices);
      for (const constraint of ORDER)
        if (
          !asks.has(constraint) &&
          unitOf(id).every((twin) => meets(plan, twin, constraint, trial, must(kept[index], id)))
        )
          asks.set(constraint, index);
    }
    const decides = ORDER.reduce((a, b) => ((asks.get(b) ?? Infinity) > (asks.get(a) ?? Infinity) ? b : a));
    // A check on the search: with all else as chosen, no smaller size meets every constraint.
    if (circuitOf(plan, id).pinned === undefined && asks.get(decides) !== sizes[id])
      throw new Error(`${id} is not as thin as it can be`);
    return decides;
  }
  return { sizes, r, kept, deciding, copper: copper(sizes), placement };
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
const digits = (x: number | undefined, n: number) => (x === undefined ? null : Number(x.toFixed(n)));

function rowsOf(plan: Plan): HandRow[] {
  const d = design(plan);
  if (!d) throw new Error("no set of sizes meets every constraint");
  return plan.circuits.map((c) => {
    const { r } = d;
    const told = !c.unknownLength;
    const drop = told ? r.drop[c.id] : undefined;
    return {
      id: c.id,
      size: told ? (d.kept[d.sizes[c.id] ?? 0]?.label ?? "") : "cannot tell",
      Ib: Number((r.ib[c.id] ?? 0).toPrecision(3)),
      Iz: told ? digits(r.iz[c.id], 1) : null,
      devices: r.devices[c.id] ?? [],
      drop:
        drop === undefined
          ? null
          : {
              volts: Number(drop.toFixed(2)),
              percent: Number(((100 * drop) / (isSolar(c) ? plan.moduleVmp : NOMINAL)).toFixed(1)),
            },
      leastVolts: { steady: digits(r.steady[c.id], 2), starting: digits(r.starting[c.id], 2) },
      deciding: told ? d.deciding(c.id) : null,
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
  ["W14 pinned thin", "W14 pinned at 1 mm²", [["length: 20.5 m, zone: mast", "length: 20.5 m, wire: 1 mm², zone: mast"]],
    (p) => (circuitOf(p, "W14").pinned = "1 mm²")],
  ["W14 pinned thick", "W14 pinned at 6 mm²", [["length: 20.5 m, zone: mast", "length: 20.5 m, wire: 6 mm², zone: mast"]],
    (p) => (circuitOf(p, "W14").pinned = "6 mm²")],
  ["W18 from the bank side", "W18 starts ahead of the main switch", [["path: BP → bilge pump", "path: SW1:in → bilge pump"]],
    (p) => (circuitOf(p, "W18").plus = ["SWin", "W18+"])],
  ["DC-DC of 50 A", "output of the DC-DC charger 50 A, its input still 36 A", [["DC-DC charger, output: 30 A", "DC-DC charger, output: 50 A"]],
    (p) => (must(p.chargers["DO+"], "DCDC").amps = 50)],
  ["larger modules", "solar modules of 250 W with Isc 13.1 A", [["rated: 175 W", "rated: 250 W"], ["Isc: 9.2 A", "Isc: 13.1 A"]],
    (p) => { for (const node of ["PV1+", "PV2+"]) must(p.chargers[node], node).amps = 13.1; }],
  ["least size 1.5 mm²", "stock with a least size of 1.5 mm²", [["insulation: 90 °C }", "insulation: 90 °C, least size: 1.5 mm² }"]],
    (p) => (p.leastMm2 = 1.5)],
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
  const base = rowsOf(sloop());
  return {
    base: { rows: base },
    changes: changes
      .filter((change) => only === undefined || only.includes(change[0]))
      .map(([name, edit, edits, apply]) => {
        for (const [find] of edits)
          if (text.split(find).length !== 2) throw new Error(`not once in the sloop: ${find}`);
        const plan = sloop();
        apply(plan);
        const rows = rowsOf(plan);
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
  if (process.argv[2] === "base") print(rowsOf(sloop()));
  else writeFileSync(join(import.meta.dirname, "sloop-by-hand.json"), `${JSON.stringify(workOutSloop(), null, 2)}\n`);
}
