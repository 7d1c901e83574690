/**
 * How a conductor is installed: the methods of IEC 60364-5-52 by their letters, and the words of the trade that stand for a group of them.
 * `D` is burial.
 */
export const installMethods = [
  "A1",
  "A2",
  "B1",
  "B2",
  "C",
  "D",
  "E",
  "F",
  "G",
  "raceway",
  "cable",
  "free air",
  "cord",
] as const;

export type InstallMethod = (typeof installMethods)[number];

/** What a laying is, for print. */
export const methodSays: Readonly<Record<InstallMethod, string>> = {
  A1: "single cores in a conduit in an insulated wall",
  A2: "cable in a conduit in an insulated wall",
  B1: "single cores in a conduit or trunking",
  B2: "cable in a conduit or trunking",
  C: "clipped to a surface",
  D: "buried",
  E: "cable in free air",
  F: "single cores touching, in free air",
  G: "single cores apart, in free air",
  raceway: "in a conduit or trunking",
  cable: "a cable on its own",
  "free air": "in free air",
  cord: "flexible cord",
};
