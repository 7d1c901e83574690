import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { deviceFamily, deviceFamilyIds, gatesOf, openingBand } from "../../device/index.ts";
import { judgePair } from "../../protect/selectivity/index.ts";
import { isVerified } from "../../explain/index.ts";
import type { Scene, TextShape } from "../scene.ts";
import { shapeBox, type Box } from "../shape-box.ts";
import { papers } from "../sheet/paper.ts";
import { titleHeight, type TitleFields } from "../sheet/title-block.ts";
import { writeSvg } from "../write-svg.ts";
import { decadesOf } from "./axes.ts";
import { clipArea, hatch } from "./clip.ts";
import { drawTimeCurrent, plotDevice, type DeviceInChain, type PlotPoint, type TimeCurrentPlot } from "./index.ts";

const fields: TitleFields = {
  owner: "",
  documentType: "time–current drawing",
  status: "for review",
  revision: "A",
  title: "Sloop",
  identification: "SLOOP-T1",
  supplement: "24 V DC",
  scale: "none",
  sheet: "1/1",
  language: "en",
  date: "",
  creator: "",
  approval: "",
  rules: "",
  changes: [{ revision: "A", zone: "–", what: "drawn from the plan", date: "" }],
};

const anyDevice: fc.Arbitrary<DeviceInChain> = fc.constantFrom(...deviceFamilyIds).chain((family) =>
  fc.record({
    about: fc.constantFrom(null, "parts.x"),
    name: fc.oneof(fc.constantFrom("F1", "Q12", "main fuse"), fc.string({ unit: "grapheme", maxLength: 60 })),
    family: fc.constant(family),
    rating: fc.constantFrom(...deviceFamily(family).standardRatings),
    volts: fc.constantFrom(14.6, 28.8, 58.4, 230),
    supply: fc.constantFrom("DC", "AC"),
  }),
);
const anyText = fc.oneof(
  fc.constantFrom("W7 2.5 mm²", "Ik− 310 A at the end of W7, with the battery low and cold", ""),
  fc.string({ unit: "binary", maxLength: 90 }),
);
const anyAmps = fc.double({ min: 0.5, max: 40_000, noNaN: true });
const anyPlot: fc.Arbitrary<TimeCurrentPlot> = fc.record({
  title: anyText,
  unit: fc.constantFrom("A DC", "A AC, rms"),
  volts: fc.constantFrom("28.8 V DC", "230 V AC"),
  devices: fc.array(anyDevice, { maxLength: 8 }).map((list) => list.map(plotDevice)),
  markers: fc.array(fc.record({ about: fc.constant(null), amps: anyAmps, label: anyText }), { maxLength: 8 }),
  conductors: fc.array(
    fc.record({ label: anyText, says: anyText, mm2: fc.double({ min: 0.5, max: 120, noNaN: true }) }).map((c) => ({
      about: null,
      label: c.label,
      says: c.says,
      points: [
        [(115 * c.mm2) / Math.sqrt(5), 5],
        [(115 * c.mm2) / 0.1, 0.01],
      ] satisfies PlotPoint[],
      trust: "read" as const,
    })),
    { maxLength: 8 },
  ),
  pulses: fc.array(
    fc.record({
      about: fc.constant(null),
      label: anyText,
      says: anyText,
      start: fc.tuple(anyAmps, fc.double({ min: 0.01, max: 20, noNaN: true })),
      running: fc.option(anyAmps),
    }),
    { maxLength: 5 },
  ),
  notes: fc.array(anyText, { maxLength: 12 }),
  sources: fc.array(anyText, { maxLength: 6 }),
});
const anySheet = fc.constantFrom(
  { on: "A4", fields } as const,
  { on: "Letter", fields } as const,
  { on: "screen" } as const,
);

const overlap = ([[ax1, ay1], [ax2, ay2]]: Box, [[bx1, by1], [bx2, by2]]: Box): boolean =>
  ax1 < bx2 - 1e-6 && bx1 < ax2 - 1e-6 && ay1 < by2 - 1e-6 && by1 < ay2 - 1e-6;

/** Texts of what is drawn, without frame and title block, which other drawings share. */
const textsOf = (scene: Scene, below = Infinity): TextShape[] =>
  scene.items
    .filter(({ role }) => role !== "sheet")
    .flatMap(({ shapes }) => shapes.filter((shape): shape is TextShape => shape.is === "text"))
    .filter(({ text, at }) => text !== "" && at[1] < below);

function roomOf(sheet: { readonly on: "A4" | "Letter" | "screen" }, scene: Scene): Box {
  if (sheet.on === "screen") return [[0, 0], [scene.width, scene.height]]; // prettier-ignore
  const [from, [right, bottom]] = papers[sheet.on].frame;
  return [from, [right, bottom - titleHeight(fields)]];
}

