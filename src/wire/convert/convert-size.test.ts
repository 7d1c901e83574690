import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { emptyMake, type PrintedSize } from "../make/wire-make.ts";
import { cladAluminium, convertSize, kindOfMake, ladderSystems, neighbours, sizeLadder, sizesOn } from "./index.ts";
import type { ConvertInput, Conversion, LadderSystem } from "./index.ts";

/** A size of the ladder by its side and name. */
function size(side: LadderSystem, name: string): PrintedSize {
  const found = sizesOn(side, "all").find((rung) => rung.size.name === name);
  assert.ok(found !== undefined, `${side} ${name}`);
  return found.size;
}
function convert(input: ConvertInput): Conversion {
  const conversion = convertSize(input);
  assert.ok(conversion !== null);
  return conversion;
}
const label = (input: ConvertInput): string | undefined => convert(input).to?.size.label;

const anyRung = fc.constantFrom(...sizeLadder().filter(({ size: { areaMm2 } }) => areaMm2 >= 0.3 && areaMm2 <= 240));
const anySide = fc.constantFrom(...ladderSystems);
const anyAmong = fc.constantFrom("stocked" as const, "all" as const);
const anyBy = fc.constantFrom("area" as const, "resistance" as const);

describe("a size for another", () => {
  test("not smaller there and back never gets thinner", () => {
    fc.assert(
      fc.property(anyRung, anySide, anyAmong, (rung, to, among) => {
        const there = convert({ size: rung.size, to, among });
        if (there.to === null) return;
        assert.ok(there.to.areaChange >= -1e-6);
        const back = convert({ size: there.to.size, to: rung.side, among });
        if (back.to !== null) assert.ok(back.to.size.areaMm2 >= rung.size.areaMm2 * (1 - 1e-6));
      }),
    );
  });

  test("not smaller by resistance never has more resistance, and one size less always has", () => {
    fc.assert(
      fc.property(anyRung, anySide, anyAmong, (rung, to, among) => {
        const { to: found, smaller } = convert({ size: rung.size, to, among, by: "resistance" });
        if (found === null) return;
        assert.ok(found.resistanceChange <= 1e-6);
        if (smaller !== null) assert.ok(smaller.resistanceChange > 0, smaller.says);
      }),
    );
  });

  test("nearest loses or gains least of all sizes there are", () => {
    fc.assert(
      fc.property(anyRung, anySide, anyAmong, anyBy, (rung, to, among, by) => {
        const found = convert({ size: rung.size, to, among, by, direction: "nearest" }).to;
        assert.ok(found !== null);
        const off = (areaMm2: number): number => Math.abs(Math.log(areaMm2 / rung.size.areaMm2));
        if (by === "area")
          for (const other of sizesOn(to, among))
            assert.ok(off(other.size.areaMm2) >= off(found.size.areaMm2) - 1e-12, other.size.label);
        const kept = convert({ size: rung.size, to, among, by }).to;
        const change = by === "area" ? "areaChange" : "resistanceChange";
        if (kept !== null) assert.ok(Math.abs(Math.log1p(found[change])) <= Math.abs(Math.log1p(kept[change])) + 1e-12);
      }),
    );
  });

  test("a size converted to its own system among all is itself", () => {
    for (const rung of sizeLadder().filter(({ size: { areaMm2 } }) => areaMm2 < 900))
      assert.equal(label({ size: rung.size, to: rung.side, among: "all" }), rung.size.label);
  });

  test("6 AWG is not the 16 mm² it is sold for, and nearest says the loss", () => {
    const sixteen = size("mm²", "16");
    assert.equal(label({ size: sixteen, to: "AWG" }), "4 AWG");
    const nearest = convert({ size: sixteen, to: "AWG", direction: "nearest" });
    assert.equal(nearest.to?.size.label, "6 AWG");
    assert.match(nearest.says, /^16 mm² → 6 AWG: 17 % less area/);
    assert.match(nearest.cautions[0] ?? "", /17 % less area than 16 mm²; not smaller is 4 AWG/);
    assert.match(convert({ size: sixteen, to: "AWG" }).smaller?.says ?? "", /6 AWG has 17 % less area/);
  });

  test("12 SAE is not 12 AWG, and 6 mm vehicle cable is not 6 mm²", () => {
    assert.equal(label({ size: size("AWG", "12"), to: "SAE" }), "10 SAE");
    assert.equal(label({ size: size("mm²", "6"), to: "vehicle diameter" }), undefined);
    assert.match(convert({ size: size("mm²", "6"), to: "vehicle diameter" }).says, /nothing among sizes on sale/);
    assert.equal(label({ size: size("vehicle diameter", "6"), to: "mm²" }), "6 mm²");
  });

  test("1 AWG is among the sizes on sale, with a word that it seldom is", () => {
    const found = convert({ size: size("mm²", "35"), to: "AWG" });
    assert.equal(found.to?.size.label, "1 AWG");
    assert.ok(found.cautions.some((each) => each.includes("seldom on the shelf")));
  });

  test("published lists disagree from 50 mm² up, and that is shown", () => {
    const fifty = convert({ size: size("mm²", "50"), to: "AWG", by: "table" });
    assert.equal(fifty.to?.size.label, "1/0 AWG");
    assert.deepEqual(fifty.otherPairs.map((pair) => pair.label), ["1 AWG"]); // prettier-ignore
    assert.equal(label({ size: size("mm²", "120"), to: "AWG", by: "table" }), "250 kcmil");
    assert.equal(label({ size: size("mm²", "120"), to: "AWG", by: "table", pairing: "stranding chart" }), "4/0 AWG");
  });

  test("a list that holds in one direction is not read backwards", () => {
    const back = convert({ size: size("AWG", "12"), to: "mm²", by: "table", pairing: "workshop list" });
    assert.equal(back.to, null);
    assert.match(back.says, /other direction only/);
    assert.equal(label({ size: size("AWG", "12"), to: "mm²", by: "table", pairing: "not-smaller guide" }), "4 mm²");
  });

  test("aluminium for copper: two sizes more come nearest by resistance, three are not worse; by area the difference is said", () => {
    const into = { metal: "aluminium" } as const;
    const by = "resistance";
    // The NEC pairs 2/0 copper with 4/0 aluminium: two sizes are 1.590 times the area, aluminium of 61 % IACS needs 1.639.
    assert.equal(label({ size: size("AWG", "2/0"), to: "AWG", by, direction: "nearest", into }), "4/0 AWG");
    assert.equal(label({ size: size("AWG", "2/0"), to: "AWG", by, into }), "250 kcmil");
    assert.ok(
      convert({ size: size("AWG", "2/0"), to: "AWG", into }).cautions.some((each) =>
        each.includes("differ in resistance"),
      ),
    );
  });

  test("copper-clad aluminium of 4 AWG has about the resistance of copper two numbers thinner", () => {
    const clad = convert({
      size: size("AWG", "4"),
      to: "AWG",
      by: "resistance",
      direction: "nearest",
      from: { metal: "copper-clad aluminium" },
      into: { metal: "copper" },
    });
    assert.equal(clad.to?.size.label, "6 AWG");
    assert.equal(clad.trust, "memory");
    assert.ok(cladAluminium["15A"].rho20 < cladAluminium["10A"].rho20);
  });

  test("the temperature matters between metals only", () => {
    const at = (conductorC: number, metal: "copper" | "aluminium") =>
      convert({ size: size("AWG", "4"), to: "mm²", by: "resistance", conductorC, into: { metal } }).to
        ?.resistanceChange ?? NaN;
    assert.ok(Math.abs(at(90, "copper") - at(20, "copper")) < 1e-9);
    // α20 0.00403 against 0.00393: 0.5 % over 70 K.
    assert.ok(Math.abs((1 + at(90, "aluminium")) / (1 + at(20, "aluminium")) - 1.2821 / 1.2751) < 1e-6);
    assert.throws(() => convert({ size: size("AWG", "4"), to: "mm²", conductorC: 400 }), RangeError);
  });

  test("what a make tells of its conductor", () => {
    assert.deepEqual(kindOfMake(emptyMake), {});
    const stranding = { name: "solid", wires: null, wireMm: null } as const;
    assert.deepEqual(kindOfMake({ ...emptyMake, metal: "copper", plating: "tinned", stranding }), {
      metal: "copper",
      plating: "tinned",
      strands: "class 1",
    });
  });
});

