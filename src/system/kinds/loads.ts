import { count, known, name, quantity, quantityIn, word, yesNo } from "../../plan/index.ts";
import { vaPerAmp, type AlternatingDraw, type InternalElement, type Level } from "../element.ts";
import { defineKind, type PartAtHand, type SymbolKeys, type Traits } from "../kind.ts";
import { givenOrUnknown, present, type Value } from "../value.ts";
import { linesOf } from "./alternating-poles.ts";
import { residualFacts, residualGuard } from "./residual.ts";

const loadFacts = {
  count: { value: count(1, 500), doc: "That many alike, on one circuit; every figure is that of one." },
  looped: { value: yesNo(), doc: "`yes`: the run goes from one to the next.", idle: true },
  "always on": { value: yesNo(), doc: "`yes`: it runs in every state." },
  "rated at": {
    value: quantity("voltage", { above: 0 }),
    doc: "Volts at which its current is stated, where not the system's nominal; of alternating current what it is made for too, unless `volts` says more.",
  },
  running: { value: quantityIn(["current", "power"]), doc: "What it takes while it runs." },
  rated: { value: quantityIn(["power", "current"]), doc: "What its label says; used where `running` is not given." },
  starting: { value: quantityIn(["current", "power"]), doc: "What it takes while it starts." },
  "start time": { value: quantity("time", { min: 0 }), doc: "How long the start lasts; else 0.5 s." },
  transmitting: { value: quantityIn(["current", "power"]), doc: "What it takes while it transmits." },
  standby: { value: quantityIn(["current", "power"]), doc: "What it takes when idle.", idle: true },
  "runs above": {
    value: quantity("voltage", { min: 0 }),
    doc: "Least volts at its terminals while it runs, by its maker.",
  },
  "starts above": {
    value: quantity("voltage", { min: 0 }),
    doc: "Least volts at its terminals while it starts, by its maker.",
  },
  motor: { value: word(["DC", "AC"]), doc: "It is turned by a motor of that current." },
  duty: { value: word(["continuous", "intermittent"]), doc: "Whether it may run for hours." },
  "largest fuse": {
    value: quantity("current", { min: 0 }),
    doc: "Largest device that its maker allows ahead of it.",
  },
  "power factor": { value: quantity("ratio", { above: 0, max: 1 }), doc: "Power factor of an AC load." },
  ...residualFacts,
  socket: {
    value: name("a pattern of sockets"),
    doc: "Of an outlet, the pattern of its sockets by its standard: `CEE 7/3`.",
  },
  class: { value: word(["I", "II", "III"]), doc: "Protection class of an appliance." },
  "locked rotor": { value: quantity("current", { min: 0 }), doc: "Current with the motor held." },
  "thermal protector": {
    value: yesNo(),
    doc: "`yes`: a protector in the motor, or its own impedance, keeps it from burning while it is held.",
  },
} as const;

type LoadFacts = typeof loadFacts;

/** How a load stands on its cores. */
function alternatingOf({ facts, t, cores }: PartAtHand<LoadFacts>): AlternatingDraw {
  return {
    lines: linesOf(cores).map((fn) => t("", fn)),
    ...(cores.includes("N") ? { neutral: t("", "N") } : {}),
    ...(cores.includes("PE") ? { earth: t("", "PE") } : {}),
    ...present<Pick<AlternatingDraw, "powerFactor" | "protection">>({
      powerFactor: givenOrUnknown(facts["power factor"]),
      protection: facts.class?.value,
    }),
  };
}

