import assert from "node:assert/strict";
import { test } from "vitest";
import { breaker, circuit, earthHut, faultAt, guard, near, R20, type Hut } from "../../test/fixtures/earth-hut.ts";
import { exactly, type GivenDevice, type InternalElement } from "../system/index.ts";
import { metricSize } from "../wire/index.ts";
import { studyEarthFaults } from "./study-earth-faults.ts";
import type { AlternatingSizes } from "./study-earth-faults-metal.ts";
import type { EarthFault } from "./study-earth-faults-shapes.ts";

test("protective conductors: by the table, else by the heat of the fault", () => {
  const thin = (live: number, protective: number) => (): AlternatingSizes => ({
    live: metricSize(live),
    protective: metricSize(protective),
    isProtectiveTold: true,
  });
  const judged = (hut: Hut, sizes?: () => AlternatingSizes) =>
    studyEarthFaults(earthHut(hut), sizes).circuits.find((c) => c.circuit === "W2")?.protective;
  assert.equal(judged({})?.outcome, "enough");
  const twin = judged({}, thin(2.5, 1.5));
  assert.deepEqual([twin?.byTable?.areaMm2, twin?.outcome], [2.5, "enough"]);
  // √(I²t)/k of 0.1 s at the greatest current: 25 m of 2.5 and of 1.5 mm², cold.
  const most = 230 / (0.8 + 25 * (R20[2.5] + R20[1.5]));
  near(twin?.byHeat?.areaMm2, Math.sqrt(most ** 2 * 0.1) / 115);
  assert.equal(judged({ shore: { loopOhms: "unknown" } }, thin(2.5, 1.5))?.missing, "fault");
  // A breaker that the loop does not open: up to an hour at its conventional current.
  assert.equal(judged({ device: breaker(63, "mcb C") }, thin(2.5, 1.5))?.outcome, "too thin");
  const american = { rules: "us-cabin NEC 2023", device: breaker(100) };
  assert.deepEqual(
    [judged(american, thin(25, 6))?.outcome, judged(american, thin(25, 10))?.outcome],
    ["too thin", "enough"],
  );
});

test("what a device has to break, by the source that drives most", () => {
  const study = studyEarthFaults(earthHut({ shore: { loopOhms: "unknown", prospectiveAmps: exactly(9000, "given") } }));
  const of = (at: string) => study.breaking.find((b) => study.devices[b.device]?.at === at);
  // 230 V over 25.6 mΩ ashore and 5 m out and back: from line to neutral.
  near(of("CU:1")?.prospective, 230 / (230 / 9000 + 2 * 5 * R20[2.5]));
  assert.equal(of("CU:1")?.outcome, "bears it");
  assert.equal(studyEarthFaults(earthHut({ shore: { loopOhms: "unknown" } })).breaking[0]?.outcome, "cannot tell");
});

test("an earth loop bounds no short from line to neutral", () => {
  const both = { loopOhms: exactly(0.5, "given"), prospectiveAmps: exactly(10000, "given") };
  const study = studyEarthFaults(earthHut({ shore: both }));
  const main = study.breaking.find((b) => study.devices[b.device]?.at === "CU:1");
  near(main?.prospective, 230 / (230 / 10000 + 2 * 5 * R20[2.5]));
  // 50 Ω of soil are ahead of an earth fault, and not of a short to neutral.
  const soil = studyEarthFaults(earthHut({ shore: { loopOhms: exactly(50, "given"), earthedApart: true } }));
  assert.deepEqual(
    soil.breaking.map((b) => [b.outcome, b.prospective]),
    [["cannot tell", null]],
  );
});

test("a breaker at the far end hides no protective conductor, and guards nothing of the cable ahead of it", () => {
  const bare = circuit("W2", "CU:1", "kettle", 20, { draws: ["kettle"] });
  const cut = bare.conductors.map((c) => (c.fn === "L" ? { ...c, to: "W2:breaker:to:L" } : c));
  const at = (end: "from" | "to", family: string): GivenDevice => ({ ...breaker(16, family), end });
  const contact: InternalElement = {
    is: "contact",
    id: "W2:breaker:to:L",
    part: "kettle",
    a: "kettle:L",
    b: "W2:breaker:to:L",
    ohms: exactly(0, "derived"),
    closedIn: ["on"],
    mover: "W2:breaker:to",
  };
  const of = (devices: GivenDevice[]): EarthFault =>
    faultAt({ circuits: [circuit("W1", "INL", "CU:in", 5), { ...bare, conductors: cut, devices }], more: [contact] });
  const guarded = of([at("from", "mcb B"), at("to", "mcb B")]);
  assert.deepEqual([guarded.loop, guarded.outcome, guarded.devices.length], ["closed", "in time", 1]);
  const late = of([at("from", "mcb D"), at("to", "mcb B")]);
  assert.deepEqual([late.loop, late.outcome], ["closed", "too late"]);
});

test("two residual devices in series, and the leakage behind them", () => {
  const near30: InternalElement = { ...guard, id: "CU:1:residual", contacts: ["CU:1", "CU:1:N"] };
  const kettle: InternalElement = {
    is: "draw",
    id: "kettle",
    part: "kettle",
    plus: "kettle:L",
    minus: "kettle:N",
    law: "watts",
    atVolts: 230,
    levels: [],
    current: "AC",
    alwaysOn: false,
    startSeconds: exactly(0, "default"),
  };
  const { residual } = studyEarthFaults(earthHut({ more: [guard, near30, kettle] }));
  assert.deepEqual(
    residual.map((r) => r.chain.map((c) => [c.upstream, c.isSelective])),
    [[], [[0, false]]],
  );
  assert.deepEqual(
    residual.map((r) => r.leakage?.outcome),
    ["bears it", "bears it"],
  );
  const far: InternalElement = { ...guard, amps: exactly(0.1, "given"), delayed: true };
  assert.equal(studyEarthFaults(earthHut({ more: [far, near30, kettle] })).residual[1]?.chain[0]?.isSelective, true);
});
