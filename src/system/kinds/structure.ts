import {
  either,
  known,
  listOf,
  mapOf,
  name,
  quantity,
  word,
  yesNo,
  type Fact,
  type Measure,
  type Named,
} from "../../plan/index.ts";
import type { Contact } from "../element.ts";
import type { Default } from "../fact-reader.ts";
import { defineKind } from "../kind.ts";
import type { Port } from "../terminal.ts";

export const structure = defineKind({
  name: "structure",
  also: ["chassis", "hull", "frame", "bonding"],
  says: "chassis or structure that carries current from joint to joint",
  symbol: { usual: "chassis" },
  facts: {
    joints: {
      value: either(mapOf("joint", quantity("resistance", { min: 0 })), listOf(name("a joint"))),
      doc: "Where conductors land on it; a path names one as `chassis:rear`. A map gives each its resistance to the body.",
    },
    is: {
      value: word(["hull", "chassis", "engine", "frame", "skin", "bonding"]),
      doc: "What part of the build it is.",
    },
    prepared: {
      value: yesNo(),
      doc: "Whether its joints are bare metal under plated toothed washers, and can be reached.",
    },
    immersed: { value: yesNo(), doc: "`yes`: metal of it stands in the water." },
    "joint resistance": {
      value: quantity("resistance", { min: 0 }),
      doc: "From each joint to the body, where a joint does not give its own.",
    },
  },
  traits: () => ({ distributes: true, structure: true }),
  ports: ({ facts }) => [
    { name: "", current: "either", shape: "pole" },
    ...jointsOf(facts.joints).map(({ joint }): Port => ({ name: joint, current: "either", shape: "pole" })),
  ],
  elements(at) {
    return jointsOf(at.facts.joints).map(({ joint, ohms }): Contact => ({
      is: "contact",
      id: `${at.part}:${joint}`,
      part: at.part,
      a: at.t(joint, "pole"),
      b: at.t("", "pole"),
      ohms:
        ohms === undefined
          ? at.read.orElse(at.facts["joint resistance"], STRUCTURE_JOINT)
          : at.read.orElse(ohms, { ...STRUCTURE_JOINT, pin: `joints: ${joint}` }),
    }));
  },
});

const STRUCTURE_JOINT: Default = {
  id: "structure-joint",
  value: 0.001,
  says: "each joint on chassis or structure 1 mΩ",
  trust: "practice",
  pin: "joint resistance",
  bounds: [0, 1],
};

interface Joint {
  readonly joint: string;
  /** Its own resistance, where the plan gives each one. */
  readonly ohms?: Fact<Measure>;
}

function jointsOf(fact: Fact<readonly Named<Measure>[] | readonly Fact<string>[]> | undefined): Joint[] {
  return (known(fact) ?? []).flatMap((j): Joint[] => {
    if ("name" in j) return [{ joint: j.name, ohms: { value: j.value, span: j.span } }];
    return j.value === "unknown" ? [] : [{ joint: j.value }];
  });
}
