import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { cableSection } from "../../wire/geometry/cable-section.ts";
import { emptyMake, type CableCores, type Ground, type PrintedSize, type WireMake } from "../../wire/make/wire-make.ts";
import type { Item, Point, Scene, Shape, TextShape } from "../scene.ts";
import { boxAround, shapeBox } from "../shape-box.ts";
import { writeSvg } from "../write-svg.ts";
import { fillRing, isInRing } from "./fill-ring.ts";
import { drawCableSection } from "./index.ts";
import { leadersCross, placeLeaders } from "./place-leaders.ts";
import { colourLooks } from "../../wire/colour/index.ts";
import { isCoreInk, patternOf } from "./patterns.ts";

const allInks = Object.keys(colourLooks).filter(isCoreInk);

const mm2 = (area: number): PrintedSize => ({ system: "mm²", name: String(area), label: `${area} mm²`, areaMm2: area, basis: "label" }); // prettier-ignore
const gauge = (name: string, area: number): PrintedSize => ({ system: "AWG", name, label: `${name} AWG`, areaMm2: area, basis: "metal" }); // prettier-ignore
function cores(insulated: number, ground: Ground, groundSize: PrintedSize | null = null): CableCores {
  const more = ground === "bare" || ground === "concentric" ? 1 : 0;
  return { insulated, total: insulated + more, ground, groundSize, others: [], paired: false };
}

const makes: Readonly<Record<string, Partial<WireMake>>> = {
  "3G2.5": { family: "harmonised cable", type: "H07RN-F", size: mm2(2.5), cores: cores(3, "insulated") },
  "12/2 with a bare ground": { family: "building cable", type: "NM-B", size: gauge("12", 3.309), cores: cores(2, "bare") }, // prettier-ignore
  "12/3 with a bare ground": { family: "building cable", type: "NM-B", size: gauge("12", 3.309), cores: cores(3, "bare") }, // prettier-ignore
  "2.5 twin and earth": { family: "twin and earth", size: mm2(2.5), cores: cores(2, "bare", mm2(1.5)) },
  "14/3 boat cable": { family: "boat cable", size: gauge("14", 2.081), cores: cores(3, "insulated") },
  "flat 12/2 boat cable": { family: "boat cable", size: gauge("12", 3.309), cores: cores(2, "none"), form: "flat" },
  "7G1.5": { family: "harmonised cable", size: mm2(1.5), cores: cores(7, "insulated") },
  "5G16": { family: "harmonised cable", size: mm2(16), cores: cores(5, "insulated") },
  "4x240": { family: "harmonised cable", size: mm2(240), cores: cores(4, "none") },
  "3x25/16": { family: "harmonised cable", size: mm2(25), cores: cores(3, "concentric", mm2(16)) },
  "red 35 mm²": { family: "battery cable", size: mm2(35), colours: [["RD"]] },
  "BKWHYE 1.5 mm²": { family: "vehicle wire", size: mm2(1.5), colours: [["BK", "WH", "YE"]] },
  "a wire of a colour that nobody knows": { size: mm2(1.5), colours: [["XX"]] },
  "a bare wire": { size: mm2(6), stranding: { name: "solid", wires: 1, wireMm: null } },
};

const textsOf = ({ items }: Scene): TextShape[] => items.flatMap(({ shapes }) => shapes.flatMap((s) => (s.is === "text" ? [s] : []))); // prettier-ignore
const leadersOf = ({ items }: Scene): (readonly [Point, Point])[] =>
  items.flatMap(({ role, shapes }) =>
    shapes.flatMap((s): (readonly [Point, Point])[] => {
      const [from, to] = s.is === "polyline" ? s.points : [];
      return role === "caption" && s.is === "polyline" && s.stroke?.ink === "ink2" && from !== undefined && to !== undefined ? [[from, to]] : []; // prettier-ignore
    }),
  );
const circlesOf = ({ shapes }: Item): (Shape & { is: "ellipse" })[] => shapes.flatMap((s) => (s.is === "ellipse" ? [s] : [])); // prettier-ignore

