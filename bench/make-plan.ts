/**
 * A boat as large as wanted, of the same kinds of parts as the demo sloop: a bank of two, a main switch, bars, a charger, panels of twelve ways, loads of
 * which some start, some are critical, some are electronics; five states. Deterministic.
 */
export function makePlan(circuits: number): string {
  const panels = Math.max(1, Math.ceil(circuits / 13));
  const parts: string[] = [
    "  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 150 Ah, short-circuit: 3.0 kA }",
    "  B2: { like: B1 }",
    "  SW1: { kind: switch, rated: 300 A }",
    "  BP: { kind: bus bar, rated: 250 A }",
    "  BN: { kind: bus bar, rated: 250 A }",
    "  CHG: { kind: charger, output: 30 A, input: 3 A }",
  ];
  const lines: string[] = [
    "  W1: { path: B1 → SW1, length: 0.9 m }",
    "  W2: { path: B2 → SW1, length: 0.9 m }",
    "  W3: { path: SW1 → BP, length: 0.3 m }",
    "  W4: { path: CHG:out → BP, length: 1.2 m }",
  ];
  const on: string[] = [];
  // However many loads there are, together they stay within what a boat's bank can give.
  const share = Math.min(1, 60 / circuits);
  let number = 5;
  let random = 1;
  const next = (): number => {
    random = (Math.imul(random, 1664525) + 1013904223) >>> 0;
    return random / 4294967296;
  };
  const figure = (low: number, high: number, digits: number): string => (low + (high - low) * next()).toFixed(digits);
  for (let p = 1; p <= panels && number <= circuits; p++) {
    parts.push(`  PNL${p}: { kind: panel, ways: 12, device: ${p % 3 === 0 ? "fuse" : "breaker"}, negative bar: yes }`);
    lines.push(`  W${number++}: { path: BP → PNL${p}, length: ${figure(0.8, 2, 1)} m, demand: ${figure(5, 15, 0)} A }`);
    for (let way = 1; way <= 12 && number <= circuits; way++) {
      const name = `load ${p}-${way}`;
      const amps = Number(figure(0.3, 6, 2)) * share + 0.05;
      const kind = way % 5 === 0 ? "electronics" : way % 7 === 0 ? "navigation light" : "load";
      const start = way % 4 === 0 ? `, starting: ${(2.5 * amps).toFixed(2)} A, starts above: 10.5 V` : "";
      parts.push(
        `  ${name}: { kind: ${kind}, running: ${amps.toFixed(2)} A${start}${way % 11 === 0 ? ", critical: yes" : ""} }`,
      );
      const zone = way % 6 === 0 ? ", zones: { engine space: 0.5 m, dry: rest }" : "";
      lines.push(`  W${number++}: { path: PNL${p}:${way} → ${name}, length: ${figure(1.5, 9, 1)} m${zone} }`);
      if (way % 3 === 0) on.push(name);
    }
  }
  const half = on.filter((_, i) => i % 2 === 0);
  return [
    "wireworthy: 1",
    "name: Bench build",
    "rules: { DC: iso-small-craft }",
    "systems: { DC: { kind: DC, nominal: 12 V, return: BN } }",
    "stock: { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }",
    "climate: { ambient: 30 °C }",
    "zones: { engine space: { kind: engine, ambient: 60 °C } }",
    "parts:",
    ...parts,
    "circuits:",
    ...lines,
    "states:",
    `  at anchor: { engine: off, shore: out, on: [${half.join(", ")}], charge: 40 % }`,
    `  on passage: { engine: off, shore: out, on: [${on.join(", ")}], charge: 60 % }`,
    `  at night: { like: at anchor, charge: 20 % }`,
    `  alongside: { engine: off, shore: in, on: [${half.join(", ")}] }`,
    "",
  ].join("\n");
}
