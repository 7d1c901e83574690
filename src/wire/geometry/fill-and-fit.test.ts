import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { recordSteps } from "../../explain/index.ts";
import { emptyMake, noFitness, type PrintedSize, type WireMake } from "../make/wire-make.ts";
import {
  bendRadius,
  cableMass,
  cableMetal,
  cableOutside,
  circularMilsOfDiameter,
  conduitFill,
  fittingFerrule,
  fittingGlands,
  fittingLugs,
  racewaySizes,
  raceways,
  smallestConduit,
  squareMillimetresOfCircularMils,
  whatFits,
} from "./index.ts";

const metric = (areaMm2: number): PrintedSize => ({
  system: "mm²",
  name: String(areaMm2),
  label: `${areaMm2} mm²`,
  areaMm2,
  basis: "label",
});
const cable = (areaMm2: number, cores: number, more: Partial<WireMake> = {}): WireMake => ({
  ...emptyMake,
  family: "harmonised cable",
  type: "H05VV-F",
  size: metric(areaMm2),
  cores: { insulated: cores, total: cores, ground: "insulated", groundSize: null, others: [], paired: false },
  ...more,
});

describe("raceways", () => {
  const anyFilling = fc.array(
    fc.record({ count: fc.integer({ min: 1, max: 8 }), outsideMm: fc.double({ min: 1, max: 15, noNaN: true }) }),
    {
      minLength: 1,
      maxLength: 3,
    },
  );

  test("the smallest that fits fits, and none that is narrower does", () => {
    fc.assert(
      fc.property(fc.constantFrom(...raceways), anyFilling, fc.boolean(), (raceway, filling, nipple) => {
        const found = smallestConduit(raceway, filling, { nipple });
        for (const size of racewaySizes(raceway)) {
          if (size.name === found?.size.name) break;
          assert.equal(conduitFill(size, filling, { nipple }).fits, false, size.label);
        }
        if (found !== null) assert.ok(found.fits && found.fillPct <= found.limitPct);
      }),
    );
  });

  test("two are allowed less than one or three, and a nipple holds most", () => {
    const [size] = racewaySizes("EMT");
    assert.ok(size !== undefined);
    const limit = (count: number, nipple = false) => conduitFill(size, [{ count, outsideMm: 3 }], { nipple }).limitPct;
    assert.deepEqual([limit(1), limit(2), limit(3), limit(9), limit(9, true)], [53, 31, 40, 40, 60]);
  });

  test("three equal wires that may wedge are said", () => {
    // 1 in EMT is 26.6 mm inside: three of 8.9 mm, ratio 2.99.
    const inch = racewaySizes("EMT").find(({ name }) => name === "1");
    assert.ok(inch !== undefined);
    const three = conduitFill(inch, [{ count: 3, outsideMm: 8.9 }]);
    assert.deepEqual([three.mayJam, Math.round((three.jamRatio ?? 0) * 100)], [true, 299]);
    assert.equal(conduitFill(inch, [{ count: 4, outsideMm: 8.9 }]).mayJam, false);
    assert.equal(conduitFill(inch, [{ count: 3, outsideMm: 6 }]).mayJam, false);
  });

  test("a cable wider than the pipe does not go in", () => {
    const pipe = racewaySizes("rigid PVC")[0];
    assert.ok(pipe !== undefined);
    assert.equal(conduitFill(pipe, [{ count: 1, outsideMm: pipe.insideMm + 0.1 }], { nipple: true }).fits, false);
    assert.equal(conduitFill(pipe, [{ count: 1, outsideMm: 9 }]).trust, "memory");
    assert.match(conduitFill(pipe, [{ count: 1, outsideMm: 9 }]).says, /by the American percentages/);
  });
});