describe.each(Object.entries(makes))("%s", (_, make) => {
  const section = cableSection({ ...emptyMake, ...make });
  assert.ok(section !== null);

  test.each([
    [110, 80, 2],
    [72, 90, 2],
    [180, 120, 2],
    [100, 66, 2.45],
    [76, 66, 2.45],
  ] as const)(
    "on %i × %i mm in letters of %f mm nothing leaves it, no text meets another, and no leader crosses another or a text",
    (width, height, capMm) => {
      const scene = drawCableSection(section, { width, height, capMm });
      for (const { shapes } of scene.items) {
        const [[x1, y1], [x2, y2]] = boxAround(shapes.flatMap(shapeBox));
        assert.ok(x1 >= 0 && y1 >= 0 && x2 <= width && y2 <= height, `${x1} ${y1} ${x2} ${y2}`);
      }
      const texts = textsOf(scene);
      // A character that the font lacks is an empty box on paper; these it has, and true minus among them.
      for (const { text } of texts) assert.match(text, /^[ -~²×Ø−]*$/u);
      texts.forEach((a, i) => {
        for (const b of texts.slice(i + 1)) {
          const [[[ax1, ay1], [ax2, ay2]], [[bx1, by1], [bx2, by2]]] = [shapeBox(a), shapeBox(b)];
          assert.ok(!(ax1 < bx2 && ax2 > bx1 && ay1 < by2 && ay2 > by1), `"${a.text}" meets "${b.text}"`);
        }
      });
      const leaders = leadersOf(scene);
      leaders.forEach(([a, p], i) => {
        for (const [b, q] of leaders.slice(i + 1))
          assert.ok(!leadersCross(a, p, b, q), `${a.join()} crosses ${b.join()}`);
        for (const text of texts) {
          const [[x1, y1], [x2, y2]] = shapeBox(text);
          const corners: Point[] = [[x1, y1], [x2, y1], [x2, y2], [x1, y2]]; // prettier-ignore
          corners.forEach((corner, k) => {
            assert.ok(
              !leadersCross(a, p, corner, corners[(k + 1) % 4] ?? corner),
              `a leader runs through "${text.text}"`,
            );
          });
        }
      });
    },
  );

  test("every part is as large as the section has it, times what the drawing says", () => {
    const scene = drawCableSection(section);
    const times = Number(/drawn ([\d.]+) times/.exec(scene.says)?.[1]);
    const drawn = scene.items.filter(({ role, name }) => role === "symbol" && name !== "");
    assert.equal(drawn.length, section.cores.length);
    section.cores.forEach((core, i) => {
      const circles = circlesOf(drawn[i] ?? { role: "symbol", about: null, name: "", shapes: [] });
      for (const radius of [
        core.insulationRadius,
        core.conductorRadius,
        ...core.strands.circles.map((c) => c.radius),
      ]) {
        // The drawing is exact but for the arithmetic of the machine; a thousandth is what is asked of it.
        assert.ok(
          circles.some((c) => Math.abs(c.radii[0] / (radius * times) - 1) < 1e-9),
          `no circle of ${radius} mm`,
        );
      }
    });
    const bar = scene.items.find(({ role }) => role === "sheet");
    const [[x1], [x2]] = boxAround(bar?.shapes.flatMap((s) => (s.is === "polyline" ? [...s.points] : [])) ?? []);
    const told = Number(/([\d.]+) mm$/.exec(bar?.name ?? "")?.[1]);
    assert.ok(Math.abs((x2 - x1) / (told * times) - 1) < 1e-9);
  });

  test("it can be written", () => {
    assert.match(writeSvg(drawCableSection(section)), /^<svg/);
  });
});

test("metal of all wires is the area of the conductor, within what the section itself says", () => {
  const section = cableSection({ ...emptyMake, ...makes["3G2.5"] });
  const [core] = section?.cores ?? [];
  const area = core?.strands.circles.reduce((sum, { radius }) => sum + Math.PI * radius ** 2, 0) ?? 0;
  // Class 5 of 2.5 mm² is a label: 51 wires of 0.25 mm are 2.50 mm² at most.
  assert.ok(area > 2.1 && area < 2.6, String(area));
});

test("patterns end where the ring ends, all round and in a part of it", () => {
  for (const ink of allInks)
    for (const part of [undefined, [0.4, 2.2], [5, 1]] as const) {
      const ring = { centre: [10, 10] as const, inner: 2, outer: 5, ...(part === undefined ? {} : { part }) };
      const [, ...marks] = fillRing(ring, ink);
      for (const mark of marks) {
        const points: readonly Point[] =
          mark.is === "polyline" ? mark.points : mark.is === "ellipse" ? [mark.centre] : [];
        for (const [x, y] of points) {
          // Ends lie on the edge itself: looked at a hair inside.
          const inside = mark.is === "polyline" ? [x + ((points[0]?.[0] ?? x) + (points[1]?.[0] ?? x) - 2 * x) * 0.01, y + ((points[0]?.[1] ?? y) + (points[1]?.[1] ?? y) - 2 * y) * 0.01] as const : ([x, y] as const); // prettier-ignore
          assert.ok(isInRing(ring, inside), `${ink} at ${x} ${y}`);
        }
      }
    }
});

test("no two colours have the same pattern, but for those without lines, and the pair", () => {
  const looks = allInks.filter((ink) => !["BK", "WH", "CL", "GNYE", "BARE"].includes(ink)).map((ink) => { const { angles, pitch, dash } = patternOf(ink); return JSON.stringify([angles, pitch, dash]); }); // prettier-ignore
  assert.equal(new Set(looks).size, looks.length);
});

test("labels that would cross change places, and none meets another", () => {
  const all = [[50, 20], [10, 21], [30, 22], [40, 60], [12, 59]].map(([x = 0, y = 0]) => ({ anchor: [x, y] as const, extent: 5 })); // prettier-ignore
  const placed = placeLeaders(all, 1, 70, [0, 80], 1);
  const ends = placed.map(({ told, middle }) => [told.anchor, [70, middle]] as const);
  ends.forEach(([a, p], i) => {
    for (const [b, q] of ends.slice(i + 1)) {
      assert.ok(!leadersCross(a, p, b, q));
      assert.ok(Math.abs(p[1] - q[1]) >= 6 - 1e-9);
    }
  });
});
