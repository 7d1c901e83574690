import assert from "node:assert/strict";
import { describe, test } from "vitest";
import { judgePlain, saidOf } from "../../test/rules/judge-plain.ts";
import { compile, type Compiled } from "../compile.ts";
import type { PlacedDevice } from "./place-devices.ts";

const RULE = "protection/device-above-appliance-limit";

/** The plain boat with a radio, and what stands around it. */
const boat = (limit: string, circuits = "W20: { path: PNL:3 → radio, length: 2 m }", parts = ""): Compiled =>
  judgePlain(`parts:
  radio: { kind: load, running: 4.5 A${limit === "" ? "" : `, largest fuse: ${limit}`} }
${parts}circuits:
  ${circuits}`);

const devicesOf = ({ settled }: Compiled, id: string): readonly PlacedDevice[] =>
  settled.devices.circuits[settled.model.circuits.findIndex((c) => c.circuit.id === id)]?.devices ?? [];
const ratings = (b: Compiled, id = "W20") => devicesOf(b, id).map((d) => d.rating);
const heldTo = (b: Compiled, id = "W20") => devicesOf(b, id).map((d) => d.heldTo);

describe("the device that is chosen for a circuit", () => {
  test("is what its load asks for where no maker states a limit, where none is known, and where the limit is no less", () => {
    for (const limit of ["", "unknown", "7.5 A", "30 A"]) {
      const b = boat(limit);
      assert.deepEqual(ratings(b), [7.5], limit);
      assert.deepEqual(heldTo(b), [undefined], limit);
    }
  });

  test("is the largest that the maker allows, though it is loaded with more than 80 % of it", () => {
    const b = boat("7 A");
    // Panel breakers are made for 5 and 7.5 A.
    assert.deepEqual(ratings(b), [5]);
    assert.deepEqual(heldTo(b), [{ part: "radio", amps: 7 }]);
    assert.equal(saidOf(b, RULE, "parts.radio"), "pass");
    const [told] = b.judgement.findings.filter((f) => f.about === "circuits.W20");
    assert.equal(told?.rule, "protection/undersized-device");
    assert.equal(told.severity, "should");
    assert.match(told.because, /radio allows none above 7 A/);
  });

  test("tells a must where 80 % is law", () => {
    const [told] = judgePlain(
      "rules: { DC: us-cabin NEC 2023 }\nparts:\n  radio: { kind: load, running: 4.5 A, largest fuse: 5 A }\ncircuits:\n  W20: { path: PNL:3 → radio, length: 2 m }",
    ).judgement.findings.filter((f) => f.rule === "protection/undersized-device");
    assert.equal(told?.severity, "must");
    assert.match(told.because, /radio allows none above 5 A/);
  });

  test("holds to the lower end of a range", () => {
    assert.deepEqual(ratings(boat("5…10 A")), [5]);
  });

  test("is as before where the limit does not carry what the load takes, so that the rule tells it", () => {
    const b = boat("4 A");
    assert.deepEqual(ratings(b), [7.5]);
    assert.deepEqual(heldTo(b), [undefined]);
    assert.equal(saidOf(b, RULE, "parts.radio"), "fail");
  });

  test("is as before where no rating on sale lies between", () => {
    // A battery-post fuse is made from 30 A on, and beside this battery no smaller kind breaks what it has to but class T: 3 A, 6 A.
    const b = boat("5 A", "W20: { path: B1 → radio, length: 2 m }");
    assert.deepEqual(ratings(b), [6]);
    assert.equal(saidOf(b, RULE, "parts.radio"), "fail");
  });

  test("holds to the least limit of chained loads", () => {
    const AIS = "  AIS: { kind: load, running: 0.2 A, largest fuse: 5 A }\n";
    for (const limit of ["", "6 A", "5 A"]) {
      const b = boat(limit, "W20: { path: PNL:3 → radio, then: AIS, length: 2 m }", AIS);
      assert.deepEqual(ratings(b), [5], limit);
      assert.equal(heldTo(b)[0]?.amps, 5);
      assert.equal(saidOf(b, RULE, "parts.AIS"), "pass");
    }
    // The least of them does not carry the radio: as before.
    const low = boat("6 A", "W20: { path: PNL:3 → radio, then: AIS, length: 2 m }", AIS.replace("5 A", "2 A"));
    assert.deepEqual(ratings(low), [7.5]);
  });

  test("never is another one where the plan gives it", () => {
    for (const given of ["7.5 A", "15 A"]) {
      const b = boat("5 A", `W20: { path: PNL:3 → radio, length: 2 m, breaker: ${given} at PNL }`);
      assert.deepEqual(ratings(b), [Number.parseFloat(given)]);
      assert.deepEqual(heldTo(b), [undefined]);
    }
  });

  test("holds to the limit before its start, which is told", () => {
    const b = judgePlain(
      "parts:\n  pump: { kind: load, motor: DC, running: 4 A, starting: 40 A, start time: 2 s, duty: intermittent, largest fuse: 10 A }\ncircuits:\n  W20: { path: PNL:3 → pump, length: 2 m, wire: 6 mm² }",
    );
    assert.deepEqual(ratings(b), [10]);
    const [told] = b.judgement.findings.filter((f) => f.rule === "protection/device-tripped-by-start");
    assert.match(told?.because ?? "", /pump allows none above 10 A/);
    assert.equal(saidOf(b, RULE, "parts.pump"), "pass");
  });

  test("is the same however the path is written, and whatever only passes the current on", () => {
    const SW9 = "  SW9: { kind: switch, rated: 10 A }\n";
    for (const circuits of [
      "W20: { path: radio → PNL:3, length: 2 m }",
      "W20: { path: PNL:3 → SW9 → radio, length: 2 m }",
      "W20: { path: PNL:3 → SW9, length: 1 m, return: none }\n  W21: { path: SW9 → radio, length: 1 m, return: PNL }",
      "W20: { path: PNL:3 → SW9, length: 1 m, return: none }\n  W21: { path: SW9 → radio, length: 1 m, return: PNL, fuse: none }",
    ]) {
      const b = boat("5 A", circuits, SW9);
      assert.deepEqual(ratings(b), [5], circuits);
      assert.equal(saidOf(b, RULE, "parts.radio"), "pass", circuits);
    }
  });

  test("is not held down where a device nearer to the load keeps the limit", () => {
    const F9 = (rated: string) => `  F9: { kind: fuse, rated: ${rated} }\n`;
    const through = "W20: { path: PNL:3 → F9 → radio, length: 2 m }";
    assert.deepEqual(ratings(boat("5 A", through, F9("5 A"))), [7.5]);
    assert.deepEqual(ratings(boat("5 A", through, F9("10 A"))), [5]);
    const apart =
      "W20: { path: PNL:3 → SW9, length: 1 m, return: none }\n  W21: { path: SW9 → radio, length: 1 m, return: PNL, fuse: 5 A at SW9 }";
    assert.deepEqual(ratings(boat("5 A", apart, "  SW9: { kind: switch, rated: 10 A }\n")), [7.5]);
  });

  test("is not held down as a feeder, or where it stands in front of several circuits", () => {
    const two =
      "W20: { path: PNL:3 → SW9, length: 1 m, return: none }\n  W21: { path: SW9 → radio, length: 1 m, return: PNL }\n  W22: { path: SW9 → other, length: 1 m, return: PNL }";
    const parts = "  SW9: { kind: switch, rated: 10 A }\n  other: { kind: load, running: 0.1 A }\n";
    assert.deepEqual(ratings(boat("5 A", two, parts)), [7.5]);
    const bar =
      "W20: { path: BP → PNL2, length: 1 m, demand: 4 A }\n  W21: { path: PNL2:1 → radio, length: 1 m, wire: 6 mm² }";
    const b = boat("5 A", bar, "  PNL2: { kind: panel, ways: 2, device: breaker, negative bar: yes }\n");
    assert.equal(heldTo(b, "W20")[0], undefined);
    assert.deepEqual(ratings(b, "W21"), [5]);
  });

  test("holds to it on alternating current as well, with a calmer curve where that bears the start", () => {
    const hut = (more: string) =>
      compile(`wireworthy: 1
rules: { AC: iec-caravan }
stock: { sizes: mm² }
systems: { AC: { kind: AC, nominal: 230 V } }
parts:
  INL: { kind: shore inlet, rated: 16 A }
  CU: { kind: panel, ways: { 1: breaker } }
  pump: { kind: load, motor: AC, running: 4 A${more} }
circuits:
  W1: { path: INL → CU, length: 3 m }
  W20: { path: CU:1 → pump, length: 20 m }
states:
  plugged in: { shore: in, on: [pump] }
`);
    const of = (more: string) => {
      const [d] = hut(more).design.circuits.find((c) => c.id === "W20")?.devices ?? [];
      return [d?.ratingA, d?.family];
    };
    // Three times the rating of curve B, five of C, ten of D for 0.1 s: IEC 60898-1 Table 7, test d.
    const starting = ", starting: 95 A, start time: 0.05 s";
    assert.deepEqual(of(starting), [32, "mcb_B"]);
    assert.deepEqual(of(`${starting}, largest fuse: 10 A`), [10, "mcb_D"]);
  });
});
