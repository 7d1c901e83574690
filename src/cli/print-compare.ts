import type { ComparedCircuit, CircuitUnderRules, RuleSetComparison } from "../act/compare-rule-sets.ts";
import type { FindingName } from "../cure/index.ts";
import { ampacityOf, counted, limitOf, NOTHING } from "./figures.ts";
import { joinBlocks } from "./print-design.ts";
import { printRows } from "./stack-rows.ts";
import type { Column } from "./table.ts";
import type { Paint } from "./terminal.ts";
import { wrap } from "./text-width.ts";

/** Findings of one rule are named together, as far as they fit. */
const MOST_NAMED = 8;

/** A design under its own rule sets and under another one, side by side. */
export function printCompare(c: RuleSetComparison, width: number, paint: Paint): string {
  const changed = c.circuits.filter((x) => x.changed);
  const own = [...new Set(c.now.map(({ rules }) => rules))].join(" and ");
  const { nowMm2M, anewMm2M } = c.copper;
  return joinBlocks([
    wrap(
      `${own} → ${c.then}: ${changed.length === 0 ? "nothing would be built otherwise" : `${counted(changed.length, "circuit")} of ${c.circuits.length} would stand otherwise`}`,
      width,
    ).map((line) => paint("bold", line)),
    printCircuits(changed, width, paint),
    wrap(`Copper: ${nowMm2M.toFixed(0)} → ${anewMm2M.toFixed(0)} mm²·m, chosen anew.`, width),
    printNamed(`Found with the copper as it lies, and not under ${own}`, c.raises, width, paint),
    printNamed("Found no more", c.clears, width, paint),
    printTallies(c, width, paint),
    ["Mind", ...c.cautions.flatMap((says) => wrap(`- ${says}`, width, 2))],
    wrap(
      "A comparison, not a permit: which rules bind a build is for the law where it is used, and for a licensed electrician or surveyor.",
      width,
    ),
  ]);
}

const both =
  (say: (x: CircuitUnderRules) => string) =>
  ({ now, then }: ComparedCircuit): string => {
    const [a, b] = [say(now), say(then)];
    return a === b ? a : `${a} → ${b}`;
  };

function printCircuits(rows: readonly ComparedCircuit[], width: number, paint: Paint): string[] {
  if (rows.length === 0) return [];
  const columns: readonly Column<ComparedCircuit>[] = [
    { head: "wire", cell: (c) => c.id, least: 6 },
    { head: "to", cell: (c) => c.to, least: 8 },
    { head: "size", cell: both(({ size }) => size ?? NOTHING) },
    { head: ["Iz", "A"], cell: ({ now }) => ampacityOf(now.ampacityA), align: "number" },
    { head: ["same wire", "Iz then, A"], cell: (c) => ampacityOf(c.heldAmpacityA), align: "number" },
    { head: ["drop limit", "%"], cell: both(({ dropLimitShare }) => limitOf(dropLimitShare)) },
    { head: "decided by", cell: both(({ decidedBy }) => decidedBy ?? NOTHING) },
  ];
  const devices = rows.filter(({ now, then }) => now.devices.join() !== then.devices.join());
  const cell = (list: readonly string[]): string | readonly string[] => (list.length === 0 ? "none" : list);
  const narrow = columns.filter(({ head }) => head !== "to");
  const narrower = narrow.filter(({ head }) => head !== "decided by");
  return [
    paint("bold", "What would be chosen anew"),
    ...printRows(columns, rows, width, paint, narrow, narrower),
    ...wrap("a → b: now and under the other set. Iz: of the wire as it is now, under either set.", width),
    ...(devices.length === 0
      ? []
      : [
          "",
          paint("bold", "Devices"),
          ...printRows<ComparedCircuit>(
            [
              { head: "wire", cell: (c) => c.id, least: 6 },
              { head: "now", cell: ({ now }) => cell(now.devices), least: 12 },
              { head: "then", cell: ({ then }) => cell(then.devices), least: 12 },
            ],
            devices,
            width,
            paint,
          ),
        ]),
  ];
}

function printNamed(head: string, findings: readonly FindingName[], width: number, paint: Paint): string[] {
  if (findings.length === 0) return wrap(`${head}: nothing.`, width);
  const byRule = new Map<string, { word: string; things: string[] }>();
  for (const { rule, about, outcome, severity } of findings) {
    const word = outcome === "fail" ? severity : "unsure";
    const key = `${word} ${rule}`;
    const group = byRule.get(key) ?? { word, things: [] };
    group.things.push(about.replace(/^[a-z]+\./, ""));
    byRule.set(key, group);
  }
  const order = ["must", "should", "note", "unsure"];
  const rows = [...byRule].sort(([, a], [, b]) => order.indexOf(a.word) - order.indexOf(b.word));
  return [
    ...wrap(head, width).map((line) => paint("bold", line)),
    ...rows.flatMap(([key, { things }]) => {
      const shown = things.length > MOST_NAMED ? [...things.slice(0, MOST_NAMED), `… ${things.length} in all`] : things;
      return wrap(`- ${key}: ${shown.join(", ")}`, width, 2);
    }),
  ];
}

function printTallies({ tally }: RuleSetComparison, width: number, paint: Paint): string[] {
  const rows = [
    { head: "as it is, own rules", ...tally.now },
    { head: "as it is, other rules", ...tally.held },
    { head: "chosen anew, other rules", ...tally.anew },
  ];
  return [
    paint("bold", "Findings"),
    ...printRows(
      [
        { head: "", cell: (r) => r.head },
        { head: "must", cell: (r) => String(r.must), align: "number" },
        { head: "should", cell: (r) => String(r.should), align: "number" },
        { head: "note", cell: (r) => String(r.note), align: "number" },
        { head: ["cannot", "tell"], cell: (r) => String(r.cannotTell), align: "number" },
      ] as const satisfies readonly Column<(typeof rows)[number]>[],
      rows,
      width,
      paint,
    ),
  ];
}