const simple = (devices: readonly DeviceInChain[], rest: Partial<TimeCurrentPlot> = {}): TimeCurrentPlot => ({
  title: "chain",
  unit: "A DC",
  volts: "28.8 V DC",
  devices: devices.map(plotDevice),
  markers: [],
  conductors: [],
  pulses: [],
  notes: [],
  sources: [],
  ...rest,
});
const device = (name: string, family: DeviceInChain["family"], rating: number): DeviceInChain => ({ about: null, name, family, rating, volts: 28.8, supply: "DC" }); // prettier-ignore

describe("any chain", () => {
  test("no words stand on other words, and all is within the sheet and clear of its title block", () => {
    fc.assert(
      fc.property(anyPlot, anySheet, (plot, sheet) => {
        const scene = drawTimeCurrent(plot, sheet);
        const [[x1, y1], [x2, y2]] = roomOf(sheet, scene);
        const own = scene.items.filter(
          ({ role, name }) => role !== "sheet" && name !== "changes" && !name.startsWith("Sloop,"),
        );
        const boxes = textsOf({ ...scene, items: own }).map((text) => [text.text, shapeBox(text)] as const);
        for (const [i, [text, box]] of boxes.entries()) {
          for (const [other, otherBox] of boxes.slice(i + 1))
            assert.ok(!overlap(box, otherBox), `"${text}" on "${other}" ${JSON.stringify([box, otherBox])}`);
        }
        for (const shape of own.flatMap(({ shapes }) => shapes)) {
          const [[left, top], [right, bottom]] = shapeBox(shape);
          assert.ok(left >= x1 && top >= y1 && right <= x2 && bottom <= y2, JSON.stringify([sheet.on, shape]));
        }
      }),
      { numRuns: 250 },
    );
  });

  test("is plain data, the same each time, and can be printed", () => {
    fc.assert(
      fc.property(anyPlot, anySheet, (plot, sheet) => {
        const scene = drawTimeCurrent(plot, sheet);
        assert.deepEqual(JSON.parse(JSON.stringify(scene)), scene);
        assert.deepEqual(drawTimeCurrent(plot, sheet), scene);
        assert.ok(!/NaN|Infinity/.test(writeSvg(scene)));
      }),
      { numRuns: 40 },
    );
  });

  test("what is left out is told", () => {
    const seven = Array.from({ length: 8 }, (_, i) =>
      device(`F${i}`, "blade_type_C", [3, 5, 7.5, 10, 15, 20, 25, 30][i] ?? 3),
    );
    const words = textsOf(drawTimeCurrent(simple(seven), { on: "screen" })).map(({ text }) => text);
    assert.ok(words.some((text) => text.startsWith("2 more devices are not drawn.")));
  });
});

describe("bands", () => {
  test("stand where the opening band of the device is, at any current", () => {
    const at = (points: readonly PlotPoint[], amps: number): number | null => {
      const i = points.findLastIndex(([a]) => a < amps);
      const [from, to] = [points[i], points[i + 1]];
      if (from === undefined) return null;
      if (to === undefined) return from[1];
      return from[1] * (to[1] / from[1]) ** (Math.log(amps / from[0]) / Math.log(to[0] / from[0]));
    };
    fc.assert(
      fc.property(anyDevice, fc.double({ min: 0.01, max: 40, noNaN: true }), (chain, multiple) => {
        const { min, max } = plotDevice(chain);
        const amps = multiple * chain.rating;
        const band = openingBand(chain.family, chain.rating, amps);
        const last = min?.at(-1)?.[0] ?? 0;
        if (max !== null) assert.ok(Math.abs((at(max, amps) ?? Infinity) / (band.max?.s ?? Infinity) - 1) < 1e-9 || band.max === null); // prettier-ignore
        assert.equal(max === null, band.lacks.includes("max"));
        assert.equal(min === null, band.lacks.includes("min"));
        const drawn = min === null ? null : at(min, amps);
        if (drawn === null || amps >= last) return;
        assert.ok(Math.abs(drawn / (band.min?.s ?? 0) - 1) < 1e-9, JSON.stringify([chain, amps, drawn, band.min]));
      }),
      { numRuns: 3000 },
    );
  });

  test("one that is not known is told and drawn as nothing", () => {
    const scene = drawTimeCurrent(simple([device("F1", "anl_limiter", 300)]), { on: "screen" });
    const drawn = scene.items.find(({ name }) => name.startsWith("F1 300 A: no opening times"));
    assert.deepEqual(drawn?.shapes, []);
    assert.ok(textsOf(scene).some(({ text }) => text.includes("no opening times are published for the ANL limiter")));
  });

  test("one edge alone has no tone and no hatching", () => {
    const scene = drawTimeCurrent(simple([device("F1", "ul_class_T", 200)]), { on: "screen" });
    const drawn = scene.items.find(({ name }) => name.startsWith("F1 200 A: band"));
    // One edge, and the bar at 20 kA lies on the paper or beyond it.
    assert.ok((drawn?.shapes.length ?? 0) >= 1 && (drawn?.shapes.length ?? 9) <= 2);
    assert.deepEqual(scene.items.find(({ role }) => role === "flow")?.shapes, []);
    assert.ok(textsOf(scene).some(({ text }) => text.includes("no least opening time is published")));
  });

  test("no two are told apart by colour alone: each has a hatching of its own, and what is unverified is broken", () => {
    const scene = drawTimeCurrent(simple([device("F1", "blade_type_C", 40), device("F2", "blade_type_E", 60)]), {
      on: "screen",
    });
    const slope = (name: string): number => {
      const line = scene.items.find((item) => item.name.startsWith(name))?.shapes.find((shape) => shape.is === "polyline" && shape.stroke?.width === 0.13); // prettier-ignore
      assert.ok(line?.is === "polyline");
      const [[ax, ay], [bx, by]] = line.points as [[number, number], [number, number]]; // a hatching line has two ends
      return Math.round((Math.atan((by - ay) / (bx - ax)) * 180) / Math.PI);
    };
    assert.deepEqual([slope("F1 40 A"), slope("F2 60 A")], [45, -45]);
    const broken = (name: string): boolean =>
      scene.items
        .filter((item) => item.role === "wire" && item.name.startsWith(name))
        .flatMap(({ shapes }) => shapes)
        .some((shape) => shape.is === "polyline" && shape.stroke?.width === 0.5 && shape.stroke.dash !== undefined);
    // Gates of the 40 A blade are quoted from a data sheet, those of the 60 A large blade are remembered.
    assert.deepEqual([broken("F1 40 A"), broken("F2 60 A")], [false, true]);
  });

  test("a chain of read and quoted figures alone is drawn unbroken, and its pairs are proven", () => {
    // Miniature breakers by IEC 60898-1 Table 7 as quoted: D 63 over B 6 to 630 A, the lower tolerance of D
    const chain: DeviceInChain[] = [
      { ...device("Q2", "mcb_B", 6), volts: 230, supply: "AC" },
      { ...device("Q1", "mcb_D", 63), volts: 230, supply: "AC" },
    ];
    const plot = simple(chain);
    assert.ok(plot.devices.every(({ trust }) => isVerified(trust)));
    const found = judgePair({
      upstream: { family: "mcb_D", rating: 63 },
      downstream: { family: "mcb_B", rating: 6 },
      greatest: 600,
      volts: 230,
      supply: "AC",
    });
    assert.ok(found.verdict === "selective" && isVerified(found.trust));
  });
});

