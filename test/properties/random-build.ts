/** Builds of every shape that a one-line has to hold: several banks, panels behind panels, two voltages, shore power, long names, parts nobody knows. */

/** A plan made up from a seed; the same seed gives the same text. */
export function randomBuild(seed: number): string {
  let state = (seed * 2654435761 + 12345) >>> 0;
  const next = (below: number): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 4294967296) * below);
  };
  const pick = <T>(list: readonly T[]): T => list[next(list.length)] ?? (list[0] as T); // lists here are never empty
  const chance = (percent: number): boolean => next(100) < percent;
  const volts = pick([12, 12, 24, 48]);
  const parts: string[] = [];
  const wires: string[] = [];
  let number = 1;
  const wire = (path: string, more = ""): void => {
    const length = chance(8) ? "unknown" : `${(0.3 + next(90) / 10).toFixed(1)} m`;
    const found = chance(10)
      ? ", wire: 16 mm², fuse: 100 A, as found: yes"
      : chance(8)
        ? ", wire: unknown, fuse: unknown, as found: yes"
        : "";
    wires.push(`  W${String(number++).padStart(2, "0")}: { path: ${path}, length: ${length}${found}${more} }`);
  };
  const part = (id: string, facts: string): string => {
    parts.push(`  ${id}: { ${facts} }`);
    return id;
  };
  const nouns = [
    "pump",
    "fridge",
    "light",
    "heater",
    "radio",
    "fan",
    "winch",
    "horn",
    "socket row",
    "very long name of a thing in the saloon to port",
  ];
  let things = 0;
  const load = (system = ""): string => {
    const id = `${pick(nouns)} ${++things}`;
    if (chance(6)) return part(id, "kind: unknown");
    const kind = pick(["load", "load", "light", "electronics", "outlet", "navigation light", "bilge pump"]);
    const motor = kind === "load" && chance(30) ? ", motor: DC, starting: 20 A" : "";
    const name = chance(15) ? `, name: another name ${things} that people use` : "";
    return part(id, `kind: ${kind}, running: ${(0.1 + next(120) / 10).toFixed(1)} A${motor}${name}${system}`);
  };

  part("BP", "kind: bus bar, name: positive bus, rated: 400 A");
  part("BN", "kind: bus bar, name: negative bus, rated: 400 A");
  const banks = 1 + next(3);
  if (chance(60)) {
    part("SW1", `kind: ${pick(["switch", "relay"])}, name: main switch, rated: 300 A`);
    wire("SW1 → BP");
  }
  const behind = wires.length > 0 ? "SW1" : "BP";
  for (let b = 1; b <= banks; b++) {
    part(
      `B${b}`,
      `kind: battery, chemistry: ${pick(["LFP", "AGM"])}, capacity: ${100 + next(200)} Ah, short-circuit: 3 kA${chance(20) ? ", count: 3" : ""}`,
    );
    wire(`B${b} → ${behind}`);
  }
  if (behind === "SW1" && chance(50)) wire(`SW1:in → ${load()}`);
  if (chance(40)) {
    part("BS", "kind: battery, name: start battery, chemistry: AGM, cranking: 700 A");
    part("ALT", "kind: alternator, rated: 90 A");
    part("DCDC", "kind: DC-DC charger, output: 30 A, input: 36 A");
    wire("ALT → BS");
    wire("BS → DCDC:in");
    wire("DCDC:out → BP");
    if (chance(50)) wire(`BS → ${part("starter", "kind: starter, running: 300 A")}`);
    if (chance(50)) wire("BS:− → BN");
  }
  const arrays = next(3);
  for (let a = 1; a <= arrays; a++) {
    part(`MPPT${a}`, "kind: solar controller, output: 30 A");
    const modules = 1 + next(3);
    for (let m = 1; m <= modules; m++) {
      part(`PV${a}${m}`, "kind: solar module, rated: 175 W, Voc: 24 V, Vmp: 20 V, Isc: 9 A");
      wire(`PV${a}${m} → MPPT${a}:in`);
    }
    wire(`MPPT${a}:out → BP`);
  }
  const panels = next(4);
  for (let p = 1; p <= panels; p++) {
    const ways = 2 + next(14);
    part(
      `P${p}`,
      `kind: ${pick(["panel", "fuse block"])}, name: panel number ${p}, ways: ${ways + 2}, negative bar: yes`,
    );
    wire(`BP → P${p}`, ", demand: 20 A");
    if (chance(15)) wire(`BP → P${p}`);
    for (let w = 1; w <= ways; w++) {
      if (chance(6)) {
        const sub = `P${p}${w}`;
        part(sub, "kind: fuse block, ways: 6, negative bar: yes");
        wire(`P${p}:${w} → ${sub}`, ", demand: 5 A");
        const rows = 1 + next(4);
        for (let s = 1; s <= rows; s++) wire(`${sub}:${s} → ${load()}`);
      } else if (chance(10)) {
        const [first, second] = [load(), load()];
        wire(`P${p}:${w} → ${first}`, `, then: [${second}]`);
      } else wire(`P${p}:${w} → ${load()}`);
    }
  }
  const direct = next(5);
  for (let d = 0; d < direct; d++) wire(`BP → ${load()}`);
  const shore = chance(50);
  if (shore) {
    part("INL", "kind: shore inlet, rated: 16 A");
    part("CU", "kind: panel, name: consumer unit, ways: 8, main: { residual device: 30 mA, poles: 2 }");
    wire("INL → CU:in");
    const rows = next(4);
    for (let r = 1; r <= rows; r++) wire(`CU:${r} → ${load(", system: AC")}`);
    if (chance(60)) {
      part("CHG", "kind: charger, output: 30 A, input: 3 A");
      wire("CHG:out → BP");
      wire("CU:5 → CHG:in");
    }
  }
  const inverter = next(3);
  if (inverter === 1) {
    part("INV", "kind: inverter, rated: 1200 VA");
    wire("BP → INV");
    if (shore) {
      part("TS", "kind: transfer switch, rated: 16 A, inputs: [shore, inverter]");
      wire("CU:6 → TS:shore");
      wire("INV:out → TS:inverter");
      wire(`TS:out → ${load(", system: AC")}`);
      wire(`TS:out → ${load(", system: AC")}`);
    } else wire(`INV:out → ${load(", system: AC")}`);
  }
  if (inverter === 2) {
    part("INV", "kind: inverter/charger, rated: 3 kW, charging: 80 A");
    wire("BP → INV");
    if (shore) wire("CU:6 → INV:in");
    part("LC", "kind: panel, name: load centre, ways: 10");
    wire("INV:out → LC");
    const rows = 1 + next(6);
    for (let r = 1; r <= rows; r++) wire(`LC:${r} → ${load(", system: AC")}`);
  }
  if (volts > 12 && chance(60)) {
    part("CONV", "kind: DC-DC converter, nominal: 12 V, output: 20 A");
    part("FB12", "kind: fuse block, ways: 6, negative bar: yes");
    wire("BP → CONV:in");
    wire("CONV:out → FB12");
    const rows = 1 + next(5);
    for (let r = 1; r <= rows; r++) wire(`FB12:${r} → ${load()}`);
  }
  if (chance(30)) part(`loose thing ${seed}`, "kind: load, running: 1 A");
  return [
    "wireworthy: 1",
    `name: Made-up build ${seed}`,
    "rules: { DC: iso-small-craft }",
    `systems: { DC: { kind: DC, nominal: ${volts} V, return: BN }, AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] } }`,
    "parts:",
    ...parts,
    "circuits:",
    ...wires,
    "",
  ].join("\n");
}
