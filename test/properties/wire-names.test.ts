import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { readLabel } from "../../src/wire/label/read-label.ts";
import { contradicts, makeFacts, tells } from "../../src/wire/name/make-facts.ts";
import { allNames, nameDialects, nameUses, nameWire } from "../../src/wire/name/index.ts";
import { randomMake } from "./random-make.ts";

test("a written name means its make and nothing else, in every dialect that has one", () => {
  fc.assert(
    fc.property(
      randomMake,
      fc.constantFrom(...nameDialects),
      fc.constantFrom("order", "drawing", "sleeve"),
      ({ make }, dialect, use) => {
        const named = nameWire(make, { dialect, use });
        if (named.label === null) {
          assert.ok(named.reason.length > 20, named.reason);
          return;
        }
        const read = readLabel(named.label, named.context === null ? {} : { context: named.context });
        assert.equal(read.verdict, "exact", named.label);
        const [reading] = read.readings;
        assert.ok(reading !== undefined);
        // What it says is so, what it does not say is told, and nothing it says is otherwise.
        for (const fact of makeFacts) {
          if (named.states.includes(fact)) assert.ok(tells(reading.make, make, fact), `${named.label}: ${fact}`);
          assert.ok(!contradicts(reading.make, make, fact), `${named.label}: ${fact}`);
        }
        assert.ok(named.states.includes("size"), named.label);
        assert.equal(reading.quantity, null);
      },
    ),
    { numRuns: 1500 },
  );
});

test("the trade that sells a cable has a name for it for every use, and an order leaves nothing out", () => {
  fc.assert(
    fc.property(randomMake, ({ home, make }) => {
      for (const use of nameUses) {
        const named = nameWire(make, { dialect: home, use });
        assert.ok(named.label !== null, `${use}: ${JSON.stringify(make)}`);
        if (use === "order") assert.deepEqual(named.leavesOut, [], named.label);
      }
    }),
    { numRuns: 600 },
  );
});

test("a sleeve is no longer than a drawing, and a drawing no longer than an order", () => {
  fc.assert(
    fc.property(randomMake, fc.constantFrom(...nameDialects), ({ make }, dialect) => {
      const [order, drawing, sleeve] = (["order", "drawing", "sleeve"] as const).map(
        (use) => nameWire(make, { dialect, use }).label,
      );
      if (typeof order === "string" && typeof drawing === "string") assert.ok(drawing.length <= order.length);
      if (typeof drawing === "string" && typeof sleeve === "string") assert.ok(sleeve.length <= drawing.length);
    }),
    { numRuns: 300 },
  );
});

test("what is said aloud is never read as another wire", () => {
  let read = 0;
  fc.assert(
    fc.property(randomMake, fc.constantFrom(...nameDialects), ({ make }, dialect) => {
      const named = nameWire(make, { dialect, use: "spoken" });
      if (named.label === null) return;
      const heard = readLabel(named.label, named.context === null ? {} : { context: named.context });
      if (heard.verdict !== "exact") return;
      const [reading] = heard.readings;
      if (tells(reading.make, make, "size")) read++;
      // A label without a word of cores is one wire, but not everything that is said is understood.
      for (const fact of makeFacts)
        assert.ok(!contradicts(reading.make, make, fact), `${named.label}: ${reading.says}`);
    }),
    { numRuns: 1000 },
  );
  assert.ok(read > 100, `${read} spoken names are understood`);
});

test("among all names of a make those that are called right are right", () => {
  fc.assert(
    fc.property(randomMake, ({ make }) => {
      const names = allNames(make);
      assert.equal(new Set(names.map(({ label }) => label)).size, names.length);
      for (const { label, standing } of names) {
        const alone = readLabel(label);
        if (alone.verdict !== "exact") continue;
        const isSame = makeFacts.every((fact) => !contradicts(alone.readings[0].make, make, fact));
        if (standing === "this cable") assert.ok(isSame, label);
      }
    }),
    { numRuns: 150 },
  );
});