describe("axes and geometry", () => {
  test("decades are whole and hold what is drawn", () => {
    fc.assert(
      fc.property(anyPlot, (plot) => {
        const [low, high] = decadesOf(plot);
        assert.ok(Number.isInteger(low) && Number.isInteger(high) && high - low >= 3 && high - low <= 6);
        for (const { amps } of plot.markers) assert.ok(amps < 10 ** high);
      }),
    );
  });

  test("a hatching lies within its area and fills it", () => {
    const square = [[0, 0], [20, 0], [20, 20], [0, 20]] as const; // prettier-ignore
    for (const angle of [0, 45, 90, 135, 22.5]) {
      const lines = hatch(square, angle, 2);
      const length = lines.reduce((sum, [[ax, ay], [bx, by]]) => sum + Math.hypot(bx - ax, by - ay), 0);
      // Length of lines times their pitch is the area, but for half a line at each end.
      assert.ok(Math.abs(length * 2 - 400) < 60, `${angle}: ${length}`);
      for (const [x, y] of lines.flat()) assert.ok(x > -1e-9 && x < 20 + 1e-9 && y > -1e-9 && y < 20 + 1e-9);
    }
  });

  test("an area is cut at the box", () => {
    const cut = clipArea([[-5, -5], [5, -5], [5, 5], [-5, 5]], [[0, 0], [10, 10]]); // prettier-ignore
    assert.deepEqual(new Set(cut.map(String)), new Set(["0,0", "5,0", "5,5", "0,5"]));
  });

  test("gates stand at their place: 40 A large blade, 80 A and 50 s", () => {
    // 3 decades from 10 A over 124 mm from 17 mm, 6 decades over the height of the plot
    const scene = drawTimeCurrent(simple([device("F1", "blade_type_E", 40)]), { on: "screen" });
    assert.deepEqual(decadesOf(simple([device("F1", "blade_type_E", 40)])), [1, 4]);
    const band = scene.items.find(({ name }) => name.startsWith("F1 40 A: band"));
    const corners = (band?.shapes ?? []).flatMap((s) =>
      s.is === "polyline" && s.stroke?.width === 0.5 ? s.points : [],
    );
    const box = scene.items.find(({ role }) => role === "frame")?.shapes.find(({ is }) => is === "rectangle");
    assert.ok(box?.is === "rectangle");
    const x = 17 + (124 * Math.log10(80 / 10)) / 3;
    const y = box.to[1] - ((box.to[1] - box.from[1]) * Math.log10(50 / 0.01)) / 6;
    assert.ok(corners.some(([cx, cy]) => Math.hypot(cx - x, cy - y) < 1e-6));
    assert.equal(gatesOf("blade_type_E", 40)[2]?.maxS, 50);
  });
});
