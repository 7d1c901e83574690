/** Names that a spreadsheet would run, a terminal would obey or a table would burst on. */
export const HOSTILE_NAMES = [
  "=1+cmd|' /C calc'!A0",
  "+SUM(A1)",
  "-2+3",
  "@import",
  " =1+1",
  'quo"te, comma',
  "very long name that goes on and on and on until no column could ever hold it",
  "冷蔵庫の非常に長い名前",
  "../../etc/passwd",
] as const;

const quoted = (name: string): string => `"${name.replace(/["\\]/g, "\\$&")}"`;

/** A small plan with a load, a circuit and a state for each of the names. */
export const hostilePlan = `wireworthy: 1
name: "\\e[31m\\u009b2J ../x"
rules: { DC: iso-small-craft 2020+A1:2022 }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
stock: { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }
parts:
  B1: { kind: battery, chemistry: LFP, capacity: 150 Ah, short-circuit: 3 kA }
  BP: { kind: bus bar }
  BN: { kind: bus bar }
${HOSTILE_NAMES.map((name) => `  ${quoted(name)}: { kind: load, running: 2 A }\n`).join("")}circuits:
  W0: { path: B1 → BP, length: 1 m }
${HOSTILE_NAMES.map((name, i) => `  ${quoted(`${name} w`)}: { path: ${quoted(`BP → ${name}`)}, length: ${i + 1} m }\n`).join("")}states:
${HOSTILE_NAMES.map((name) => `  ${quoted(name)}: { on: [${quoted(name)}] }\n`).join("")}`;
