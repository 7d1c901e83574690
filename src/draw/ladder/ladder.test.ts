import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { sizesOn } from "../../wire/convert/index.ts";
import { conductorDiameter, sizeOfPrint } from "../../wire/index.ts";
import type { Scene, Shape, TextShape } from "../scene.ts";
import { boxAround, shapeBox, type Box } from "../shape-box.ts";
import { writeSvg } from "../write-svg.ts";
import { traps } from "./chart-words.ts";
import { cardPapers, chartPapers, drawPocketCard, drawSizeLadder, drawWallChart, windowAbout } from "./index.ts";
import { ladderColumns, notSmaller, usualSystems } from "./ladder-columns.ts";
import { heightOf } from "./ladder-items.ts";
import { sizeFacts } from "./size-facts.ts";

const textsOf = ({ items }: Scene): TextShape[] => items.flatMap(({ shapes }) => shapes.flatMap((s) => (s.is === "text" ? [s] : []))); // prettier-ignore
const dotsOf = ({ items }: Scene): (Shape & { is: "ellipse" })[] => items.flatMap(({ shapes }) => shapes.flatMap((s) => (s.is === "ellipse" && s.fill === "copper" && s.stroke === undefined ? [s] : []))); // prettier-ignore
const meet = ([[ax1, ay1], [ax2, ay2]]: Box, [[bx1, by1], [bx2, by2]]: Box): boolean =>
  ax1 < bx2 && ax2 > bx1 && ay1 < by2 && ay2 > by1;

/** Nothing leaves the paper by `edge`, and no text meets another or, but for the frame of a sheet, a line that is drawn after it. */
function holds(scene: Scene, edge: number): void {
  for (const { shapes } of scene.items) {
    if (shapes.length === 0) continue;
    const [[x1, y1], [x2, y2]] = boxAround(shapes.flatMap(shapeBox));
    const isInside = x1 >= edge && y1 >= edge && x2 <= scene.width - edge && y2 <= scene.height - edge;
    assert.ok(isInside, `${x1} ${y1} ${x2} ${y2} leaves ${scene.width} × ${scene.height}`);
  }
  const boxes = textsOf(scene).map((text) => ({ text: text.text, box: shapeBox(text) }));
  // A character that the font lacks is an empty box on paper.
  for (const { text } of textsOf(scene)) assert.match(text, /^[ -~²×ØΩ°“”–+π½…µ]*$/u);
  boxes.forEach((a, i) => {
    for (const b of boxes.slice(i + 1)) assert.ok(!meet(a.box, b.box), `"${a.text}" meets "${b.text}"`);
  });
}

