import fc from "fast-check";
import assert from "node:assert/strict";
import { test } from "vitest";
import {
  breaker,
  circuit,
  earthHut,
  faultAt,
  guard,
  HOT,
  inverter,
  near,
  R20,
  throughInverter,
  type Hut,
} from "../../test/fixtures/earth-hut.ts";
import { exactly, type InternalElement, type SystemCircuit } from "../system/index.ts";
import { studyEarthFaults } from "./study-earth-faults.ts";

test("a loop by hand: 0.8 Ω ashore, 25 m of 2.5 mm² out and back, B 16 A", () => {
  const fault = faultAt({});
  const zs = 0.8 + 2 * 25 * R20[2.5] * HOT;
  near(fault.zsHot, zs);
  near(fault.zsCold, 0.8 + 2 * 25 * R20[2.5]);
  near(fault.least, (0.95 * 230) / zs);
  near(fault.greatest, 230 / (0.8 + 2 * 25 * R20[2.5]));
  assert.deepEqual([fault.outcome, fault.disconnection?.by, fault.disconnection?.seconds], ["in time", "device", 0.1]);
  assert.deepEqual([fault.limit?.seconds, fault.limit?.binds], [0.4, true]);
  // BS 7671 Table 41.3: B 16 A 2.73 Ω.
  assert.ok(Math.abs((fault.greatestLoop ?? 0) - 2.73) < 0.005);
  near(fault.touchVolts, (230 / (0.8 + 50 * R20[2.5])) * 25 * R20[2.5] * HOT);
});

test("the same loop with slower breakers", () => {
  const outcomes = ["mcb B", "mcb C", "mcb D"].map((family) => faultAt({ device: breaker(16, family) }).outcome);
  // 176 A: B needs 80 A, C 160 A, D 320 A.
  assert.deepEqual(outcomes, ["in time", "in time", "too late"]);
  const open = faultAt({ device: breaker(16) });
  assert.deepEqual([open.outcome, open.disconnection?.missing], ["cannot tell", "curve"]);
  const ul = faultAt({ device: breaker(20), rules: "us-cabin NEC 2023" });
  assert.deepEqual([ul.outcome, ul.disconnection?.missing, ul.limit?.binds], ["cannot tell", "curve", false]);
});

test("a residual device ahead opens what the breaker does not, unless neutral meets earth behind it", () => {
  const slow = { device: breaker(16, "mcb D") };
  const guarded = faultAt({ ...slow, more: [guard] });
  assert.deepEqual(
    [guarded.outcome, guarded.disconnection?.by, guarded.disconnection?.seconds],
    ["in time", "residual device", 0.04],
  );
  // The fault current comes back through its neutral: it sees nothing.
  const join: InternalElement = {
    is: "earth join",
    id: "CU:N–PE",
    part: "CU",
    neutral: "CU:bar:N",
    earth: "CU:bar:PE",
  };
  const blind = faultAt({ ...slow, shore: { joined: false }, more: [guard, join] });
  assert.deepEqual([blind.join, blind.residual, blind.outcome], ["CU:N–PE", [], "too late"]);
  // So does one that leads neutral through itself without opening it.
  const onePole = { ...guard, contacts: ["CU:main"], through: ["CU:main:N"] };
  const led = faultAt({ ...slow, shore: { joined: false }, more: [onePole, join] });
  assert.deepEqual([led.residual, led.outcome], [[], "too late"]);
  assert.equal(faultAt({ ...slow, more: [onePole] }).outcome, "in time");
});

test("electrodes in the loop: what nobody says is asked for, what is declared is reckoned with", () => {
  const apart = { joined: true, earthedApart: true, loopOhms: "unknown" };
  const unknown = faultAt({ shore: apart, more: [guard] });
  assert.deepEqual(
    [unknown.outcome, unknown.disconnection?.missing, unknown.limit?.seconds],
    ["cannot tell", "loop", 0.2],
  );
  const declared = { ...apart, loopOhms: exactly(200, "given") };
  // 218.5 V over 200 Ω are 1.1 A: far from 80 A, more than five times 30 mA.
  assert.equal(faultAt({ shore: declared }).outcome, "too late");
  assert.deepEqual(
    [
      faultAt({ shore: declared, more: [guard] }).outcome,
      faultAt({ shore: declared, more: [guard] }).disconnection?.seconds,
    ],
    ["in time", 0.04],
  );
});

