import { test } from "vitest";
import assert from "node:assert/strict";
import { symbols } from "../reference/symbols.ts";
import { pathOf } from "./print-scene.ts";
import type { Point, Shape } from "./scene.ts";
import { findSymbol, placeSymbol, symbolNames, type SymbolArt } from "./symbols.ts";
import { shapeBox } from "./shape-box.ts";
import type { Turn } from "./turn-shape.ts";

const TURNS: readonly Turn[] = [0, 90, 180, 270];

const all = symbolNames().map(([key, variant]) => {
  const art = findSymbol(key, variant === "both" ? "iec" : variant);
  assert.ok(art !== null, key);
  return { id: `${key} ${variant}`, art };
});

const everyTurn = (check: (art: SymbolArt, what: string) => void): void => {
  for (const { id, art } of all) {
    for (const turn of TURNS) check(placeSymbol(art, [0, 0], turn), `${id} turned by ${turn}`);
  }
};

/** Points along a shape by its path, close enough that none is missed by a pen. */
function pointsOn(shape: Shape): Point[] {
  if (shape.is === "text") return [];
  const points: Point[] = [];
  let here: Point = [0, 0];
  let first: Point = [0, 0];
  const between = (count: number, at: (t: number) => Point) => {
    for (let i = 0; i <= count; i++) points.push(at(i / count));
  };
  const line = (to: Point) => {
    const [[x1, y1], [x2, y2]] = [here, to];
    between(Math.ceil(Math.hypot(x2 - x1, y2 - y1) / 0.1) + 1, (t) => [x1 + t * (x2 - x1), y1 + t * (y2 - y1)]);
  };
  for (const step of pathOf(shape)) {
    if (step[0] === "curve") {
      const [p, [, a, b, end]] = [here, step];
      between(64, (t) => {
        const [u, v] = [1 - t, t];
        const mix = (i: 0 | 1) => u * u * u * p[i] + 3 * u * u * v * a[i] + 3 * u * v * v * b[i] + v * v * v * end[i];
        return [mix(0), mix(1)];
      });
      here = end;
    } else if (step[0] === "close") {
      line(first);
    } else {
      if (step[0] === "line") line(step[1]);
      else first = step[1];
      here = step[1];
    }
  }
  return points;
}

test("every port lies on the grid of 2.5 mm and points along one axis", () => {
  everyTurn((art, what) => {
    for (const { name, at, out } of art.ports) {
      for (const mm of at)
        assert.ok(Math.abs(mm / 2.5 - Math.round(mm / 2.5)) < 1e-9, `${what}: port ${name} at ${at.join()}`);
      assert.equal(Math.abs(out[0]) + Math.abs(out[1]), 1, `${what}: port ${name}`);
    }
  });
});

test("every port touches the drawing, so that a wire does", () => {
  everyTurn((art, what) => {
    // The one place where the other half of a connector begins.
    const ports = art.ports.filter(({ role }) => role !== "mate");
    const points = art.shapes.flatMap(pointsOn);
    // A bar of metal is met anywhere on it, a stud or a terminal in its middle.
    const metal = art.shapes.filter((shape) =>
      shape.is === "rectangle" ? shape.fill === "ink" : shape.is === "ellipse" && shape.radii[0] <= 1.25,
    );
    for (const { name, at } of ports) {
      const away = Math.min(...points.map(([x, y]) => Math.hypot(x - at[0], y - at[1])));
      const inside = metal.some((shape) => {
        const [[x1, y1], [x2, y2]] = shapeBox(shape);
        return at[0] >= x1 && at[0] <= x2 && at[1] >= y1 && at[1] <= y2;
      });
      // Half a pen.
      assert.ok(away <= 0.125 || inside, `${what}: port ${name} is ${away.toFixed(2)} mm away`);
    }
  });
});

test("a wire that leaves a port the way it points is clear of the symbol", () => {
  everyTurn((art, what) => {
    const points = art.shapes.flatMap(pointsOn);
    // On a stud wires meet in the middle.
    const ports = art.ports.filter(({ role }) => role !== "mate" && art.key !== "stud");
    for (const { name, at, out } of ports) {
      const ahead = points.filter(([x, y]) => {
        const along = (x - at[0]) * out[0] + (y - at[1]) * out[1];
        const across = Math.abs((x - at[0]) * out[1]) + Math.abs((y - at[1]) * out[0]);
        // Beyond the pen and the circle of a terminal.
        return along > 0.7 && across < 0.3;
      });
      assert.equal(ahead.length, 0, `${what}: something lies before port ${name}`);
    }
  });
});

