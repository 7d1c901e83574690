import { quantity, word } from "../../plan/index.ts";

/** Keys of what people have to reach in a hurry: devices, and boards of them. */
export const reach = {
  reach: {
    value: word(["by hand", "with a tool"]),
    doc: "How a hand gets at it: freely or behind a door, or only when something is screwed off.",
  },
  height: { value: quantity("length", { min: 0 }), doc: "Height of its handle above the floor in front of it." },
} as const;