test("TT by its own electrode: RA · IΔn to 50 V and the time of the residual device, whatever the supply drives", () => {
  const apart = { joined: true, earthedApart: true, loopOhms: "unknown", prospectiveAmps: { ...exactly(1000, "given"), high: 2000 } }; // prettier-ignore
  const rod = (ohms: number): Hut => ({
    shore: apart,
    electrodeOhms: ohms,
    more: [guard],
  });
  // IEC 60364-4-41 411.5.3: 100 Ω · 0.03 A = 3 V; 0.95 · 230 V / 100 Ω = 2.2 A, more than 5 · 30 mA: 0.04 s of IEC 61008-1, where Table 41.1 has 0.2 s.
  const fault = faultAt(rod(100));
  assert.deepEqual(
    [
      fault.outcome,
      fault.disconnection?.by,
      fault.disconnection?.seconds,
      fault.limit?.seconds,
      fault.isResidualInTime,
    ],
    ["in time", "residual device", 0.04, 0.2, true],
  );
  // 1600 Ω: 48 V, and 0.137 A are 4.6 times 30 mA: 0.15 s.
  assert.equal(faultAt(rod(1600)).disconnection?.seconds, 0.15);
  // 1700 Ω: 51 V.
  assert.deepEqual([faultAt(rod(1700)).outcome, faultAt(rod(1700)).disconnection?.missing], ["cannot tell", "loop"]);
  // Without a residual device the electrode alone proves nothing.
  assert.equal(faultAt({ ...rod(100), more: [] }).outcome, "cannot tell");
});

test("a supply that declares nothing leaves the breaker open, and not a residual device", () => {
  const silent = { loopOhms: "unknown" };
  const fault = faultAt({ shore: silent });
  assert.deepEqual(
    [fault.outcome, fault.disconnection?.missing, fault.zsHot, fault.untold],
    ["cannot tell", "loop", null, ["INL"]],
  );
  assert.equal(faultAt({ shore: silent, more: [guard] }).outcome, "in time");
  const greatest = faultAt({ shore: { ...silent, prospectiveAmps: exactly(3000, "given") } });
  assert.equal(greatest.disconnection?.missing, "loop", "a greatest current says nothing of the least");
  // Even with nothing ashore against it, 60 m of wire leave less than C 50 A needs.
  assert.equal(faultAt({ shore: silent, metres: 60, device: breaker(50, "mcb C") }).outcome, "too late");
});

test("no join, no protective conductor, nobody says", () => {
  const none = faultAt({ shore: { joined: false } });
  assert.deepEqual([none.loop, none.outcome], ["no join", "not asked"]);
  const unsaid = faultAt({ shore: { joined: "unknown" } });
  assert.deepEqual([unsaid.loop, unsaid.outcome], ["unknown", "cannot tell"]);
  // With a join it would be the very fault of a supply that says it has one.
  assert.deepEqual(unsaid.ifJoined, faultAt({}));
  assert.equal(faultAt({ shore: { joined: "unknown" }, device: breaker(16, "mcb D") }).ifJoined?.outcome, "too late");
  const whole = circuit("W2", "CU:1", "kettle", 20, { devices: [breaker(16, "mcb B")], draws: ["kettle"] });
  const bare = faultAt({
    circuits: [
      circuit("W1", "INL", "CU:in", 5),
      { ...whole, conductors: whole.conductors.filter((c) => c.fn !== "PE") },
    ],
  });
  assert.deepEqual([bare.loop, bare.outcome], ["no protective conductor", "too late"]);
});

