import type { Command } from "./command.ts";

/** `states`: every position of switches, plugs and relays. */
export const statesCommand: Command = {
  name: "states",
  summary: "show every state of the alternating side: what feeds what, where neutral meets earth",
  usage: "PLAN",
  takes: [1, 1],
  taking: "one plan",
  about: [
    "Goes through every position of every switch, plug, relay and source of the alternating side and groups them into the few states that differ electrically: what is done to get there from everything off, what gives, what is fed by what, where neutral meets earth, what is dangerous there, and how many positions belong to it. Then what interlocks keep away, what stands idle, and what nobody says.",
    "`--set` shows one position instead, what moves by itself included, with volts and currents while every load is on. What is not named stands as when everything is off.",
    "`--draw` draws one small picture a state, several to a sheet: into a FILE that ends in .pdf or .svg, or into a folder.",
  ],
  options: [
    { name: "set", value: "POSITIONS", says: 'one position, such as "INL in, TS shore"' },
    { name: "draw", value: "WHERE", says: "draw the states into a .pdf, an .svg or a folder" },
    { name: "paper", value: "SIZE", says: "A4, A3 or Letter; else Letter for American builds, A4 for others" },
    { name: "sheet", value: "N", says: "sheet of a drawing in an .svg; else the first" },
    { name: "json", says: "print JSON instead; its form is in schema/" },
    { name: "width", value: "COLUMNS", says: "columns to fit into, 40 to 160; else those of the terminal" },
  ],
  examples: [
    ["wireworthy states examples/sloop.yaml", "every state"],
    ['wireworthy states examples/sloop.yaml --set "INL in, CU main on, CU 3 on, TS shore"', "one position"],
    ["wireworthy states examples/sloop.yaml --draw out-states.pdf", "a picture of each"],
  ],
  load: async () => (await import("./run-states.ts")).runStates,
};
