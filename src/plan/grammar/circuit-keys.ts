import { installMethods } from "../../ruleset/index.ts";
import { deviceOnLine } from "./device-on-line.ts";
import { path } from "./path.ts";
import { recordOf } from "./record.ts";
import type { KeyRules } from "./rule.ts";
import { colour } from "./colour.ts";
import { cableLabel, wireLabel } from "./labels.ts";
import { unreadLabel } from "./unread-label.ts";
import { anything, count, either, listOf, mapOf, name, quantity, text, word, yesNo } from "./values.ts";
import { tellsOfCable, tellsOfWire } from "./written-label.ts";

/** What may stand under a wire number in `circuits:`. */
export const circuitKeys = {
  path: {
    value: path(),
    doc: "The way through the parts, from the supply side: `PNL:1 → fridge`. A direct-current path is the plus conductor.",
  },
  name: { value: text(), doc: "What people call it." },
  length: { value: quantity("length", { above: 0 }), doc: "Metres of run, one way." },
  legs: {
    value: listOf(quantity("length", { min: 0 })),
    doc: "Lengths between the stops of a path with more than two.",
  },
  zone: { value: listOf(name("a zone")), doc: "The zone or zones that the whole run lies in." },
  zones: {
    value: mapOf("zone", either(quantity("length", { min: 0 }), word(["rest", "some"]))),
    doc: "Metres in each zone; `rest` takes what is left, `some` says that the metres are not known.",
  },
  ways: { value: listOf(name("a way")), doc: "The ways that the run goes along." },
  "return ways": {
    value: listOf(name("a way")),
    doc: "The ways that the return or the neutral goes along, where they are others than the run's.",
  },
  laid: {
    value: word(["fixed", "concealed", "loose"]),
    doc: "How it lies: fixed to the build in sight, behind linings or walls, or loose as a lead that is moved.",
  },
  ambient: { value: quantity("temperature"), doc: "Air temperature along this run, in place of its zones'." },
  wire: {
    value: wireLabel(),
    doc: "Pinned size: judged, never changed. Left out: chosen. What its label says of metal, strands, insulation and colour counts where their own keys say nothing.",
    tells: tellsOfWire,
    unread: unreadLabel,
  },
  "same size as": {
    value: listOf(name("a circuit")),
    doc: "Circuits that get one common size with this one. Where one of them has its size written, that is the size of all.",
  },
  insulation: {
    value: quantity("temperature"),
    doc: "Temperature rating of this circuit's insulation, in place of the stock's.",
  },
  method: {
    value: word(installMethods, {
      conduit: "raceway",
      trunking: "raceway",
      "in conduit": "raceway",
      "in free air": "free air",
      "flexible cord": "cord",
      buried: "D",
      underground: "D",
    }),
    doc: "How it is installed, where the rule set's tables ask: `raceway` (conduit, trunking), `cable`, `free air`, `cord`, `buried`, or a method of IEC 60364-5-52 by its letter. Left out: as the rule set usually finds it.",
  },
  terminals: {
    value: quantity("temperature"),
    doc: "Temperature marked on the terminals at its ends, the lowest of them. Left out: as the rule set takes unmarked ones.",
  },
  metal: {
    value: word(["tinned copper", "copper", "aluminium"], { "plain copper": "copper", "bare copper": "copper" }),
    doc: "Metal, in place of the stock's.",
  },
  strands: {
    value: word(["class 1", "class 2", "class 5", "class 6", "type 2", "type 3"], {
      solid: "class 1",
      fine: "class 5",
    }),
    doc: "Stranding, in place of the stock's.",
  },
  "bought as": { value: text(), doc: "What the label of the bought wire says, beside the drawn size." },
  "as found": { value: yesNo(), doc: "`yes`: it stands in an existing build; nothing is assumed for it." },
  cable: {
    value: cableLabel(),
    doc: "The cable by its label. It pins the size as `wire` does, lies in one sheath, and has the cores that its kind has.",
    tells: tellsOfCable,
    unread: unreadLabel,
  },
  "in cable": {
    value: name("a cable"),
    doc: "Circuits that name the same cable share it: its label, its size, its sheath and its cores.",
  },
  cores: {
    value: listOf(word(["+", "−", "L", "L1", "L2", "N", "PE"], { "-": "−" })),
    doc: "Cores by function, in place of the system's.",
  },
  sheathed: { value: yesNo(), doc: "`yes`: its conductors lie in one sheath." },
  tail: {
    value: quantity("length", { min: 0 }),
    doc: "Length of its cores that lies outside the sheath at an end, the longer of the two.",
  },
  screened: { value: yesNo(), doc: "`yes`: an earthed screen lies around its cores." },
  "outside diameter": {
    value: quantity("length", { above: 0 }),
    doc: "Diameter over the jacket of its cable, as measured or as its data sheet says.",
  },
  gland: {
    value: either(word(["M12", "M16", "M20", "M25", "M32", "M40"]), quantity("length", { above: 0 })),
    doc: "Gland that its cable goes through: diameters that it closes on, `8…13 mm`, or its thread.",
  },
  "on drum": {
    value: count(0, 10),
    doc: "Layers of it that lie on a drum, or coiled, while it carries current; 0: all of it is drawn off.",
  },
  bundle: {
    value: either(count(1, 500), mapOf("zone", count(1, 500))),
    doc: "Number of current-carrying conductors that lie together, this circuit's own counted; or a number for each zone.",
  },
  parallel: { value: count(1, 12), doc: "Equal conductors in parallel for each pole." },
  fuse: {
    value: listOf(deviceOnLine()),
    doc: "Fuse in the line: `10 A at BP`, `10 A 0.12 m from BP`, `none`, `unknown`, a part's name, or a list. Left out: proposed.",
  },
  breaker: { value: listOf(deviceOnLine()), doc: "Breaker in the line, written as a fuse is." },
  return: {
    value: name("a part, or `none`"),
    doc: "Where the return of direct current goes, in place of the system's; `none` for a conductor on its own.",
  },
  "return length": {
    value: quantity("length", { min: 0 }),
    doc: "Metres of the return where it is not as long as the run.",
  },
  system: { value: name("a system"), doc: "The supply it belongs to, where the parts leave it open." },
  then: { value: listOf(name("a load")), doc: "Loads chained after the end of the path." },
  demand: {
    value: quantity("current", { min: 0 }),
    doc: "Current that a feeder must be able to carry to its far end.",
  },
  cranking: { value: yesNo(), doc: "`yes`: main cable of a starter, from the battery to it and no further." },
  "arc fault": {
    value: either(yesNo(), word(["excluded"])),
    doc: "`yes`: what opens it opens on arcs too; `excluded`: the maker of what feeds it forbids such a device.",
  },
  drop: {
    value: quantity("ratio", { min: 0 }),
    doc: "Greatest voltage drop, in percent of the system's nominal, in place of the rule set's class.",
  },
  "drop class": { value: word(["critical", "rest"]), doc: "Drop class, in place of what the load's kind gives." },
  "in PE": { value: name("a part"), doc: "Part set into the protective conductor, a galvanic isolator." },
  strings: {
    value: count(1, 500),
    doc: "Solar strings that share this run; as many as `parallel`: each on a pair of its own.",
  },
  factory: {
    value: yesNo(),
    doc: "`yes`: it belongs to the harness of the vehicle or the engine, as its maker built it.",
  },
  tie: { value: text(), doc: "What it ties together when it is a link between two supplies.", idle: true },
  "fit for": {
    value: listOf(word(["wet", "oil", "sun", "buried", "moving"])),
    doc: "What the pinned insulation is fit for.",
  },
  ends: {
    value: mapOf(
      "part",
      recordOf(
        {
          lug: { value: text(), doc: "Lug or ring." },
          hole: { value: text(), doc: "Hole, named by its stud." },
          stud: { value: text(), doc: "Stud." },
          order: { value: count(1, 20), doc: "Order on the stud, 1 lowest." },
          torque: { value: quantity("torque", { min: 0 }), doc: "Tightening torque." },
          tool: { value: text(), doc: "Tool or die." },
        },
        "an end",
      ),
    ),
    doc: "How each end is terminated.",
    idle: true,
  },
  colour: {
    value: either(listOf(colour()), mapOf("core", colour())),
    doc: "Insulation colours, in words or letters: in the order of the cores, or by core. One alone is that of the first core.",
  },
  voltage: {
    value: quantity("voltage", { min: 0 }),
    doc: "Voltage rating of the insulation, in place of its label's.",
  },
  carries: {
    value: quantity("current", { above: 0 }),
    doc: "Rating that was taken for it from a table or a list, to be judged.",
  },
  "carries by": {
    value: text(),
    doc: "Rule set whose table that rating is from: `us-small-craft`.",
  },
  photos: { value: anything("file names"), doc: "Photos by file name.", idle: true },
  note: { value: text(), doc: "Anything worth writing down." },
} as const satisfies KeyRules;