test("behind an inverter: limited by the source, and its own join only while it inverts", () => {
  const hut: Hut = { circuits: throughInverter, more: inverter() };
  const shore = faultAt(hut, "W2", 0);
  assert.deepEqual([shore.join, shore.limitedBy, shore.outcome], ["INL", null, "in time"]);
  const own = faultAt(hut, "W2", 1);
  assert.deepEqual(
    [own.join, own.limitedBy, own.outcome, own.disconnection?.missing],
    ["INV:N–PE", "inverter", "too late", null],
  );
  // 3000 VA at 230 V, 1.1 to 1.5 times.
  near(own.least, (1.1 * 3000) / 230);
  near(own.greatest, (1.5 * 3000) / 230);
  near(own.sourceVolts, ((1.5 * 3000) / 230) * 2 * 25 * R20[2.5] * HOT);
  assert.equal(faultAt({ ...hut, more: [...inverter(), guard] }, "W2", 1).outcome, "in time");
  assert.ok(
    studyEarthFaults(earthHut(hut))
      .circuits.find((c) => c.circuit === "W0")
      ?.faults.every((f) => f.source === 0),
    "the inverter does not feed its inlet",
  );
  const surging = faultAt(
    { ...hut, more: inverter({ surgeWatts: exactly(25000, "given"), surgeSeconds: exactly(0.05, "given") }) },
    "W2",
    1,
  );
  near(surging.least, 25000 / 230);
  // 109 A open B 16 A within 0.1 s: whether before the 0.05 s are over, its standard does not say.
  assert.deepEqual([surging.outcome, surging.disconnection?.missing], ["cannot tell", "curve"]);
});

test("a prospective current of nothing says nothing, and a study stays finite", () => {
  const hut = { shore: { loopOhms: "unknown", prospectiveAmps: exactly(0, "given") } };
  const study = studyEarthFaults(earthHut(hut));
  assert.deepEqual(JSON.parse(JSON.stringify(study)), study);
  assert.deepEqual(
    study.breaking.map((b) => b.outcome),
    ["cannot tell"],
  );
  assert.equal(faultAt(hut).outcome, "cannot tell");
});

test("a study is plain data, and the same when asked again", () => {
  for (const hut of [
    {},
    { shore: { loopOhms: "unknown", joined: "unknown" } },
    { circuits: throughInverter, more: inverter() },
  ]) {
    const settled = earthHut(hut);
    const study = studyEarthFaults(settled);
    assert.deepEqual(JSON.parse(JSON.stringify(study)), study);
    assert.equal(studyEarthFaults(settled), study);
  }
});

test("more metres never help, and a device that opens in time still does with less", () => {
  const rank = { "in time": 0, "not asked": 0, "cannot tell": 1, "too late": 2 } as const;
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 200 }),
      fc.integer({ min: 1, max: 200 }),
      fc.constantFrom("mcb B", "mcb C", "mcb D", "gG"),
      (metres, more, family) => {
        const device = breaker(16, family);
        const [short, long] = [faultAt({ metres, device }), faultAt({ metres: metres + more, device })];
        assert.ok((long.least ?? 0) <= (short.least ?? 0));
        assert.ok(rank[long.outcome] >= rank[short.outcome], `${short.outcome} → ${long.outcome}`);
      },
    ),
    { numRuns: 40 },
  );
});

test("a breaker ahead of a transformer of two wires opens on what its output drives, and a residual device there sees nothing", () => {
  const transformer: InternalElement[] = [
    {
      is: "source",
      id: "IT",
      part: "IT",
      from: "transformer",
      terminals: { L: "IT:out:L", N: "IT:out:N", PE: "IT:out:PE" },
      volts: 230,
      fedBy: ["IT:in:L"],
      joined: true,
      prospectiveAmps: { ...exactly(400, "given"), high: 800 },
    },
  ];
  const hut = (devices: Partial<SystemCircuit>["devices"] & object): Hut => ({
    more: transformer,
    circuits: [
      circuit("W1", "INL", "IT:in", 5, { devices }),
      circuit("W3", "IT:out", "CU:in", 2),
      circuit("W2", "CU:1", "kettle", 20, { draws: ["kettle"] }),
    ],
  });
  const behind = faultAt(hut([breaker(16, "mcb B")]), "W3", 1);
  // 230 V / 400 A and 2 m of 2.5 mm² out and back.
  const zs = 230 / 400 + 2 * 2 * R20[2.5] * HOT;
  near(behind.least, (0.95 * 230) / zs);
  // IEC 60898-1: B 16 A opens within 0.1 s from 5 times its rating, 80 A.
  assert.deepEqual(
    [behind.outcome, behind.disconnection?.by, behind.disconnection?.openingAmps],
    ["in time", "device", 80],
  );
  assert.deepEqual([faultAt(hut([]), "W3", 1).devices, faultAt(hut([]), "W3", 1).outcome], [[], "too late"]);
  const far = faultAt(hut([breaker(16, "mcb B")]), "W2", 1);
  assert.ok(behind.devices.length === 1 && far.devices.includes(behind.devices[0] ?? -1), "ahead of all that it feeds");
});
