import { cite } from "../../explain/index.ts";
import { colourName } from "../../wire/colour/index.ts";
import { defineRule } from "../rule.ts";
import { colourClashes, coloursOfBuild } from "./colours-of-build.ts";

export const colourClash = defineRule({
  id: "label/colour-clash",
  title: "Colour clash",
  severity: "must",
  danger: "whoever opens the enclosure takes a live conductor for a harmless one of the same colour",
  why: `The same colour means different things in different schemes: black is live with alternating current and minus with direct current, white is neutral or
    minus, brown is line or the ground of a car. No colour may have two meanings that are dangerous to mix up where both come into one enclosure or one
    cable; in one build such pairs should not be, where one of them is mains or an earth. A green-yellow core that is no earth is told by protective-core-in-service. Colours are those that the plan or a label gives: what is
    only proposed is not judged. The freer of the two is the one to change, and a sleeve on both ends does as well: waive the finding with that reason.`,
  silent: [
    "plans that give no colours",
    "two direct-current poles of one colour in different enclosures",
    "colours that differ only in what they feed",
  ],
  sources: [
    { cite: cite("own-derivation", "meanings of a colour in the published schemes, laid over each other", "derived") },
  ],
  messages: {
    together: "in {place} {colour} is {first} and {second}",
    apart: "in one build {colour} is {first} and {second}, in different places",
  },
  cures: ["recolour"],
  examples: {
    good: [
      {
        says: "red and yellow",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, colour: [red, yellow] }",
      },
      {
        says: "a yellow minus, and elsewhere a yellow plus",
        plan: "circuits:\n  W01: { path: B1 → SW1, length: 0.8 m, colour: yellow }\n  W10: { path: PNL:1 → lamp, length: 4 m, colour: { −: yellow } }",
      },
    ],
    bad: [
      {
        says: "one colour for plus and minus in one panel",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, colour: [black, black] }",
        fails: "together",
        about: "parts.PNL",
      },
      {
        says: "a black minus on a boat whose mains are black",
        plan: "systems:\n  AC: { kind: AC, nominal: 230 V }\nparts:\n  INL: { kind: shore inlet, rated: 16 A }\n  kettle: { kind: load, rated: 900 W }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, colour: [red, black] }\n  W50: { path: INL → kettle, length: 2 m, colour: [black, white, green-yellow] }",
        fails: "apart",
        about: "plan",
      },
    ],
  },
  judge(build, report) {
    const used = coloursOfBuild(build);
    if (used.length === 0) {
      report.notApplicable(build.whole, "the plan gives no colours");
      return;
    }
    const clashes = colourClashes(used);
    const places = [...new Set(used.flatMap((u) => u.places))];
    for (const place of places) {
      const part = place.startsWith("parts.") ? build.part(place.slice("parts.".length)) : undefined;
      // What ends at a load comes from an enclosure, where it is told.
      if (part?.part.traits.load === true) continue;
      const first = used.find((u) => u.places.includes(place));
      const subject = part?.subject ?? (first === undefined ? undefined : build.circuit(first.circuit)?.subject);
      if (subject === undefined) continue;
      const here = clashes.find((c) => c.places.includes(place));
      if (here === undefined) report.pass(subject);
      else
        report.fail(subject, "together", {
          words: { colour: colourName(here.first.colour), first: here.first.function, second: here.second.function },
        });
    }
    const apart = clashes.find((c) => c.places.length === 0);
    if (apart === undefined) report.pass(build.whole);
    else
      report.fail(build.whole, "apart", {
        severity: "should",
        words: { colour: colourName(apart.first.colour), first: apart.first.function, second: apart.second.function },
      });
  },
});