describe("the size ladder", () => {
  test("holds every size on sale as its mark, at two sizes of drawing, and says what may stand in for it", () => {
    for (const column of ladderColumns(usualSystems))
      for (const rung of column.rungs.filter(({ isStocked }) => isStocked)) {
        const mark = { system: column.system, name: rung.name, areaMm2: rung.areaMm2 };
        for (const [width, height] of [
          [110, 160],

          [86, 150],
        ] as const) {
          // prettier-ignore
          const scene = drawSizeLadder({ width, height, mark, neededMm2: rung.areaMm2 * 0.9, capMm: width < 100 ? 1.8 : 2.2 });
          holds(scene, 0);
          assert.ok(textsOf(scene).some(({ text, ink }) => text === rung.name && ink === "focus"), `${rung.name} ${column.system} is not marked`); // prettier-ignore
          assert.ok(textsOf(scene).some(({ text }) => text.startsWith("needed ")), `${rung.name} ${column.system}: no floor`); // prettier-ignore
        }
      }
  });

  test("names in a column, and headings beside each other, stand apart", () => {
    const narrow = drawSizeLadder({ width: 84, height: 140, capMm: 2.8, systems: ["mm²", "AWG", "SAE", "vehicle diameter"] }); // prettier-ignore
    for (const scene of [narrow, drawPocketCard({ units: "metric" })[0], drawPocketCard({ units: "us" })[0]])
      for (const { shapes } of scene.items.filter(({ role }) => role === "table")) {
        const names = shapes.flatMap((s) => (s.is === "text" && s.anchor === "end" ? [{ text: s.text, at: s.at[1], capMm: s.capMm }] : [])); // prettier-ignore
        for (const a of names) for (const b of names) assert.ok(a === b || Math.abs(a.at - b.at) >= 1.45 * a.capMm, `${a.text} touches ${b.text}`); // prettier-ignore
      }
    const heads = textsOf(narrow).filter(({ anchor, ink }) => anchor === "middle" && ink === "ink2").map((s) => ({ text: s.text, box: shapeBox(s) })); // prettier-ignore
    for (const { text, box: [[x1, y1], [x2, y2]] } of heads) for (const other of heads) if (other.text !== text) assert.ok(!meet([[x1 - 1.5, y1], [x2 + 1.5, y2]], other.box), `${text} meets ${other.text}`); // prettier-ignore
  });

  test("the same height is the same copper: three numbers of the gauge law are a factor of 2.005, wherever they stand", () => {
    const [range, ends] = [[0.5, 254], [10, 200]] as const; // prettier-ignore
    const [awg] = ladderColumns(["AWG"]);
    const at = (name: string): number =>
      heightOf(awg?.rungs.find((rung) => rung.name === name)?.areaMm2 ?? 0, range, ends);
    // d = 0.005 in · 92^((36 − n)/39), ASTM B258: three numbers are 92^(6/39) in area, and equal steps on the scale.
    const step = ((ends[1] - ends[0]) * ((6 / 39) * Math.log(92))) / Math.log(range[1] / range[0]);
    for (const [thin, thick] of [
      ["18", "15"],
      ["12", "9"],
      ["4", "1"],
      ["1", "3/0"],
    ] as const)
      // prettier-ignore
      assert.ok(Math.abs(at(thin) - at(thick) - step) < 1e-3, `${thin} to ${thick}`);
    assert.equal(heightOf(0.5, range, ends), 200);
    assert.equal(heightOf(254, range, ends), 10);
  });

  test("what may stand in place of 2.5 mm² is joined to it, and nothing else", () => {
    const scene = drawSizeLadder({ mark: { system: "mm²", name: "2.5", areaMm2: 2.5 }, neededMm2: 2.22 });
    const mark = scene.items.find(({ role }) => role === "mark");
    // Areas as labels and data sheets have them: 12 AWG 3.31, 12 SAE 2.96, “5 mm” vehicle cable 2.90 mm².
    assert.match(mark?.name ?? "", /12 AWG, 3\.31 mm²; 12 SAE, 2\.96 mm²; 5 “mm”, 2\.9 mm²; 3\.5 JIS/);
    const words = textsOf(scene).map(({ text }) => text);
    for (const text of ["4.6 mm²,", "not 6", "needed 2.22 mm²", "3.31 mm²"]) assert.ok(words.includes(text), text);
  });

  test("a substitute never has less, and the size below it has", () => {
    const columns = ladderColumns(usualSystems);
    for (const area of [0.5, 0.76, 2.5, 10.5, 33.6, 50, 67.5, 107])
      for (const column of columns) {
        const found = notSmaller(column, area);
        if (found === null) continue;
        assert.ok(found.areaMm2 >= area);
        const below = column.rungs.findLast(({ areaMm2, isStocked }) => isStocked && areaMm2 < found.areaMm2);
        if (below !== undefined) assert.ok(below.areaMm2 < area, `${below.name} would do for ${area} mm²`);
      }
  });

  test("the window of a page has the size in it, and is as wide at the ends", () => {
    for (const area of [0.5, 0.75, 2.5, 16, 50, 120]) {
      const [least, most] = windowAbout(area);
      assert.ok(least <= area && most >= area && most / least >= 40, `${area}: ${least} to ${most}`);
    }
  });
});

