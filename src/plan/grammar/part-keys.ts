import { position } from "./position.ts";
import type { KeyRules } from "./rule.ts";
import { anything, count, name, quantity, quantityIn, text, word, yesNo } from "./values.ts";

/** What may stand under any part, whatever its kind. A key that only some kinds heed belongs to those kinds. */
export const partKeys = {
  kind: { value: name("a kind"), doc: "What it is; it decides which further keys it has." },
  like: { value: name("a part"), doc: "Copies the facts of another part; own facts win." },
  name: { value: text(), doc: "What people call it. The key is its designation." },
  at: { value: position(), doc: "Where it sits: `[x, y, z]` along the plan's axes, or `unknown`." },
  in: { value: name("a place"), doc: "The place that it sits in." },
  beside: { value: name("a part"), doc: "It sits where that part sits." },
  system: { value: name("a system"), doc: "The supply it belongs to, where its circuits leave it open." },
  critical: { value: yesNo(), doc: "`yes`: people depend on it." },
  ambient: { value: quantity("temperature"), doc: "Air temperature where it sits." },
  rules: {
    value: text(),
    doc: "Rule set and edition of its own, in place of its system's. A circuit between parts of two sets is sized and judged by both.",
  },
  torque: { value: quantity("torque", { min: 0 }), doc: "Tightening torque of its studs.", idle: true },
  studs: { value: text(), doc: "Studs or screws.", idle: true },
  "per stud": { value: count(1, 20), doc: "How many terminations one stud takes.", idle: true },
  weight: { value: quantity("mass", { min: 0 }), doc: "Weight.", idle: true },
  volts: {
    value: quantityIn(["voltage"]),
    doc: "Voltage rating; of a load the volts that it is made for, as a figure or a range.",
  },
  covered: { value: yesNo(), doc: "`yes`: its live parts are behind a cover that takes a tool to open." },
  case: {
    value: word(["metal", "insulated"]),
    doc: "What a hand can touch of it: metal, or insulation all round.",
  },
  bonded: {
    value: yesNo(),
    doc: "`yes`: its case is joined to the protective or bonding conductors by metal that the plan does not draw.",
  },
  "minus at case": { value: yesNo(), doc: "`yes`: its minus is joined to its case inside." },
  "ignition protected": { value: yesNo(), doc: "`yes`: it cannot light petrol vapour.", idle: true },
  "part number": { value: text(), doc: "For ordering.", idle: true },
  "as found": { value: yesNo(), doc: "`yes`: it stands in an existing build.", idle: true },
  measured: { value: anything("measured values"), doc: "What was measured on it.", idle: true },
  photos: { value: anything("file names"), doc: "Photos by file name.", idle: true },
  note: { value: text(), doc: "Anything worth writing down." },
} as const satisfies KeyRules;
