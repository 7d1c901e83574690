import assert from "node:assert/strict";
import { test } from "vitest";
import { breaker, circuit, earthHut, HOT, near, R20 } from "../../test/fixtures/earth-hut.ts";
import { exactly, type InternalElement, type SystemCircuit } from "../system/index.ts";
import type { EarthFault } from "./study-earth-faults-shapes.ts";
import type { EarthSystem } from "./study-earth-faults-ways.ts";
import { studyEarthFaults } from "./study-earth-faults.ts";

/** A switch that takes the shore by a near or by a far cable; protective conductors are not switched. */
const transfer: readonly InternalElement[] = [
  { is: "mover", id: "TS", part: "TS", positions: ["off", "near", "far"], by: "hand" },
  ...["near", "far"].flatMap((way): InternalElement[] => [
    ...["L", "N"].map((fn): InternalElement => ({ is: "contact", id: `TS:${way}:${fn}`, part: "TS", a: `TS:${way}:${fn}`, b: `TS:out:${fn}`, ohms: exactly(0, "derived"), closedIn: [way], mover: "TS" })), // prettier-ignore
    { is: "join", id: `TS:${way}:PE`, part: "TS", a: `TS:${way}:PE`, b: "TS:out:PE" },
  ]),
];

/** Shore → 5 m or 40 m → TS → 1 m → CU → 20 m → kettle, all 2.5 mm². */
function twoWays({
  device = "mcb C",
  near: nearMore = {},
  far: farMore = {},
  more = [],
  circuits = [],
  interlocks,
}: {
  readonly device?: string;
  readonly near?: Partial<SystemCircuit>;
  readonly far?: Partial<SystemCircuit>;
  readonly more?: readonly InternalElement[];
  readonly circuits?: readonly SystemCircuit[];
  readonly interlocks?: NonNullable<EarthSystem["interlocks"]>;
}): { readonly model: { readonly system: EarthSystem } } {
  const { model } = earthHut({
    more: [...transfer, ...more],
    circuits: [
      circuit("W1", "INL", "TS:near", 5, nearMore),
      circuit("W3", "INL", "TS:far", 40, farMore),
      circuit("W4", "TS:out", "CU:in", 1),
      circuit("W2", "CU:1", "kettle", 20, { devices: [breaker(16, device)], draws: ["kettle"] }),
      ...circuits,
    ],
  });
  return { model: { system: { ...model.system, ...(interlocks === undefined ? {} : { interlocks }) } } };
}

const kettle = (build: ReturnType<typeof twoWays>, id = "W2"): EarthFault => {
  const fault = studyEarthFaults(build).circuits.find((c) => c.circuit === id)?.faults[0];
  assert.ok(fault, `${id} is fed`);
  return fault;
};

const OUT = R20[2.5] * HOT;

test("of two ways in different positions the gravest is told, by hand: 61 m of line instead of 26 m", () => {
  // Out by the switch as it stands, home by the shorter of two protective conductors, which no switch opens.
  const [zsNear, zsFar] = [0.8 + (26 + 26) * OUT, 0.8 + (61 + 26) * OUT];
  // C 16 A needs 160 A: 218.5 V over 1.26 Ω are 173 A, over 1.57 Ω 139 A.
  assert.ok((0.95 * 230) / zsNear > 160 && (0.95 * 230) / zsFar < 160);
  const fault = kettle(twoWays({}));
  near(fault.zsHot, zsFar);
  near(fault.least, (0.95 * 230) / zsFar);
  assert.deepEqual([fault.outcome, fault.stands], ["too late", { TS: ["far"] }]);
  const [other, ...rest] = fault.otherWays ?? [];
  assert.deepEqual(rest, []);
  near(other?.zsHot, zsNear);
  near(other?.greatest, 230 / (0.8 + (26 + 26) * R20[2.5]));
  assert.equal(other?.outcome, "in time");
  assert.deepEqual(JSON.parse(JSON.stringify(fault)), fault);
});

test("what a device has to break is that of the shortest way", () => {
  const study = studyEarthFaults(twoWays({}));
  const at = study.devices.findIndex((d) => d.circuit === "W2");
  const shore = studyEarthFaults({ model: { system: { ...twoWays({}).model.system, elements: twoWays({}).model.system.elements.map((e) => (e.is === "source" ? { ...e, prospectiveAmps: exactly(1000, "given") } : e)) } } }); // prettier-ignore
  const breaking = shore.breaking.find((b) => b.device === at);
  // 230 V over 0.23 Ω ashore and 6 m out and back.
  near(breaking?.prospective, 230 / (230 / 1000 + 12 * R20[2.5]));
});

test("a way that no state has is not judged", () => {
  const never = [{ mover: "TS", in: ["far"] }];
  const fault = kettle(twoWays({ interlocks: [{ id: "far is barred", never }] as never })); // as much of an interlock as is read here
  near(fault.zsHot, 0.8 + (26 + 26) * OUT);
  assert.deepEqual([fault.outcome, fault.stands, fault.otherWays], ["in time", undefined, undefined]);
});

test("what only the longer way can feed is fed", () => {
  const aux: InternalElement = { is: "contact", id: "TS:aux:L", part: "TS", a: "TS:out:L", b: "TS:aux:L", ohms: exactly(0, "derived"), closedIn: ["far"], mover: "TS" }; // prettier-ignore
  const heater = circuit("W5", "TS:aux", "heater", 10, { devices: [breaker(16, "mcb B")], draws: ["heater"] });
  const earth: InternalElement = { is: "join", id: "TS:aux:PE", part: "TS", a: "TS:aux:PE", b: "TS:out:PE" };
  near(kettle(twoWays({ more: [aux, earth], circuits: [heater] }), "W5").zsHot, 0.8 + (50 + 15) * OUT);
});

test("ways side by side that one device opens together are judged by the shorter, ways with devices of their own each", () => {
  const ring = (far: Partial<SystemCircuit>) =>
    earthHut({
      circuits: [
        circuit("W1", "INL", "CU:in", 5),
        circuit("W3", "INL", "CU:in", 60, far),
        circuit("W2", "CU:1", "kettle", 20, { devices: [breaker(16, "mcb C")], draws: ["kettle"] }),
      ],
    });
  const together = kettle(ring({}));
  near(together.zsHot, 0.8 + (25 + 25) * OUT);
  assert.deepEqual([together.outcome, together.otherWays], ["in time", undefined]);
  // Once what guards the shorter way has opened, all comes by the longer.
  const apart = (devices: SystemCircuit["devices"]) =>
    kettle(
      earthHut({
        circuits: [
          circuit("W1", "INL", "CU:in", 5, { devices }),
          circuit("W3", "INL", "CU:in", 60),
          circuit("W2", "CU:1", "kettle", 20, { devices: [breaker(16, "mcb C")], draws: ["kettle"] }),
        ],
      }),
    );
  const alone = apart([breaker(16, "mcb B")]);
  near(alone.zsHot, 0.8 + (80 + 25) * OUT);
  assert.equal(alone.outcome, "too late");
});
