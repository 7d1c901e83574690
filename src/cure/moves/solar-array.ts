import type { EditMap } from "../../plan/text/index.ts";
import type { PartView } from "../../rules/index.ts";
import type { Case, Move, Series } from "../case.ts";
import { put, textOf } from "../write.ts";

/** Whether a part stands for solar modules. */
const isSolar = ({ part }: PartView): boolean => part.traits.solar === true;

/** The modules that a finding is about: the part itself, or those that its controller's line leads to. */
function modulesOf({ build, part }: Case): readonly PartView[] {
  if (part === undefined) return [];
  return isSolar(part) ? [part] : build.parts.filter(isSolar);
}

/** Modules in series as the plan counts them, its own or those of the part that it is like. */
const seriesOf = ({ plan }: PartView): number => {
  const value = plan?.kindFacts["in series"]?.value;
  return typeof value === "number" ? value : 1;
};

const STEPS = 3;

const inSeries = (at: Case, step: 1 | -1): readonly Series[] =>
  modulesOf(at).map((m) =>
    Array.from({ length: STEPS }, (_, i) => seriesOf(m) + step * (i + 1))
      .filter((n) => n >= 1)
      .map((n) => ({ edits: [put(at.document, ["parts", m.id, "in series"], String(n))] })),
  );

export const fewerInSeries: Move = (at) => inSeries(at, -1);
export const moreInSeries: Move = (at) => inSeries(at, 1);

/** V at the input of controllers, in the steps of the trade. */
const INPUTS = [75, 100, 150, 200, 250, 450, 600];

export const higherInputLimit: Move = ({ document, part, finding }) => {
  if (part === undefined || isSolar(part)) return [];
  const asked = finding.measured?.value ?? 0;
  return [
    INPUTS.filter((volts) => volts >= asked)
      .slice(0, STEPS)
      .map((volts) => ({ edits: [put(document, ["parts", part.id, "input limit"], `${volts} V`)] })),
  ];
};

/** Ratings of fuses for solar strings, A, and the volts that they break, V, in the steps of the trade. */
const FUSES = [2, 3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 25, 30, 32];
const FUSE_VOLTS = 600;

const record = (entries: readonly (readonly [string, string])[]): EditMap => ({ entries });

/** A fuse in each string that carries it for hours. */
export const stringFuse: Move = ({ document, part }) => {
  const feed = part?.elements.find((e) => e.is === "feed");
  if (part === undefined || feed === undefined) return [];
  const strings = part.plan?.kindFacts["strings in parallel"]?.value;
  const isc = feed.amps.high / (typeof strings === "number" ? strings : 1);
  return [
    FUSES.filter((amps) => amps >= 1.56 * isc)
      .slice(0, STEPS)
      .map((amps) => {
        const value = record([
          ["rated", `${amps} A`],
          ["DC volts", `${FUSE_VOLTS} V`],
        ]);
        return { edits: [put(document, ["parts", part.id, "string fuse"], value)] };
      }),
  ];
};

/** Halves of the make that stands on the module. */
export const sameConnector: Move = ({ document, part }) => {
  const own = part?.plan?.kindFacts["connectors"]?.value;
  return part === undefined || typeof own !== "string"
    ? []
    : [[{ edits: [put(document, ["parts", part.id, "mated with"], own)] }]];
};

/** V of direct current that isolators open, in the steps of the trade. */
const ISOLATORS = [60, 100, 150, 250, 600, 1000];

/** A switch on the path that opens more volts, or an isolator in each controller. */
export const arrayIsolator: Move = ({ document, build, part, finding }) => {
  if (part === undefined) return [];
  const feed = part.elements.find((e) => e.is === "feed");
  const asked = Math.max(finding.limit?.value ?? 0, 1.25 * (feed?.volts.high ?? 0));
  const volts = ISOLATORS.filter((v) => v >= asked).slice(0, STEPS);
  const switches = build.parts.filter(
    (p) => p.part.traits.passes === true && textOf(document, ["parts", p.id, "DC volts"]) !== null,
  );
  const controllers = build.parts.filter((p) => p.elements.some((e) => e.is === "converter" && e.input === "tracks"));
  return [
    ...switches.map((s) => volts.map((v) => ({ edits: [put(document, ["parts", s.id, "DC volts"], `${v} V`)] }))),
    ...controllers.map((c) =>
      volts.map((v) => {
        const value = record([
          ["poles", "2"],
          ["DC volts", `${v} V`],
        ]);
        return { edits: [put(document, ["parts", c.id, "isolator"], value)] };
      }),
    ),
  ];
};
