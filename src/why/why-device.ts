import { deviceFamily, interruptRating, judgeStart, START_MARGIN } from "../device/index.ts";
import { ratingForStart } from "../protect/choose-device.ts";
import { printCitation } from "../explain/index.ts";
import { amps, volts } from "../quantity/index.ts";
import { deviceLimit, type DeviceLimit } from "../ruleset/index.ts";
import { steadyShareOf, type DeviceDesign } from "../size/index.ts";
import { ampacityAt } from "../size/ladder.ts";
import type { CircuitModel } from "../size/model.ts";
import type { PlacedDevice } from "../size/place-devices.ts";
import type { Built } from "./built.ts";
import type { WorkedFigure, WorkedStep } from "./explanation.ts";
import { leastForSteady, leastForSteadyByCustom } from "./laws.ts";
import { saidAt } from "./plan-place.ts";
import { figureText } from "./print-number.ts";
import type { Part } from "./why-ampacity.ts";
import { figure, picked, taken, work } from "./work.ts";

/** What sets the greatest device of a wire. */
const LIMITED_BY: Readonly<Record<DeviceLimit["by"], string>> = {
  ampacity: "no more than the wire may carry",
  "next rating up": "the next rating above what the wire may carry",
  "small conductor": "no more than a conductor so small may have",
  "opens late": "less than the wire may carry, for it opens late",
};

/** Rule sets by whose law a device is loaded with 80 % for hours (NEC 210.20); elsewhere that is custom. */
const BY_LAW: ReadonlySet<string> = new Set(["us-cabin", "us-rv"]);

/** Why a device is smaller than what hangs on it asks for. */
function heldDown(load: string, rating: number, steadyA: number, c: CircuitModel): string {
  const says = `it would be larger, but the maker of ${load} allows no more`;
  if (steadyA <= rating * steadyShareOf(c) * (1 + 1e-6)) return says;
  const share = `${Math.round((100 * steadyA) / rating)} %`;
  const most = BY_LAW.has(c.ruleSet?.id ?? "") ? "NEC 210.20 allows 80 %" : "custom leaves a fifth to spare";
  return `${says}; it is loaded with ${share} of its rating for long, where ${most}`;
}

