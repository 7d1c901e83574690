import { count, quantity, recordOf, word, yesNo } from "../../plan/index.ts";

const vents = recordOf(
  {
    to: { value: word(["outside", "room", "none"]), doc: "Where its gas goes." },
    low: { value: quantity("area", { min: 0 }), doc: "Opening to outside air near the bottom of its box." },
    high: { value: quantity("area", { min: 0 }), doc: "Opening to outside air near the top of its box." },
  },
  "the vents of a battery",
);

const fuel = recordOf(
  {
    where: {
      value: word(["straight above", "straight below", "beside", "none near"]),
      doc: "Where a fuel tank, filter or fitting is, seen from the battery.",
    },
    "metal above": {
      value: quantity("length", { min: 0 }),
      doc: "Distance from the top of the battery to metal of the fuel system above it.",
    },
    shielded: { value: yesNo(), doc: "`yes`: a deck or a shield stands between." },
  },
  "what of a fuel system is near",
);

/** How a battery stands, and what is around it. What is left out is not stated. */
export const batteryFitting = {
  vents: { value: vents, doc: "Where gas goes that it gives off." },
  box: {
    value: word(["none", "vented", "sealed"]),
    doc: "The box that it stands in; sealed: tight to the inside, and open to outside air alone.",
  },
  "in living space": { value: yesNo(), doc: "`yes`: where people live or sleep." },
  "held down": { value: yesNo(), doc: "`yes`: by straps, a tray or brackets." },
  moves: { value: quantity("length", { min: 0 }), doc: "How far it moves while it is pulled at with the test force." },
  "posts covered": { value: yesNo(), doc: "`yes`: no metal can fall across its posts." },
  fuel: { value: fuel, doc: "What of a fuel system is near it." },
  "allowed in engine space": { value: yesNo(), doc: "`yes`: its maker lets it stand beside an engine." },
  "units fused": {
    value: yesNo(),
    doc: "Of several units behind one pair of terminals: `yes`, each has a fuse or breaker of its own before it meets the others.",
  },
  "most in series": { value: count(1, 40), doc: "How many its maker allows in series." },
  "most in parallel": { value: count(1, 40), doc: "How many its maker allows in parallel." },
  "charging volts": {
    value: quantity("voltage", { above: 0 }),
    doc: "Volts that its maker wants it charged with, as a range.",
  },
} as const;
