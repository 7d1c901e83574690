import { describe, expect, test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { drawOneLine, type DrawnFinding, type OneLineBuild } from "../../src/draw/one-line/index.ts";
import type { Item, Point, Scene } from "../../src/draw/scene.ts";
import { boxAround, shapeBox } from "../../src/draw/shape-box.ts";
import { cleanText } from "../../src/draw/clean-text.ts";
import { writeSvg } from "../../src/draw/write-svg.ts";
import { makePlan } from "../../bench/make-plan.ts";
import { compiledExample } from "../fixtures/compiled-example.ts";
import { settleOnce, settleText } from "../fixtures/settled-text.ts";
import { findFaults } from "./one-line-faults.ts";
import { randomBuild } from "./random-build.ts";

const examples = ["sloop", "sloop-us", "sloop-audit", "van", "hut"] as const;
const textOf = (name: string): string =>
  readFileSync(join(import.meta.dirname, "../../examples", `${name}.yaml`), "utf8");

/** One finding of every kind about every third thing of a build, so that marks stand wherever they can. */
function withFindings(text: string, every = 3, settle = settleOnce): OneLineBuild {
  const build = settle(text);
  const abouts = [
    ...build.system.circuits.map(({ id }) => `circuits.${id}`),
    ...build.system.parts.map(({ id }) => `parts.${id}`),
  ];
  const outcomes = [["fail", "must"], ["fail", "should"], ["cannot tell", "must"], ["fail", "note"]] as const; // prettier-ignore
  const findings = abouts.flatMap((about, i): DrawnFinding[] => {
    const [outcome, severity] = outcomes[i % outcomes.length] ?? outcomes[0];
    return i % every === 0 ? [{ rule: "a/b", outcome, severity, about, title: `what is wrong with ${about}`, because: "it is not as it should be, for a reason that takes a line or two to tell", cure: "mend it" }] : []; // prettier-ignore
  });
  return { ...build, findings };
}

const noScene: Scene = { width: 210, height: 297, title: "", says: "", items: [] };

const draw = (build: OneLineBuild, paper: "A4" | "A3" | "Letter" = "A4", variant: "iec" | "na" = "iec"): Scene[] =>
  drawOneLine(build, { paper, variant, date: "2026-05-04" });

/** Everything of the plan has its one picture, or is named as not drawn. */
function missing(build: OneLineBuild, scenes: readonly Scene[]): string[] {
  const items = scenes.flatMap((scene) => scene.items);
  const texts = items.flatMap(({ shapes }) => shapes.flatMap((s) => (s.is === "text" ? [s.text] : []))).join(" ");
  const lost = texts.slice(Math.max(0, texts.indexOf("Not drawn:")));
  const faults: string[] = [];
  const pictures = new Map<string, number>();
  const names = new Map<string, number>();
  for (const { role, about, name } of items) {
    if (about === null) continue;
    if (role === "symbol" || role === "bar") pictures.set(about, (pictures.get(about) ?? 0) + 1);
    if (role === "wire" && name !== "") names.set(about, (names.get(about) ?? 0) + 1);
  }
  for (const { id } of build.system.parts) {
    const n = pictures.get(`parts.${id}`) ?? 0;
    // A fuse that is a part of its own may stand in a circuit as its device.
    const isDevice = build.plan.circuits.some(({ facts }) =>
      JSON.stringify([facts.fuse, facts.breaker]).includes(`"${id}"`),
    );
    if (n > 1 || (n === 0 && !lost.includes(id) && !isDevice)) faults.push(`part ${id} is drawn ${n} times`);
  }
  for (const { id } of build.system.circuits) {
    const wires = items.filter((i) => i.role === "wire" && i.about === `circuits.${id}`).length;
    if (wires === 0 && !lost.includes(id)) faults.push(`circuit ${id} is not drawn`);
    if ((names.get(`circuits.${id}`) ?? 0) > 1) faults.push(`circuit ${id} is told twice`);
  }
  return faults;
}

/** Captions that end in … and are not the beginning of a name: a figure that is cut reads as another. */
function cutFigures(build: OneLineBuild, scenes: readonly Scene[]): string[] {
  const names = [
    ...build.system.parts.flatMap(({ id, name }) => [id, name]),
    ...build.system.circuits.map(({ id }) => id),
  ].map(cleanText);
  return scenes
    .flatMap(({ items }) => items.filter(({ role }) => role === "caption" || role === "mark" || role === "bar"))
    .flatMap(({ shapes }) => shapes.flatMap((s) => (s.is === "text" && s.text.endsWith("…") ? [s.text] : [])))
    .filter((text) => {
      const start = text.slice(0, -1).replace(/^ /, "").replace(/^(to|from) /, ""); // prettier-ignore
      // Where two circuits make one line, both stand before the figures.
      return !names.some((name) => name.startsWith(start) || start.startsWith(`${name} + `));
    });
}

describe.each(examples)("the one-line of %s", (name) => {
  test.each(["A4", "A3", "Letter"] as const)("on %s nothing meets, crosses or leaves", (paper) => {
    const build = withFindings(textOf(name));
    for (const variant of ["iec", "na"] as const) {
      const scenes = draw(build, paper, variant);
      for (const scene of scenes) {
        const { faults, crossings } = findFaults(scene);
        expect(faults).toEqual([]);
        assert.ok(crossings <= 2, `${crossings} crossings`);
      }
      expect(missing(build, scenes)).toEqual([]);
      expect(cutFigures(build, scenes)).toEqual([]);
    }
  });

  test("is the same every time", () => {
    const build = withFindings(textOf(name));
    assert.equal(draw(build).map((s) => writeSvg(s)).join(""), draw(withFindings(textOf(name), 3, settleText)).map((s) => writeSvg(s)).join("")); // prettier-ignore
  });
});

test("two hundred builds of every shape are drawn whole, and nothing on them meets", () => {
  const papers = ["A4", "A3", "Letter"] as const;
  for (let seed = 1; seed <= 200; seed++) {
    const build = withFindings(randomBuild(seed), 4);
    const scenes = draw(build, papers[seed % 3] ?? "A4", seed % 2 === 0 ? "na" : "iec");
    const faults = scenes.flatMap((scene) => findFaults(scene).faults);
    expect([seed, ...faults, ...missing(build, scenes), ...cutFigures(build, scenes)]).toEqual([seed]);
  }
}, 300_000);

test("batteries in series stand in one line, in the order of their terminals, and not side by side as those in parallel", () => {
  const battery = "{ kind: battery, chemistry: AGM, capacity: 100 Ah, nominal: 12 V, short-circuit: 3 kA }";
  const circuits = (link: string): string => `
name: bank
rules: { DC: iso-small-craft 2020 }
systems: { DC: { nominal: 24 V } }
parts:
  BP: { kind: bus bar, rated: 400 A }
  BN: { kind: bus bar, rated: 400 A }
  B1: ${battery}
  B2: ${battery}
circuits:
  W01: { path: "B2:+ → BP", length: 1 m }
  W02: { path: "B1:− → BN", length: 1 m }
  W03: { path: "${link}", length: 0.3 m }
`;
  const at = (text: string): Point[] => {
    const build = { ...settleOnce(text), findings: [] };
    const scenes = draw(build);
    expect([...findFaults(scenes[0] ?? noScene).faults, ...missing(build, scenes)]).toEqual([]);
    return ["B1", "B2"].map((id) => {
      const item = scenes[0]?.items.find(({ role, about }) => role === "symbol" && about === `parts.${id}`);
      return boxAround((item?.shapes ?? []).flatMap((shape) => shapeBox(shape)))[0];
    });
  };
  for (const link of ["B1:+ → B2:−", "B2:− → B1:+"]) {
    const [first = [0, 0], second = [0, 0]] = at(circuits(link));
    assert.ok(first[0] < second[0] && Math.abs(first[1] - second[1]) < 0.01, `${link}: ${first.join(" ")}, ${second.join(" ")}`); // prettier-ignore
  }
  const [first = [0, 0], second = [0, 0]] = at(circuits("B1:+ → BP"));
  assert.ok(first[0] === second[0] && first[1] > second[1] + 5);
});

const textsOf = (scene: Scene | undefined, role: string): string[] =>
  (scene?.items ?? []).flatMap((item) => item.role === role ? item.shapes.flatMap((s) => (s.is === "text" ? [s.text] : [])) : []); // prettier-ignore

describe("the words about a drawing", () => {
  test.each(examples)("%s: the gravest notes stand on it, and what is assumed stands somewhere", (name) => {
    for (const paper of ["A4", "A3", "Letter"] as const) {
      const long = withFindings(textOf(name), 1);
      const findings = long.findings.map((f) => ({ ...f, because: f.because.repeat(20) }));
      for (const build of [long, { ...long, findings }, compiledExample(name).compiled]) {
        const scenes = draw("judgement" in build ? { ...build, findings: build.judgement.findings } : build, paper);
        const words = scenes.map((scene) => textsOf(scene, "table"));
        if (words[0]?.includes("Notes to the numbers on the drawing") === true)
          assert.ok((scenes[0]?.items ?? []).some(({ role, name: says }) => role === "table" && /^\d+: /.test(says)));
        const heads = words.flat().filter((text) => text.startsWith("Assumed or not known"));
        assert.ok(heads.length > 0, `${paper}: nothing is said of what is assumed`);
      }
    }
  });

  test("a note that is cut on the drawing stands whole on the sheet of notes", () => {
    const build = withFindings(textOf("sloop"), 1);
    const because = `it is wrong ${"and wrong again ".repeat(40)}to the end`;
    const scenes = draw({ ...build, findings: build.findings.map((f) => ({ ...f, because })) });
    const isCut = ({ shapes }: Item): boolean =>
      shapes.some((s) => s.is === "text" && s.text.endsWith("… see the sheet of notes"));
    const cut = (scenes[0]?.items ?? []).filter(({ role, name }) => role === "table" && /^\d+: /.test(name)).filter(isCut); // prettier-ignore
    assert.ok(cut.length > 0);
    const others = scenes.slice(1).flatMap(({ items }) => items);
    for (const { name } of cut) {
      const whole = others.find((item) => item.name === name);
      const words = (whole?.shapes ?? []).flatMap((s) => (s.is === "text" ? s.text.split(" ") : []));
      const [number = "", ...rest] = name.split(": ");
      assert.deepEqual(words, [number, ...rest.join(": ").split(" ")]);
    }
  });
});

/** Where each thing of a plan stands on the first sheet: its symbol or its first piece of wire. */
function places(scenes: readonly Scene[]): Map<string, string> {
  const found = new Map<string, string>();
  scenes.forEach((scene, sheet) => {
    for (const { role, about, shapes } of scene.items) {
      if (about === null || !(role === "symbol" || role === "bar" || role === "wire") || found.has(about)) continue;
      const first = shapes[0];
      const at =
        first?.is === "polyline"
          ? first.points[0]
          : first?.is === "rectangle"
            ? first.from
            : first?.is === "ellipse"
              ? first.centre
              : null;
      if (at !== null && at !== undefined) found.set(about, `${sheet} ${at[0].toFixed(2)} ${at[1].toFixed(2)}`);
    }
  });
  return found;
}

test("on A3 the letters of a drawing are 2.5 mm high, with no more sheets for it", () => {
  const build = withFindings(textOf("sloop"));
  const [usual, large] = (["A4", "A3"] as const).map((paper) => draw(build, paper).filter(({ items }) => items.some(({ role }) => role === "wire"))); // prettier-ignore
  assert.equal(large?.length, usual?.length);
  for (const { items } of large ?? [])
    for (const { role, shapes } of items)
      for (const s of shapes) if (role === "caption" && s.is === "text") assert.ok(Math.abs(s.capMm - 2.5) < 1e-9);
});

describe("drawings are stable", () => {
  const text = textOf("sloop");

  test("a load added at the end moves nothing above it", () => {
    const parts = text.replace(
      "  sockets to port: {",
      "  reading lamp: { kind: light, running: 0.2 A }\n  sockets to port: {",
    );
    const more = parts
      .replace("ways: 12,", "ways: 13,")
      .replace("  W32: {", "  W99: { path: PNL:13 → reading lamp, length: 2 m }\n  W32: {");
    const before = places(draw({ ...settleOnce(text), findings: [] }));
    const after = places(draw({ ...settleOnce(more), findings: [] }));
    const lamp = Number(after.get("parts.reading lamp")?.split(" ")[2]);
    assert.ok(lamp > 0);
    let kept = 0;
    for (const [about, at] of before) {
      const [sheet, , y] = at.split(" ");
      // The panel's feeder comes to its middle, which the new way moves.
      if (sheet !== "0" || Number(y) >= lamp || about === "circuits.W04") continue;
      assert.equal(after.get(about), at, about);
      kept++;
    }
    assert.ok(kept > 30, `${kept} things stand above`);
  });

  test("a changed rating moves nothing", () => {
    const more = text
      .replace("running: 4.3 A, starting: 8 A", "running: 14.3 A, starting: 28 A")
      .replace("rated: 1200 VA", "rated: 2500 VA");
    const [before, after] = [text, more].map((t) => places(draw({ ...settleOnce(t), findings: [] })));
    // Symbols in a line stand where its device's words leave them; what the plan names stays.
    for (const [about, at] of before ?? []) assert.equal(after?.get(about), at, about);
  });
});

test("each circuit of a large build takes about as long as each of a small one", () => {
  const sizes = [50, 400] as const;
  const builds = sizes.map((n) => ({ ...settleText(makePlan(n)), findings: [] }));
  const least = sizes.map(() => Infinity);
  // In turn, so that a busy machine slows both; the first rounds warm up.
  for (let round = 0; round < 12; round++) {
    builds.forEach((build, i) => {
      const start = performance.now();
      draw(build);
      least[i] = Math.min(least[i] ?? Infinity, performance.now() - start);
    });
  }
  const [small = 0, large = 0] = least.map((ms, i) => ms / (sizes[i] ?? 1));
  // n² would make it eight times.
  assert.ok(large < 3 * small, `${large} ms and ${small} ms for each circuit`);
});