describe("the outside of a cable", () => {
  test("more cores or more copper never make it thinner", () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 6 }), fc.constantFrom(0.75, 1.5, 2.5, 4, 6, 10, 16), (cores, area) => {
        const mm = (make: WireMake) => cableOutside(make)?.mm ?? NaN;
        assert.ok(mm(cable(area, cores + 1)) >= mm(cable(area, cores)));
        assert.ok(mm(cable(area * 1.6, cores)) > mm(cable(area, cores)));
      }),
    );
  });

  test("flexible cable is about as thick as data sheets have it", () => {
    // H05VV-F mean outside as EN 50525-2-11 gives a range (memory): 3G0.75 6.4…8.0? 3G1.5 8.2…10.5, 3G2.5 10.0…12.5, 5G1.5 10.2…13.
    const ranges = [[1.5, 3, 8.2, 10.5], [2.5, 3, 9.5, 12.5], [1.5, 5, 10, 13]] as const; // prettier-ignore
    for (const [area, cores, least, most] of ranges) {
      const mm = cableOutside(cable(area, cores))?.mm ?? NaN;
      assert.ok(mm >= least * 0.9 && mm <= most, `${cores}G${area}: ${mm}`); // the accuracy that is promised is 10 %
    }
  });

  test("a bend takes the height of a flat cable, and cable that may not be moved has no bend for it", () => {
    const nm: WireMake = {
      ...emptyMake,
      family: "building cable",
      size: { system: "AWG", name: "12", label: "12 AWG", areaMm2: 3.309, basis: "metal" },
      cores: { insulated: 2, total: 3, ground: "bare", groundSize: null, others: [], paired: false },
    };
    const bend = bendRadius(nm, "fixed");
    assert.equal(bend?.times, 5);
    assert.equal(bend.outsideMm, cableOutside(nm)?.heightMm);
    assert.equal(bendRadius(nm, "moved"), null);
    assert.equal(bendRadius(emptyMake, "fixed"), null);
    const cord = bendRadius(cable(1.5, 3), "moved");
    assert.ok(cord !== null && cord.mm > (bendRadius(cable(1.5, 3), "fixed")?.mm ?? NaN));
  });

  test("copper of a cable: three times as much for three cores, less for aluminium", () => {
    const grams = (make: WireMake) => cableMetal(make)?.gramsPerMetre ?? NaN;
    assert.ok(Math.abs(grams(cable(2.5, 3)) / grams(cable(2.5, 1)) - 3) < 1e-9);
    assert.ok(Math.abs(grams(cable(16, 1, { metal: "aluminium" })) / grams(cable(16, 1)) - 2.703 / 8.89) < 1e-9);
    assert.equal(cableMetal(emptyMake), null);
  });
});

describe("what goes on a wire", () => {
  const names = (size: Pick<PrintedSize, "areaMm2" | "system">, stud?: string) =>
    fittingLugs(size, stud).map(({ says }) => says);

  test("by area, and by stud where one is asked for", () => {
    assert.deepEqual(names(metric(35)), ["ring R38", "DIN 46234 35 mm²", "DIN 46235 35 mm²"]);
    assert.deepEqual(names(metric(35), "M6"), ["ring R38", "DIN 46234 35 mm²"]);
    assert.deepEqual(names({ system: "AWG", areaMm2: 67.43 }, "3/8"), ["lug for 2/0 AWG"]);
    assert.deepEqual(names({ system: "AWG", areaMm2: 3.309 }, "#10"), ["ring for 12-10 AWG (yellow)"]);
    assert.deepEqual(names({ system: "mm²", areaMm2: 1000 }), []);
  });

  test("35 mm² does not go into the lug for 2 AWG, nor into that for 1", () => {
    assert.ok(names(metric(35)).every((says) => !says.startsWith("lug for")));
  });

  test("ferrules take the next area up, and none goes on a solid wire", () => {
    for (const area of [0.3, 0.5, 0.823, 1.5, 2.081, 5.261, 16, 49])
      assert.ok((fittingFerrule(area, true)?.areaMm2 ?? 0) >= area * 0.999, String(area));
    assert.equal(fittingFerrule(1.5, false), null);
    assert.equal(fittingFerrule(70, true), null);
  });

  test("every diameter from 3 to 28 mm has a gland, and each holds it", () => {
    for (let mm = 3; mm <= 28; mm += 0.25) {
      const found = fittingGlands(mm);
      assert.ok(found.length > 0, String(mm));
      for (const each of found) assert.ok(each.leastMm <= mm && mm <= each.mostMm && each.holeMm > each.mostMm);
    }
  });

  test("lugs and ferrules for strands of copper go on nothing else", () => {
    const wire = (more: Partial<WireMake>) => whatFits(cable(16, 1, more));
    assert.ok((wire({ metal: "copper" })?.lugs.length ?? 0) > 0);
    for (const metal of ["aluminium", "copper-clad aluminium"] as const) {
      const found = wire({ metal });
      assert.deepEqual([found?.lugs, found?.ferrule], [[], null], metal);
      assert.ok(found?.notes.some((note) => note.includes("marked for aluminium")));
    }
    assert.deepEqual(wire({ stranding: { name: "solid", wires: null, wireMm: null } })?.lugs, []);
  });

  test("vehicle cable that is named after its width is as wide as its name", () => {
    for (const [name, areaMm2] of [
      ["3", 0.85],
      ["4", 1.84],
      ["5", 2.9],
      ["6", 4.59],
    ] as const) {
      const size = {
        system: "vehicle diameter",
        name,
        label: `${name} mm vehicle cable`,
        areaMm2,
        basis: "metal",
      } as const;
      const wire: WireMake = { ...emptyMake, size };
      const outside = cableOutside(wire);
      assert.ok(outside !== null && Math.abs(outside.mm / Number(name) - 1) < 1e-9, name);
      // The name is the outside: nothing is worked out, and gland and bend go by it.
      assert.equal(outside.isStated, true, name);
      const fitting = whatFits(wire);
      assert.ok(
        fitting?.notes.every((note) => !note.includes("worked out")),
        name,
      );
      for (const { leastMm, mostMm } of fitting?.glands ?? [])
        assert.ok(leastMm <= Number(name) && Number(name) <= mostMm);
      assert.ok(Math.abs((bendRadius(wire, "fixed")?.outsideMm ?? 0) / Number(name) - 1) < 1e-9, name);
      // Two of them in a sheath are wider than their name.
      const cores = { insulated: 2, total: 2, ground: "none", groundSize: null, others: [], paired: false } as const;
      assert.equal(cableOutside({ ...wire, cores })?.isStated, false, name);
    }
  });

  test("a flat cable and a diameter that was worked out are said", () => {
    const twin = whatFits(cable(2.5, 3, { family: "twin and earth", type: null, form: "flat" }));
    assert.deepEqual(twin?.glands, []);
    assert.ok(twin.notes.some((note) => note.includes("insert")));
    assert.ok(whatFits(cable(2.5, 3))?.notes.some((note) => note.includes("measure")));
    assert.ok(whatFits(cable(2.5, 3, { outsideMm: 11 }))?.notes.every((note) => !note.includes("measure")));
  });
});

