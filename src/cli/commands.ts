import { chartCommand } from "./chart-command.ts";
import type { Command, Option } from "./command.ts";

const json: Option = { name: "json", says: "print JSON instead; its form is in schema/" };
const width: Option = {
  name: "width",
  value: "COLUMNS",
  says: "columns to fit into, 80 to 160; else those of the terminal",
};

export const commands: readonly Command[] = [
  {
    name: "check",
    summary: "say what is wrong with a plan, and what was assumed",
    usage: "PLAN…",
    takes: [1, 1000],
    taking: "a plan",
    about: [
      "Reads each plan and says everything that can be said in one pass: what is wrong and where, the line with a mark under it, what was expected, one next step; then what the rules find, with the danger, the figures and the clause; then the defaults that were used and the facts that are missing. `-` is standard input.",
    ],
    options: [
      { name: "quiet", short: "q", says: "only what wants a hand: notes are counted, assumptions left out" },
      { name: "all", says: "also every pass with its margin, and what does not apply and why" },
      {
        name: "cures",
        says: "look for changes of the plan that cure each fail, and print them under it; takes its time",
      },
      { name: "assumptions", says: "look for assumptions that decide a size, a device or a must; takes its time" },
      json,
      width,
    ],
    examples: [
      ["wireworthy check examples/sloop.yaml", "one plan"],
      ["wireworthy check - < examples/sloop.yaml", "from standard input"],
      ["wireworthy check examples/sloop.yaml --cures", "with what would cure each fail"],
    ],
    load: async () => (await import("./run-check.ts")).runCheck,
  },
  {
    name: "schedule",
    summary: "show every circuit with its wire, its device and how it stands",
    usage: "PLAN",
    takes: [1, 1],
    taking: "one plan",
    about: [
      "Computes the plan and prints the schedule of circuits, the volts at every load in every state, what the sources give, what was assumed and what was not checked.",
    ],
    options: [
      { name: "states", says: "only the states: volts at the loads, what the sources give" },
      { name: "csv", says: "print CSV for a spreadsheet; with --states the volts at the loads" },
      json,
      width,
    ],
    examples: [
      ["wireworthy schedule examples/sloop.yaml", "all of it"],
      ["wireworthy schedule examples/sloop.yaml --csv", "for a spreadsheet"],
    ],
    load: async () => (await import("./run-schedule.ts")).runSchedule,
  },
  {
    name: "why",
    summary: "explain a size, a device, a voltage: with its numbers and sources",
    usage: "PLAN SUBJECT",
    takes: [1, 16],
    taking: "a plan and what is asked about",
    about: [
      "Explains one figure of a plan: why it is what it is, what each constraint alone would ask for, the sums with their numbers put in, what it leans on and where that stands, and what would change it.",
      "A subject is a circuit (`W12`), one thing of it (`W12.drop`, `W12 fuse`), a load or source (`fridge`, `B1`), any of these in a state (`fridge@at anchor`), an assumption by its name, a finding by its rule and thing, or `copper`.",
    ],
    options: [
      { name: "list", says: "list what can be asked of this plan" },
      { name: "quick", says: "do not look for what would change a size" },
      { name: "html", says: "print a page that needs nothing else, instead" },
      json,
      width,
    ],
    examples: [
      ["wireworthy why examples/sloop.yaml W12", "why a wire has its size"],
      ["wireworthy why examples/sloop.yaml W12 fuse", "why a fuse has its rating"],
      ['wireworthy why examples/sloop.yaml "fridge@at anchor"', "where the volts of a load are lost in a state"],
      ["wireworthy why examples/sloop.yaml --list", "what can be asked"],
    ],
    load: async () => (await import("./run-why.ts")).runWhy,
  },
  {
    name: "cure",
    summary: "find changes of a plan that make a finding go",
    usage: "PLAN RULE THING",
    takes: [3, 16],
    taking: "a plan, a rule and the thing in which it is found",
    about: [
      "Makes the changes that the rule proposes, one after the other, computes the whole plan again after each, and shows at most three that make the finding go: fewest new fails first, then fewest lines, then least copper. What is pinned or as found is left alone wherever another change does it.",
      "`--apply` writes the changed plan to another file; the plan itself changes only with `--in-place`. Comments, order and style of all other lines stay as they are.",
    ],
    options: [
      { name: "apply", value: "N", says: "make cure N" },
      { name: "out", short: "o", value: "FILE", says: "file to write the changed plan to; it may not be there yet" },
      { name: "in-place", says: "change the plan itself, instead" },
      json,
      width,
    ],
    examples: [
      [
        'wireworthy cure examples/sloop.yaml battery/switched-off-always-on-load "bilge pump"',
        "a pump that must stay on",
      ],
      [
        "wireworthy cure examples/sloop-audit.yaml conductor/excess-voltage-drop W12",
        "a found wire that loses too much",
      ],
    ],
    load: async () => (await import("./run-cure.ts")).runCure,
  },
  {
    name: "build",
    summary: "write all results of a plan into a folder",
    usage: "PLAN -o DIR",
    takes: [1, 1],
    taking: "one plan",
    about: [
      "Writes the one-line drawing (one-line.svg, one-line.pdf), report.html with everything on one page, design.json, schedule.csv, schedule.txt, voltages.csv, findings.txt and diagnostics.txt. The folder is made where it is missing; each file is written beside its place first and then takes its name, so that none is ever half.",
    ],
    options: [
      { name: "out", short: "o", value: "DIR", says: "folder to write into" },
      { name: "paper", value: "SIZE", says: "A4, A3 or Letter; else Letter for American builds, A4 for others" },
      json,
    ],
    examples: [["wireworthy build examples/sloop.yaml -o out/sloop", "into out/sloop"]],
    load: async () => (await import("./run-build.ts")).runBuild,
  },
  {
    name: "draw",
    summary: "draw a plan: its one-line in an operating state, or one circuit",
    usage: "PLAN",
    takes: [1, 1],
    taking: "one plan",
    about: [
      "Prints one drawing as SVG: the one-line as the page shows it (`--on bench`), a sheet of it on paper, or one circuit from top to bottom. In a state what is off is grey, contacts stand as they then do, and a band under the copper is as wide as its current. The page gives the same drawing, byte for byte.",
      "With `-o` it is written to a file, which may be there already if it is such a drawing.",
    ],
    options: [
      { name: "on", value: "WHAT", says: "bench, A4, A3 or Letter; else bench" },
      { name: "state", value: "STATE", says: "operating state; else contacts stand at rest" },
      { name: "circuit", value: "W13", says: "only this circuit, from top to bottom" },
      { name: "handles", says: "mark figures that can be changed and ways that are free" },
      { name: "sheet", value: "N", says: "sheet of a drawing on paper; else the first" },
      { name: "out", short: "o", value: "FILE", says: "file to write to; else it is printed" },
    ],
    examples: [
      ['wireworthy draw examples/sloop.yaml --state "at anchor" -o out-sloop.svg', "the one-line at anchor"],
      ["wireworthy draw examples/sloop.yaml --circuit W13", "the circuit of the fridge"],
      ["wireworthy draw examples/sloop-us.yaml --on Letter", "a sheet of paper"],
    ],
    load: async () => (await import("./run-draw.ts")).runDraw,
  },
  chartCommand,
  {
    name: "page",
    summary: "open the page, where a plan is drawn and changed by hand",
    usage: "[PLAN]",
    takes: [0, 1],
    taking: "one plan",
    about: [
      "Hands the page to a browser on this machine and says its address; no other machine can reach it, and the page asks for nothing beyond it. It goes on until Ctrl C.",
      "A PLAN that is named stands open when the page comes up, as a copy: the file itself is only read. Save from the page into a file of your choice.",
      "What the page keeps in the browser belongs to its address, port included: take the same port again to find it again.",
    ],
    options: [
      { name: "port", value: "N", says: "port to listen on; else 8412, or a free one where that is taken" },
      { name: "open", says: "open it in the usual browser" },
    ],
    examples: [
      ["wireworthy page", "begin with nothing, or with an example"],
      ["wireworthy page examples/sloop.yaml", "with a copy of a plan"],
    ],
    load: async () => (await import("./run-page.ts")).runPage,
  },
  {
    name: "size",
    summary: "find the wire for one circuit, without a plan",
    usage: "--load 4.3A --run 5.2m",
    takes: [0, 0],
    taking: "options only",
    about: [
      "Answers with the wire size and what decided it, the device, and how the next thinner size fails. Every figure has its unit; a range such as `5…6 m` is taken at its worse end. Give the run one way or the length there and back, not both: the answer repeats both.",
    ],
    options: [
      { name: "load", value: "4.3A", says: "what the load takes while it runs: amps or watts" },
      { name: "run", value: "5.2m", says: "length of the run, one way" },
      { name: "loop", value: "10.4m", says: "length there and back" },
      { name: "start", value: "8A", says: "what it takes while it starts" },
      { name: "start-time", value: "0.5s", says: "how long the start lasts" },
      { name: "volts", value: "12V", says: "nominal volts" },
      { name: "drop", value: "3%", says: "greatest voltage drop, of the nominal volts" },
      { name: "least-volts", value: "10.8V", says: "least volts that it runs with, by its maker" },
      { name: "starts-above", value: "11.5V", says: "least volts that it starts with, by its maker" },
      { name: "source-volts", value: "12.2V", says: "volts that the source holds; else the nominal volts" },
      { name: "rules", value: "SET", says: "iso-small-craft or us-small-craft" },
      { name: "ambient", value: "40C", says: "air temperature along the run" },
      { name: "engine-space", says: "the run lies in an engine space" },
      { name: "bundle", value: "6", says: "current-carrying conductors that lie together, its own two counted" },
      { name: "insulation", value: "105C", says: "temperature rating of the insulation" },
      { name: "stock", value: "SIZES", says: "sizes that are bought: mm², AWG or SAE" },
      { name: "metal", value: "METAL", says: "tinned copper, copper or aluminium" },
      { name: "strands", value: "CLASS", says: "class 1, 2, 5 or 6, type 2 or 3" },
      { name: "sheathed", says: "the two conductors lie in one sheath" },
      { name: "json-in", value: "FILE", says: "read the question as JSON instead, `-` from standard input" },
      json,
      width,
    ],
    examples: [
      ["wireworthy size --load 4.3A --run 5.2m --drop 3%", "a fridge"],
      ["wireworthy size --load 60W --volts 24V --loop 30ft --rules us-small-craft", "lights, American sizes"],
      ["wireworthy size --load 85A --start 150A --starts-above 9V --run 8.6m --engine-space", "a windlass"],
      ['echo \'{ "load": "4.3 A", "run": "5.2 m" }\' | wireworthy size --json-in -', "asked by a program"],
    ],
    load: async () => (await import("./run-size.ts")).runSize,
  },
];