/** A device of a circuit: what asks for so much, what allows no more, what it opens, where it stands. */
export function workDevice(built: Built, c: CircuitModel, placed: PlacedDevice, printed: DeviceDesign): Part {
  const { settled, plan } = built;
  const current = settled.currents[c.position];
  const steadyA = current?.steady ?? 0;
  const steps: WorkedStep[] = [];
  const figures: WorkedFigure[] = [];
  const says: string[] = [];

  // The alternating side is told in the words of the direct one: what its current is stands in the design.
  const supply = built.design.circuits.find((d) => d.id === c.circuit.id)?.current === "AC" ? "AC" : "DC";
  const isAmerican = c.ruleSet?.id.startsWith("us-") === true;
  const steady = work(
    () => (isAmerican ? leastForSteady : leastForSteadyByCustom)({ amps: steadyA, share: steadyShareOf(c) }),
    "least rating for the steady current",
  );
  steps.push(...steady.steps);
  let least = steady.value;
  const starts = placed.given === null && current !== undefined && current.start > steadyA;
  if (starts && placed.family !== null && placed.rating !== null) {
    const { family, rating } = placed;
    const forStart = ratingForStart(family, { amps: current.start, seconds: current.startSeconds });
    const verdict = work(
      () => judgeStart(family, rating, current.start, current.startSeconds),
      `stays closed at ${figureText.amps(current.start)} for at least`,
    );
    if (current.start <= rating) {
      says.push(`the start of ${figureText.amps(current.start)} is not above its rating, so it is carried for good`);
    } else if (verdict.value.leastOpeningS !== null) {
      const asked = START_MARGIN * current.startSeconds;
      says.push(
        `a start of ${figureText.amps(current.start)} for ${Number(current.startSeconds.toPrecision(3))} s: it has to stay closed ${START_MARGIN} times as long, ${Number(asked.toPrecision(3))} s`,
      );
      steps.push(...verdict.steps);
    }
    if (forStart !== null) {
      steps.push(
        taken(
          "least rating of the family that carries the start",
          forStart,
          "A",
          printCitation(verdict.value.source),
          verdict.value.trust,
        ),
      );
      const most = picked(
        "least rating asked for",
        "max",
        [
          { value: steady.value, says: "steady" },
          { value: forStart, says: "start" },
        ],
        "A",
      );
      steps.push(most);
      least = Math.max(steady.value, forStart);
    }
  }
  figures.push(figure("leastA", least, "A", figureText.amps));

  const family = placed.family === null ? null : deviceFamily(placed.family);
  if (placed.given !== null) {
    const said = saidAt(plan, "circuits", c.circuit.id, "fuse", "breaker", "devices");
    if (placed.rating !== null) steps.push(taken("rating as the plan gives it", placed.rating, "A", said));
    else says.push("its rating is not known");
  } else if (placed.rating !== null && family !== null) {
    const { heldTo } = placed;
    if (heldTo !== undefined) {
      const said = saidAt(plan, "parts", heldTo.part, "largest fuse");
      steps.push(taken(`largest fuse that the maker of ${heldTo.part} allows`, heldTo.amps, "A", said));
      says.push(heldDown(heldTo.part, placed.rating, steadyA, c));
    }
    steps.push(
      taken(
        heldTo === undefined
          ? `next rating on sale, ${family.name}`
          : `largest rating on sale that is no more, ${family.name}`,
        placed.rating,
        "A",
        printCitation(family.source),
        family.ratingsTrust,
      ),
    );
  } else says.push("nothing on sale carries the current");
  figures.push(figure("ratingA", placed.rating, "A", figureText.amps));

  const { rungs } = c;
  if (rungs !== null) {
    const rung = built.settled.chosen.rungs[c.position] ?? 0;
    const limits = (rungs.bySet ?? [{ ruleSet: rungs.ruleSet, rungs }]).map(({ ruleSet, rungs: own }) => {
      const limit = deviceLimit(ruleSet.deviceSize, {
        ampacity: amps(ampacityAt(own, rung)),
        current: supply,
        nominal: volts(c.supply?.nominal ?? 12),
        ratings: family?.standardRatings ?? [],
        family: placed.family,
        small: own.ladder.small[rung] ?? null,
      });
      const set = rungs.bySet === undefined ? "" : `, by ${ruleSet.id}`;
      steps.push(
        taken(`${LIMITED_BY[limit.by]}${set}`, limit.upTo, "A", printCitation(limit.source), limit.source.trust),
      );
      return { value: limit.upTo, says: ruleSet.id };
    });
    const most = Math.min(...limits.map(({ value }) => value));
    if (limits.length > 1) steps.push(picked("the stricter of them", "min", limits, "A"));
    figures.push(figure("mostA", most, "A", figureText.ampacity));
    if (placed.rating !== null && placed.rating > most + 1e-9)
      says.push("it is too large for this wire: the wire burns before it opens");
  }
  if (placed.family !== null && placed.rating !== null) {
    const { family: id, rating } = placed;
    const highest = c.supply?.highestVolts ?? 14.6;
    const opens = work(() => interruptRating(id, highest, { supply, rating }), `interrupts, at ${highest} V`);
    if (opens.value.state === "rated") steps.push(...opens.steps);
    else
      says.push(
        opens.value.state === "not known"
          ? "no interrupt rating is published for it"
          : `it is not made for ${highest} V`,
      );
  }
  figures.push(figure("distanceM", placed.distance, "m", figureText.metres));
  steps.push(
    taken(
      `from the ${placed.end === "from" ? "near" : "far"} end of the wire`,
      placed.distance,
      "m",
      placed.given === null
        ? "a device is put at the terminal"
        : saidAt(plan, "circuits", c.circuit.id, "fuse", "breaker", "devices"),
    ),
  );
  return {
    section: { title: `The device at ${printed.at}`, says: says.join("; "), steps, way: [] },
    figures,
  };
}
