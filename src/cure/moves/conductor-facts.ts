import type { Move } from "../case.ts";
import { isWritten, put, takeOff } from "../write.ts";

/** Insulation for the volts that are usual on sale, the least first. */
export const moreVolts: Move = (at) =>
  at.circuits.map(({ id }) =>
    ["600 V", "1000 V", "1500 V"].map((volts) => ({ edits: [put(at.document, ["circuits", id, "voltage"], volts)] })),
  );

/** No rating of another set: the set's own table counts. */
export const ownTable: Move = (at) =>
  at.circuits.map(({ id }) => [
    {
      edits: ["carries", "carries by"].flatMap((key) => takeOff(at.document, ["circuits", id, key])),
    },
  ]);

/** A lead that is drawn off its drum whole: a circuit, or the lead of an inlet. */
export const drawnOff: Move = (at) => {
  const paths = [
    ...at.circuits.map(({ id }) => ["circuits", id, "on drum"]),
    ...(at.part === undefined ? [] : [["parts", at.part.id, "lead layers"]]),
  ].filter((path) => isWritten(at.document, path));
  return paths.map((path) => [{ edits: [put(at.document, path, "0")] }]);
};

/** One conductor in place of several, of a size that is chosen. */
export const oneConductor: Move = (at) =>
  at.circuits.map(({ id }) => [
    { edits: ["parallel", "wire"].flatMap((key) => takeOff(at.document, ["circuits", id, key])) },
  ]);

/** Terminals marked 75 °C, and then 90 °C. */
export const hotterTerminals: Move = (at) =>
  at.circuits.map(({ id }) =>
    ["75 °C", "90 °C"].map((heat) => ({ edits: [put(at.document, ["circuits", id, "terminals"], heat)] })),
  );

/** Out of the zones: past what surrounds it. */
export const outOfTheInsulation: Move = (at) =>
  at.circuits.map(({ id }) => [
    { edits: ["zone", "zones"].flatMap((key) => takeOff(at.document, ["circuits", id, key])) },
  ]);