function loadElements(at: PartAtHand<LoadFacts>, law: "amps" | "watts"): InternalElement[] {
  const { part, facts, read, t, current, cores, nominal } = at;
  const live = cores.filter((c) => c !== "PE");
  const atVolts = known(facts["rated at"])?.low ?? nominal;
  const alternating = current === "AC" ? { alternating: alternatingOf(at) } : {};
  const perAmp = vaPerAmp({ atVolts, ...alternating });
  const factor = (current === "AC" ? known(facts["power factor"]) : undefined) ?? { low: 1, high: 1 };
  const many = known(facts.count) ?? 1;
  for (const key of ["count", "always on", "rated at"] as const) {
    if (facts[key]?.value === "unknown") read.miss(facts[key], key);
  }
  const amps = (fact: typeof facts.running): Value | undefined => {
    const measure = known(fact);
    if (measure === undefined) return undefined;
    // Watts are what it does; what flows is more by its power factor.
    const isPower = measure.dimension === "power";
    const per = (isPower ? 1 / perAmp : 1) * many;
    return {
      low: (measure.low * per) / (isPower ? factor.high : 1),
      high: (measure.high * per) / (isPower ? factor.low : 1),
      origin: measure.dimension === "power" ? "derived" : "given",
    };
  };
  const running = amps(facts.running) ?? amps(facts.rated) ?? read.needed(facts.running, "running", 0);
  const levels: Level[] = [{ name: "running", amps: running }];
  const transmitting = amps(facts.transmitting);
  if (transmitting !== undefined) levels.push({ name: "transmitting", amps: transmitting });
  const starting = amps(facts.starting);
  if (starting !== undefined) levels.push({ name: "starting", amps: starting });
  read.stated(startable(facts.starting), "starting");
  const runsAbove = read.stated(facts["runs above"], "runs above");
  const startsAbove =
    read.stated(facts["starts above"], "starts above") ??
    (facts.motor !== undefined && facts["starts above"] === undefined && starting !== undefined
      ? read.assume({
          id: `motor-start-volts-${nominal}`,
          value: 0.75 * nominal,
          says: `motors start above three quarters of nominal: ${Number((0.75 * nominal).toFixed(2))} V`,
          trust: "practice",
          pin: "starts above",
        })
      : undefined);
  return [
    ...(current === "AC" ? residualGuard(part, part, [], facts) : []),
    {
      is: "draw",
      id: part,
      part,
      plus: t("", current === "AC" ? (live[0] ?? "L") : "+"),
      minus: t("", current === "AC" ? (live[1] ?? "N") : "−"),
      law,
      atVolts,
      levels,
      current,
      ...alternating,
      alwaysOn: known(facts["always on"]) ?? false,
      startSeconds:
        starting === undefined
          ? { low: 0, high: 0, origin: "derived" }
          : read.orElse(facts["start time"], {
              id: "start-time",
              value: 0.5,
              says: "a start lasts 0.5 s",
              trust: "practice",
              pin: "start time",
              bounds: [0.1, 10],
            }),
      ...(runsAbove === undefined ? {} : { runsAbove }),
      ...(startsAbove === undefined ? {} : { startsAbove }),
    },
  ];
}

/** `starting: unknown` is a missing fact, whatever unit it would have had. */
const startable = (fact: { value: unknown; span: readonly [number, number] } | undefined) =>
  fact?.value === "unknown" ? ({ value: "unknown", span: fact.span } as const) : undefined;

const load = (
  name: string,
  symbol: SymbolKeys,
  also: readonly string[],
  says: string,
  dropUse: NonNullable<Traits["dropUse"]>,
  law: "amps" | "watts" = "amps",
) =>
  defineKind({
    name,
    also,
    says,
    symbol,
    facts: loadFacts,
    traits: ({ facts }) => ({
      load: true,
      dropUse,
      ...(facts.motor === undefined ? {} : { motor: true as const }),
      ...(name === "outlet" ? { outlet: true as const } : {}),
      ...(name === "starter" ? { cranks: true as const } : {}),
    }),
    ports: () => [{ name: "", current: "either", shape: "pair" }],
    elements: (at) => loadElements(at, law),
  });

export const loads = [
  load("load", { usual: "load", motor: "motor" }, ["appliance", "consumer"], "anything that uses power", "rest"),
  load("light", { usual: "lamp" }, ["lamp", "lights"], "a light, or several on one run", "lighting"),
  load(
    "outlet",
    { usual: "socket_dc", onAC: "socket_ac" },
    ["socket", "receptacle", "sockets"],
    "an outlet for things that are plugged in",
    "rest",
  ),
  load(
    "electronics",
    { usual: "display" },
    ["instrument"],
    "electronics that take the same power at any volts",
    "electronics",
    "watts",
  ),
  load("navigation light", { usual: "nav_light" }, ["nav light"], "a navigation light", "navigation light"),
  load("bilge pump", { usual: "pump" }, [], "a pump for the bilge", "bilge pump"),
  load("bilge blower", { usual: "fan" }, ["blower"], "a blower for an engine or tank space", "bilge blower"),
  load("starter", { usual: "starter" }, ["starter motor"], "the motor that cranks the engine", "rest"),
];
