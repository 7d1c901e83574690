import { describe, expect, test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { drawBench, type BenchDrawing, type BenchOptions } from "../../src/draw/bench/index.ts";
import type { DrawnFinding, OneLineBuild } from "../../src/draw/one-line/index.ts";
import { fontSize } from "../../src/draw/text-width.ts";
import { writeSvg } from "../../src/draw/write-svg.ts";
import { makePlan } from "../../bench/make-plan.ts";
import { settleOnce } from "../fixtures/settled-text.ts";
import { findFaults, type SheetFaults } from "./one-line-faults.ts";
import { randomBuild } from "./random-build.ts";

const examples = ["sloop", "sloop-us", "sloop-audit", "van", "hut"] as const;
const textOf = (name: string): string =>
  readFileSync(join(import.meta.dirname, "../../examples", `${name}.yaml`), "utf8");

/** One finding of every kind about every third thing of a build, so that marks stand wherever they can. */
function withFindings(text: string, every = 3): OneLineBuild {
  const build = settleOnce(text);
  const abouts = [
    ...build.system.circuits.map(({ id }) => `circuits.${id}`),
    ...build.system.parts.map(({ id }) => `parts.${id}`),
  ];
  const outcomes = [["fail", "must"], ["fail", "should"], ["cannot tell", "must"], ["fail", "note"]] as const; // prettier-ignore
  const findings = abouts.flatMap((about, i): DrawnFinding[] => {
    const [outcome, severity] = outcomes[i % outcomes.length] ?? outcomes[0];
    return i % every === 0 ? [{ rule: "a/b", outcome, severity, about, title: `what is wrong with ${about}`, because: "it is not as it should be" }] : []; // prettier-ignore
  });
  return { ...build, findings };
}

const plain = (text: string): OneLineBuild => ({ ...settleOnce(text), findings: [] });
const rest: BenchOptions = { variant: "iec", state: null };

const faultsOf = ({ scene }: BenchDrawing): SheetFaults =>
  findFaults(scene, { frame: [[1, 1], [scene.width - 1, scene.height - 1]], origin: [1, 1.5] }); // prettier-ignore

const statesOf = (build: OneLineBuild): (string | null)[] => [null, ...build.design.states.map(({ id }) => id)];

/** Every part and circuit of a plan is drawn, or named among what is not. */
function missing(build: OneLineBuild, { scene, notDrawn, places }: BenchDrawing): string[] {
  const drawn = new Set(scene.items.flatMap(({ role, about }) => (about !== null && (role === "symbol" || role === "bar" || role === "wire") ? [about] : []))); // prettier-ignore
  const all = [...build.system.parts.map(({ id }) => `parts.${id}`), ...build.system.circuits.map(({ id }) => `circuits.${id}`)]; // prettier-ignore
  const said = notDrawn.join("; ");
  // A fuse that is a part of its own may stand in a circuit as its device.
  return all.filter((about) => !drawn.has(about) && places[about] === undefined && !said.includes(about.slice(about.indexOf(".") + 1))); // prettier-ignore
}

describe.each(examples)("the bench of %s", (name) => {
  test("nothing on it meets, crosses or leaves, in any state", () => {
    const build = withFindings(textOf(name));
    for (const variant of ["iec", "na"] as const) {
      for (const state of statesOf(build)) {
        const drawing = drawBench(build, { variant, state, handles: true });
        const { faults, crossings } = faultsOf(drawing);
        expect([state, ...faults]).toEqual([state]);
        assert.ok(crossings <= 2, `${crossings} crossings`);
        expect(missing(build, drawing)).toEqual([]);
      }
    }
  });

  test("its letters are at least 12 px high where it is 940 px wide", () => {
    for (const { role, shapes } of drawBench(withFindings(textOf(name)), rest).scene.items) {
      // Letters inside symbols are repeated in their names.
      if (role === "symbol") continue;
      for (const s of shapes) if (s.is === "text") assert.ok((fontSize(s.capMm) * 940) / 176 >= 12, s.text);
    }
  });

  test("a state moves nothing but blades", () => {
    const build = withFindings(textOf(name));
    const at = (drawing: BenchDrawing): string[] =>
      drawing.scene.items.flatMap(({ role, about, shapes }) =>
        role === "wire" || role === "bar"
          ? shapes.flatMap((s) => (s.is === "polyline" ? [`${about ?? ""} ${JSON.stringify(s.points)}`] : []))
          : [],
      );
    const [first = [], ...others] = statesOf(build).map((state) => at(drawBench(build, { ...rest, state })));
    assert.ok(first.length > 10);
    for (const other of others) expect(other).toEqual(first);
  });

  test("handles move nothing, and figures say what they are only with them", () => {
    const build = withFindings(textOf(name));
    const bare = drawBench(build, rest);
    const held = drawBench(build, { ...rest, handles: true });
    assert.ok(!writeSvg(bare.scene).includes("data-field"));
    const svg = writeSvg(held.scene);
    for (const field of ["number", "name", "size", "length", "load"])
      assert.ok(svg.includes(`data-field="${field}"`), field);
    const rings = held.scene.items.filter((i) => i.name.startsWith("free way of "));
    const without = writeSvg({ ...held.scene, items: held.scene.items.filter((i) => !rings.includes(i)) });
    assert.equal(without.replace(/ data-field="\w+"/g, ""), writeSvg(bare.scene));
    assert.ok(rings.length > 0);
  });
});

test("a panel whose ways are all taken has no ring, and each other bar has one", () => {
  const { scene } = drawBench(plain(textOf("sloop")), { ...rest, handles: true });
  const rings = scene.items
    .filter(({ name }) => name.startsWith("free way of "))
    .map(({ about, role }) => [role, about]);
  // PNL has twelve ways and twelve loads; of the three of CU one is free; BN is on the way back.
  expect(rings).toEqual([["mark", "parts.BP"], ["mark", "parts.CU"]]); // prettier-ignore
});

test("two hundred builds of every shape are drawn whole, and nothing on them meets", () => {
  for (let seed = 1; seed <= 200; seed++) {
    const build = withFindings(randomBuild(seed), 4);
    const drawing = drawBench(build, { variant: seed % 2 === 0 ? "na" : "iec", state: null, handles: true });
    expect([seed, ...faultsOf(drawing).faults, ...missing(build, drawing)]).toEqual([seed]);
    assert.deepEqual(JSON.parse(JSON.stringify(drawing)), drawing);
  }
}, 300_000);

test("marks stand in reading order, and each thing with a finding on the drawing has one", () => {
  const build = withFindings(textOf("sloop"));
  const { marks, places } = drawBench(build, rest);
  for (const [i, mark] of marks.entries()) {
    const before = marks[i - 1];
    if (before !== undefined) assert.ok(before.y < mark.y || (before.y === mark.y && before.x <= mark.x));
  }
  const marked = new Set(marks.map(({ about }) => about));
  for (const { about } of build.findings) assert.ok(marked.has(about), about);
  for (const { about } of marks) assert.ok(places[about] !== undefined, about);
});

describe("the bench in a state", () => {
  const build = plain(textOf("sloop"));
  const drawing = drawBench(build, { ...rest, state: "at anchor" });
  const inksOf = (about: string): Set<string> =>
    new Set(
      drawing.scene.items
        .filter((item) => item.about === about && (item.role === "wire" || item.role === "symbol"))
        .flatMap(({ shapes }) => shapes.flatMap((s) => (s.is === "text" ? [s.ink] : [s.stroke?.ink, s.fill])))
        .flatMap((ink) => (ink === undefined || ink === "paper" ? [] : [ink])),
    );

  test("what is off is grey, its line, its device and its load", () => {
    for (const about of ["circuits.W13", "parts.fridge", "circuits.W04", "parts.B1", "parts.SW1"])
      expect([...inksOf(about)]).toEqual(["ink"]);
    for (const about of ["circuits.W12", "parts.windlass", "circuits.W08", "parts.MPPT", "parts.INL"])
      expect([...inksOf(about)]).toEqual(["idle"]);
  });

  test("alternating current is on where a source reaches a load that is on, through the switch as it stands", () => {
    // The inverter feeds the transfer switch; no socket is in use.
    expect([...inksOf("circuits.W30")]).toEqual(["ink"]);
    expect([...inksOf("circuits.W29")]).toEqual(["idle"]);
    expect([...inksOf("circuits.W27")]).toEqual(["idle"]);
    const alongside = drawBench(build, { ...rest, state: "alongside" }).scene.items;
    // The lines of a wire on both sides of the device in it.
    const inks = (about: string): unknown =>
      new Set(alongside.filter((i) => i.role === "wire" && i.about === about).flatMap(({ shapes }) => shapes.map((s) => (s.is === "polyline" ? s.stroke?.ink : "")))); // prettier-ignore
    expect(inks("circuits.W27")).toContain("ink");
    expect(inks("circuits.W30")).toEqual(new Set(["idle"]));
  });

  test("a band under the copper is 4 px and 1.5 px for each ampere wide, at most 26", () => {
    const widthOf = (of: BenchDrawing, about: string): number[] =>
      of.scene.items
        .filter((i) => i.role === "flow" && i.about === about)
        .flatMap(({ shapes }) => shapes.flatMap((s) => (s.is === "polyline" && s.stroke !== undefined ? [(s.stroke.width * 940) / 176] : []))); // prettier-ignore
    // The fridge takes 4.3 A: 4 + 1.5 × 4.3.
    for (const px of widthOf(drawing, "circuits.W13")) assert.ok(Math.abs(px - 10.45) < 0.01, String(px));
    assert.ok(widthOf(drawing, "circuits.W13").length > 0);
    assert.equal(widthOf(drawing, "circuits.W12").length, 0);
    const hauling = drawBench(build, { ...rest, state: "hauling the anchor" });
    for (const px of widthOf(hauling, "circuits.W12")) assert.ok(Math.abs(px - 26) < 0.01, String(px));
  });

  test("a state that the plan does not have shows contacts at rest", () => {
    assert.equal(writeSvg(drawBench(build, { ...rest, state: "on the moon" }).scene), writeSvg(drawBench(build, rest).scene)); // prettier-ignore
  });
});

describe("the bench is stable", () => {
  const text = textOf("sloop");
  const corner = ({ places }: BenchDrawing): Map<string, string> =>
    new Map(Object.entries(places).map(([about, { x, y }]) => [about, `${x} ${y}`]));

  test("a load added at the end moves nothing above it", () => {
    const more = text
      .replace("  sockets to port: {", "  reading lamp: { kind: light, running: 0.2 A }\n  sockets to port: {")
      .replace("ways: 12,", "ways: 13,")
      .replace("  W32: {", "  W99: { path: PNL:13 → reading lamp, length: 2 m }\n  W32: {");
    const before = corner(drawBench(plain(text), rest));
    const drawn = drawBench(plain(more), rest);
    const after = corner(drawn);
    const lamp = drawn.places["parts.reading lamp"]?.y ?? assert.fail();
    let kept = 0;
    for (const [about, at] of before) {
      // The panel's feeder comes to its middle, which the new way moves.
      if (Number(at.split(" ")[1]) >= lamp - 2.5 || about === "circuits.W04") continue;
      assert.equal(after.get(about), at, about);
      kept++;
    }
    assert.ok(kept > 30, `${kept} things stand above`);
  });

  test("a changed rating moves nothing", () => {
    const more = text
      .replace("running: 4.3 A, starting: 8 A", "running: 14.3 A, starting: 28 A")
      .replace("rated: 1200 VA", "rated: 2500 VA");
    const symbols = (t: string): string[] =>
      drawBench(plain(t), rest).scene.items.flatMap(({ role, about, shapes }) => {
        const first = shapes[0];
        if (about === null || !about.startsWith("parts.") || (role !== "symbol" && role !== "bar")) return [];
        return [`${about} ${JSON.stringify(first?.is === "polyline" ? first.points : first?.is === "rectangle" ? first.from : "")}`]; // prettier-ignore
      });
    expect(symbols(more)).toEqual(symbols(text));
  });
});

test("each circuit of a large build takes about as long as each of a small one", () => {
  const sizes = [50, 400] as const;
  const builds = sizes.map((n) => plain(makePlan(n)));
  const least = sizes.map(() => Infinity);
  // In turn, so that a busy machine slows both; the first rounds warm up.
  for (let round = 0; round < 12; round++) {
    builds.forEach((build, i) => {
      const start = performance.now();
      drawBench(build, { variant: "iec", state: build.design.states[0]?.id ?? null, handles: true });
      least[i] = Math.min(least[i] ?? Infinity, performance.now() - start);
    });
  }
  const [small = 0, large = 0] = least.map((ms, i) => ms / (sizes[i] ?? 1));
  // n² would make it eight times.
  assert.ok(large < 3 * small, `${large} ms and ${small} ms for each circuit`);
});
