import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import process from "node:process";

/** Shows what the program does with two whole boats: the sloop, and its twin under the US rules. */
const root = join(import.meta.dirname, "..");
const bin = join(root, "bin", "wireworthy.js");

/** Runs the command line as a person would; stops with it when it cannot work. */
function wireworthy(...args) {
  const { status } = spawnSync(process.execPath, [bin, ...args], { cwd: root, stdio: "inherit" });
  // 1: a rule finds something, as it does in these boats; 2: the plan has an error, and what could be computed is there all the same.
  if (status !== 0 && status !== 1 && status !== 2) process.exit(status ?? 1);
}

const title = (text) => console.log(`\n=== ${text} ===\n`);

const boats = [
  { name: "sloop", plan: "examples/sloop.yaml", is: "the sloop, mm² and ISO rules" },
  { name: "sloop-us", plan: "examples/sloop-us.yaml", is: "its twin, AWG and US rules" },
].filter(({ plan }) => {
  const isThere = existsSync(join(root, plan));
  if (!isThere) console.log(`${plan} is not there: the demo goes on without it`);
  return isThere;
});

for (const { name, plan, is } of boats) {
  title(`${plan}: ${is}`);
  wireworthy("check", plan, "--quiet");
  wireworthy("build", plan, "-o", join("out", "demo", name));
}

const [first] = boats;
if (first !== undefined) {
  title("Schedule and volts of the sloop");
  wireworthy("schedule", first.plan);
}

if (first !== undefined) {
  title("Why the windlass has its wire");
  wireworthy("why", first.plan, "W12", "--quick");
}

if (first !== undefined) {
  title("Every state of the sloop's alternating side");
  wireworthy("states", first.plan);
}

const designs = boats.map(({ name }) =>
  JSON.parse(readFileSync(join(root, "out", "demo", name, "design.json"), "utf8")),
);
if (designs.length === 2) {
  title("The sloop and its twin, wire by wire");
  compare(designs[0].design, designs[1].design);
}

title("Where to look");
for (const { name } of boats) {
  console.log(
    `out/demo/${name}/  report.html (all of it, for a browser)  one-line.pdf  one-line.svg  findings.txt  schedule.txt  design.json`,
  );
}
console.log(`
The page draws the same plans and lets you change them by hand:
  npm start                                       then open the address that it says
  node bin/wireworthy.js page examples/sloop.yaml  with the sloop on the desk`);
console.log("\nWiring can burn, shock and sink: these figures are advice to a competent person, not a certificate.");

/** One line a wire that both can tell. */
function compare(here, there) {
  const twin = new Map(there.circuits.map((c) => [c.id, c]));
  const rows = here.circuits.flatMap((a) => {
    const b = twin.get(a.id);
    if (b === undefined || a.size === null || b.size === null) return [];
    return [[a.id, a.to, ...figures(a), ...figures(b)]];
  });
  const heads = ["wire", "to", "sloop", "device A", "drop %", "twin", "= mm²", "device A", "drop %"];
  const cells = [heads, ...rows.map(([id, to, s1, , d1, p1, s2, m2, d2, p2]) => [id, to, s1, d1, p1, s2, m2, d2, p2])];
  const widths = heads.map((_, i) => Math.max(...cells.map((row) => row[i].length)));
  const isNumber = (i) => [3, 4, 6, 7, 8].includes(i);
  for (const row of cells) {
    const line = row.map((cell, i) => (isNumber(i) ? cell.padStart(widths[i]) : cell.padEnd(widths[i])));
    console.log(line.join("  ").trimEnd());
  }
  console.log(`copper in all: ${here.copperMm2M.toFixed(0)} mm²·m and ${there.copperMm2M.toFixed(0)} mm²·m`);
}

function figures({ size, devices, dropShare }) {
  const ratings = devices.map((d) => (d.ratingA === null ? "?" : String(d.ratingA)));
  return [
    size.label,
    size.areaMm2.toFixed(1),
    ratings.length === 0 ? "–" : ratings.join(" + "),
    dropShare === null ? "–" : (100 * dropShare).toFixed(1),
  ];
}
