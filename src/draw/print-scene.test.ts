import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { pathOf, printScene, type PathStep, type Pen } from "./print-scene.ts";
import type { Point, Shape } from "./scene.ts";

type Arc = Shape & { readonly is: "arc" };

const coordinate = fc.double({ min: -100, max: 100, noNaN: true });
const arcs: fc.Arbitrary<Arc> = fc
  .record({
    from: fc.tuple(coordinate, coordinate),
    to: fc.tuple(coordinate, coordinate),
    radius: fc.double({ min: 0.5, max: 300, noNaN: true }),
    large: fc.boolean(),
    sweep: fc.boolean(),
  })
  .filter(({ from, to }) => Math.hypot(from[0] - to[0], from[1] - to[1]) > 0.1)
  .map((arc) => ({ is: "arc", ...arc }));

const ends = (steps: readonly PathStep[]): Point[] =>
  steps.flatMap((step) => (step[0] === "close" ? [] : [step.at(-1) as Point])); // a step ends with its point

test("an arc runs from end to end on a circle of its radius", () => {
  fc.assert(
    fc.property(arcs, (arc) => {
      const points = ends(pathOf(arc));
      const [first, last] = [points[0] ?? [], points.at(-1) ?? []];
      assert.deepEqual(first, arc.from);
      assert.ok(Math.hypot((last[0] ?? NaN) - arc.to[0], (last[1] ?? NaN) - arc.to[1]) < 1e-6);
      const chord = Math.hypot(arc.from[0] - arc.to[0], arc.from[1] - arc.to[1]);
      const radius = Math.max(arc.radius, chord / 2);
      // Heron: the circle through both ends and any point between has the radius.
      for (const middle of points.slice(1, -1)) {
        const a = Math.hypot(middle[0] - arc.from[0], middle[1] - arc.from[1]);
        const b = Math.hypot(middle[0] - arc.to[0], middle[1] - arc.to[1]);
        const twiceArea = Math.abs(
          (middle[0] - arc.from[0]) * (arc.to[1] - arc.from[1]) - (middle[1] - arc.from[1]) * (arc.to[0] - arc.from[0]),
        );
        // Close to an end the three points say little about their circle.
        if (Math.min(a, b) > 0.01 * radius) assert.ok(Math.abs((a * b * chord) / (2 * twiceArea) / radius - 1) < 1e-6);
      }
    }),
  );
});

test("an arc bends to the side that SVG says, and the large one takes the long way", () => {
  // y down: with sweep the angle grows, so from left to right the arc passes above.
  const arc = (large: boolean, sweep: boolean) => {
    const steps = pathOf({ is: "arc", from: [-3, 0], to: [3, 0], radius: 5, large, sweep });
    const ys = ends(steps).map(([, y]) => y);
    const curves = steps.flatMap((step) => (step[0] === "curve" ? [step] : []));
    const handles = curves.flatMap(([, a, b]) => [a[1], b[1]]);
    return { up: Math.min(...ys, ...handles), down: Math.max(...ys, ...handles) };
  };
  assert.ok(arc(false, true).up < -1 && arc(false, true).up > -2 && arc(false, true).down < 0.01);
  assert.ok(arc(false, false).down > 1 && arc(false, false).up > -0.01);
  assert.ok(arc(true, true).up < -8.9);
  assert.ok(arc(true, false).down > 8.9);
});

test("a radius too small for the ends becomes half their distance", () => {
  const ys = ends(pathOf({ is: "arc", from: [0, 0], to: [10, 0], radius: 1, large: false, sweep: true })).map(
    ([, y]) => y,
  );
  assert.ok(Math.abs(Math.min(...ys) + 5) < 1e-9);
});

test("a rounded rectangle keeps its corners round and its sides straight", () => {
  const sharp = pathOf({ is: "rectangle", from: [0, 0], to: [10, 6] });
  assert.deepEqual(sharp, [["move", [0, 0]], ["line", [10, 0]], ["line", [10, 6]], ["line", [0, 6]], ["close"]]);
  const round = pathOf({ is: "rectangle", from: [0, 0], to: [10, 6], radius: 2 });
  assert.equal(round.filter(([kind]) => kind === "curve").length, 4);
  // Wider than half a side no corner can be.
  const pill = ends(pathOf({ is: "rectangle", from: [0, 0], to: [10, 6], radius: 50 }));
  for (const [x, y] of pill) assert.ok(x > -1e-9 && x < 10 + 1e-9 && y > -1e-9 && y < 6 + 1e-9);
});

test("a pen is told of items in order, of texts from their left end, and of nothing that is not seen", () => {
  const told: string[] = [];
  const pen: Pen = {
    item: (name, draw) => {
      told.push(`[${name}`);
      draw();
      told.push("]");
    },
    path: (_, { fill, stroke }) => told.push(`path ${fill ?? "-"} ${stroke?.colour ?? "-"}`),
    text: (text, [x, y], size, weight, colour) =>
      told.push(`${text} ${x.toFixed(3)} ${y} ${size.toFixed(3)} ${weight} ${colour}`),
  };
  const text = { is: "text", at: [10, 5], capMm: 0.698, weight: "regular", ink: "ink" } as const;
  printScene(
    {
      width: 20,
      height: 10,
      title: "",
      says: "",
      items: [
        {
          role: "mark",
          about: null,
          name: "first",
          shapes: [
            // H is 0.707 em wide.
            { ...text, text: "HH", anchor: "start" },
            { ...text, text: "HH", anchor: "middle" },
            { ...text, text: "HH", anchor: "end" },
            { ...text, text: "", anchor: "end" },
          ],
        },
        { role: "mark", about: null, name: "", shapes: [{ is: "ellipse", centre: [0, 0], radii: [1, 1] }, { is: "ellipse", centre: [0, 0], radii: [1, 1], fill: "warn" }] }, // prettier-ignore
      ],
    },
    pen,
  );
  assert.deepEqual(told, [
    "[first",
    "HH 10.000 5 1.000 regular #14202B",
    "HH 9.293 5 1.000 regular #14202B",
    "HH 8.586 5 1.000 regular #14202B",
    "]",
    "[",
    "path #8F6000 -",
    "]",
  ]);
});