describe("the mass of a whole cable", () => {
  const ground = { total: 3, ground: "bare" } as const;
  const cores = { insulated: 2, groundSize: null, others: [], paired: false, ...ground } as const;
  const gauge = (name: string, areaMm2: number): PrintedSize => ({ system: "AWG", name, label: `${name} AWG`, areaMm2, basis: "metal" }); // prettier-ignore
  const lying = { ...noFitness, flexible: false };
  // kg/km as data sheets of the trade print them, and lb/1000 ft of NM-B times 1.488; from memory.
  test.each([
    [135, cable(1.5, 3, { type: "NYM-J", fitness: lying })],
    [275, cable(2.5, 5, { type: "NYM-J", fitness: lying })],
    [110, cable(1.5, 3)],
    [180, { ...emptyMake, family: "harmonised cable", type: "H07V-K", size: metric(16), stranding: { name: "class 5", wires: null, wireMm: null } }], // prettier-ignore
    [123, { ...emptyMake, family: "building cable", type: "NM-B", size: gauge("12", 3.309), cores }],
    [85, { ...emptyMake, family: "building cable", type: "NM-B", size: gauge("14", 2.081), cores }],
    [36, { ...emptyMake, family: "building wire", type: "THHN", size: gauge("12", 3.309) }],
  ] as const satisfies readonly (readonly [number, WireMake])[])(
    "is near the %d kg/km of data sheets",
    (listed, make) => {
      const found = cableMass(make);
      assert.ok(found !== null);
      // What `cableMass` claims; sheets of several makers of one type lie as far apart.
      assert.ok(Math.abs(found.gramsPerMetre / listed - 1) < 0.15, `${found.gramsPerMetre}`);
      assert.equal(found.trust, "memory");
    },
  );

  test("is more than that of its metal, and told of every size", () => {
    for (const area of [0.5, 1.5, 6, 16, 70, 240])
      for (const count of [1, 2, 3, 5])
        assert.ok((cableMass(cable(area, count))?.gramsPerMetre ?? 0) > (cableMetal(cable(area, count))?.gramsPerMetre ?? Infinity)); // prettier-ignore
    assert.equal(cableMass(emptyMake), null);
  });
});

test("circular mils are explained with the numbers put in", () => {
  const { value, steps } = recordSteps(() =>
    squareMillimetresOfCircularMils({ cmil: circularMilsOfDiameter({ mils: 460 }) }),
  );
  assert.ok(Math.abs(value - 107.219) < 0.001);
  assert.deepEqual(steps.map((step) => (step.kind === "formula" ? step.equation : "")), ["A = d²", "A = CM · π/4 · (0.0254 mm)²"]); // prettier-ignore
});