test("the box holds every line", () => {
  everyTurn((art, what) => {
    const [[x1, y1], [x2, y2]] = art.box;
    for (const [x, y] of art.shapes.flatMap(pointsOn)) {
      // What a curve may leave its arc by, on the largest radius of 7 mm.
      const slack = 0.003;
      assert.ok(
        x >= x1 - slack && x <= x2 + slack && y >= y1 - slack && y <= y2 + slack,
        `${what}: ${x}, ${y} is outside`,
      );
    }
  });
});

test("the boxes are those that the table gives", () => {
  for (const drawn of symbols.filter(({ strokes }) => !strokes.some(({ sample }) => sample === true))) {
    const art = findSymbol(drawn.key, drawn.variant === "both" ? "iec" : drawn.variant);
    const box = art?.box.flat() ?? [];
    drawn.box.forEach((mm, i) => {
      const off = Math.abs(mm - (box[i] ?? NaN));
      // Texts beside a symbol were measured in another font: up to a tenth of the width of `IΔn`, the longest.
      assert.ok(
        off < (drawn.strokes.some(({ is }) => is === "text") ? 0.6 : 0.02),
        `${drawn.key} ${drawn.variant}: ${drawn.box.join()} against ${box.join()}`,
      );
    });
  }
});

test("texts and signs stay upright, and within their symbol", () => {
  for (const turn of TURNS) {
    const { shapes } = placeSymbol(findSymbol("generator_set", "iec") ?? assert.fail(), [0, 0], turn);
    const letter = shapes.find((shape) => shape.is === "text" && shape.text === "G");
    const wave = shapes.find((shape) => shape.is === "arc");
    assert.ok(letter?.is === "text" && wave?.is === "arc");
    // The wave lies flat below its letter, both in the circle of 5 mm.
    assert.equal(wave.from[1], wave.to[1]);
    assert.ok(wave.from[1] > letter.at[1]);
    for (const [x, y] of [wave.from, wave.to, letter.at]) assert.ok(Math.hypot(x, y) < 5, `turned by ${turn}`);
  }
});

test("four quarter turns in pieces are one turn", () => {
  for (const { id, art } of all.filter(({ art: { turns } }) => turns === "free")) {
    const half = placeSymbol(art, [0, 0], 180);
    const quarters = placeSymbol(placeSymbol(art, [0, 0], 90), [0, 0], 90);
    const near = (a: readonly number[], b: readonly number[]) =>
      a.every((mm, i) => Math.abs(mm - (b[i] ?? NaN)) < 1e-9);
    assert.ok(near(half.box.flat(), quarters.box.flat()), id);
    for (const [i, port] of half.ports.entries()) assert.ok(near(port.at, quarters.ports[i]?.at ?? []), id);
    for (const [i, shape] of half.shapes.entries()) {
      const other = quarters.shapes[i];
      if (shape.is === "text" && other?.is === "text") assert.ok(near(shape.at, other.at), `${id}: ${shape.text}`);
      if (shape.is === "arc" && other?.is === "arc")
        assert.ok(near([...shape.from, ...shape.to], [...other.from, ...other.to]), id);
    }
  }
});

test("no symbol says what only a plan can know", () => {
  const samples = symbols.flatMap(({ key, strokes }) =>
    strokes.flatMap(({ sample, t }) => (sample === true ? [`${key} ${t ?? ""}`] : [])),
  );
  assert.ok(samples.includes("battery_bank 2P4S"));
  const shown = all.flatMap(({ art }) =>
    art.shapes.flatMap((shape) => (shape.is === "text" ? [`${art.key} ${shape.text}`] : [])),
  );
  assert.deepEqual(
    shown.filter((text) => samples.includes(text)),
    [],
  );
});

test("a symbol of the other side of the Atlantic serves where there is no own one", () => {
  assert.equal(findSymbol("battery", "na"), findSymbol("battery", "iec"));
  assert.notEqual(findSymbol("fuse", "na"), findSymbol("fuse", "iec"));
  assert.equal(findSymbol("fuse", "off"), null);
  assert.equal(findSymbol("fuse iec", "iec"), null);
});

test("a larger symbol keeps its pen", () => {
  const fuse = placeSymbol(findSymbol("fuse", "iec") ?? assert.fail(), [100, 50], 0, 1.414);
  assert.deepEqual(fuse.ports[0]?.at, [100, 50 - 7.5 * 1.414]);
  for (const shape of fuse.shapes) assert.equal(shape.is === "text" ? 0.25 : shape.stroke?.width, 0.25);
});