describe.each(["metric", "us"] as const)("in %s units", (units) => {
  test.each(["A3", "Tabloid"] as const)(
    "the chart on %s holds all of it, dots as thick as they are, and a bar of 50 mm",
    (paper) => {
      // prettier-ignore
      const scene = drawWallChart({ paper, units });
      assert.deepEqual([scene.width, scene.height], [chartPapers[paper].width, chartPapers[paper].height]);
      holds(scene, 5);
      for (const { text, capMm } of textsOf(scene)) assert.ok(capMm >= 1.5, `${text} is too small`);
      const dots = dotsOf(scene).map(({ radii: [rx] }) => 2 * rx);
      const sizes = (["mm²", "AWG"] as const).flatMap((side) => sizesOn(side, "stocked"));
      assert.equal(dots.length, sizes.length);
      for (const { size } of sizes) {
        const own = sizeOfPrint(size);
        assert.ok(own !== null);
        const across = 1000 * conductorDiameter({ size: own, metal: "copper", plating: "plain", strands: "class 5" }).value; // prettier-ignore
        // True to a thousandth, as asked; it is drawn without rounding.
        assert.ok(dots.some((dot) => Math.abs(dot / across - 1) < 1e-3), `no dot of ${across} mm for ${size.label}`); // prettier-ignore
      }
      barOf(scene);
      assert.match(writeSvg(scene), /^<svg/);
    },
  );

  test.each(["A6", "Index"] as const)("the card on %s holds all of it on two sides", (paper) => {
    const sides = drawPocketCard({ paper, units });
    for (const scene of sides) {
      assert.deepEqual([scene.width, scene.height], [cardPapers[paper].width, cardPapers[paper].height]);
      holds(scene, 4);
      for (const { text, capMm } of textsOf(scene)) assert.ok(capMm >= 1.15, `${text} is too small`);
    }
    barOf(sides[0]);
    const dots = dotsOf(sides[1]).map(({ radii: [rx] }) => 2 * rx);
    for (const facts of [...sizeFacts("mm²"), ...sizeFacts("AWG")].filter(({ areaMm2 }) => areaMm2 <= 35))
      assert.ok(
        dots.some((dot) => Math.abs(dot / facts.strandedMm - 1) < 1e-3),
        `no dot for ${facts.name}`,
      );
  });
});

function barOf(scene: Scene): void {
  const bar = scene.items.find(({ name }) => name === "check bar of 50 mm");
  const lines = bar?.shapes.flatMap((shape) => (shape.is === "polyline" ? [...shape.points] : [])) ?? [];
  const [[x1], [x2]] = boxAround(lines);
  assert.ok(Math.abs(x2 - x1 - 50) < 1e-9);
}

test("metric sizes for gauges are those of a published list", () => {
  // Smallest metric size with at least the area of an AWG size, as a medium-voltage application guide prints it from ASTM and IEC 60228.
  const published = { "18": "1", "16": "1.5", "14": "2.5", "12": "4", "10": "6", "8": "10", "6": "16", "4": "25", "2": "35", "1": "50", "1/0": "70", "2/0": "70", "3/0": "95", "4/0": "120" }; // prettier-ignore
  const own = Object.fromEntries(sizeFacts("AWG").map(({ name, other }) => [name, other?.name]));
  for (const [gauge, metric] of Object.entries(published)) assert.equal(own[gauge], metric, gauge);
});

test("resistances are those of the standards", () => {
  const of = (side: "mm²" | "AWG", name: string) => sizeFacts(side).find((facts) => facts.name === name);
  // IEC 60228 class 5, plain: 2.5 mm² 7.98 Ω/km, 35 mm² 0.554 Ω/km.
  assert.ok(Math.abs((of("mm²", "2.5")?.ohmsPerTenMetres ?? 0) - 0.0798) < 1e-9);
  assert.ok(Math.abs((of("mm²", "35")?.ohmsPerTenMetres ?? 0) - 0.00554) < 1e-9);
  // NEC chapter 9 table 8: 10 AWG stranded 1.24 Ω/kft at 75 °C; at 20 °C 1.24 · (1 + 0.00323 · (20 − 75)) = 1.020 Ω/kft.
  assert.ok(Math.abs((of("AWG", "10")?.ohmsPerHundredFeet ?? 0) - 0.102) < 1e-4);
});

test("what the traps cost is what the tables say", () => {
  const says = traps("metric").lines.map((line) => (line.is === "text" ? line.text : "")).join(" "); // prettier-ignore
  // Figures of the trade's own lists: 6 mm vehicle cable 4.59 mm²; 2/0 twice 2 AWG; 6 AWG 17 % under 16 mm²; copper 22 % up at 75 °C.
  for (const figure of ["4.59 mm², 24 % less", "2.01 times", "3.19 times", "17 % less", "22 % more", "2.96 mm²"])
    assert.ok(says.includes(figure), `${figure}: ${says}`);
});