describe("the ladder", () => {
  test("is sorted, and within a system strictly", () => {
    const rungs = sizeLadder();
    rungs.forEach((rung, i) => {
      const before = rungs[i - 1];
      if (before !== undefined) assert.ok(before.size.areaMm2 <= rung.size.areaMm2);
    });
    for (const side of ladderSystems) {
      const own = sizesOn(side, "all");
      assert.ok(own.length > 3, side);
      own.forEach((rung, i) => {
        const before = own[i - 1];
        if (before === undefined) return;
        assert.ok(before.size.areaMm2 < rung.size.areaMm2, rung.size.label);
        assert.ok(before.diameterMm < rung.diameterMm * 1.001, rung.size.label);
        assert.ok(before.ohmsPerMetre > rung.ohmsPerMetre, `${before.size.label} ${rung.size.label}`);
      });
    }
    assert.deepEqual(JSON.parse(JSON.stringify(rungs)), rungs);
  });

  test("neighbours enclose the size", () => {
    fc.assert(
      fc.property(anyRung, anyAmong, ({ size: { areaMm2 } }, among) => {
        for (const { down, same, up } of neighbours({ areaMm2 }, among)) {
          assert.ok(down === null || down.size.areaMm2 < areaMm2);
          assert.ok(up === null || up.size.areaMm2 > areaMm2);
          assert.ok(same === null || Math.abs(same.size.areaMm2 / areaMm2 - 1) <= 0.005);
          assert.ok(down !== null || same !== null || up !== null);
        }
      }),
    );
  });
});
