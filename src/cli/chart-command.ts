import type { Command } from "./command.ts";

/** `chart`, which needs no plan. */
export const chartCommand: Command = {
  name: "chart",
  summary: "print wire sizes side by side: a chart for the wall, a card for a pocket",
  usage: "-o FILE",
  takes: [0, 0],
  taking: "options only",
  about: [
    "Draws the size ladder of six systems with every size on sale as thick as it is, its diameter and resistance, what may stand in for it, how sizes are named and how they are mistaken. Paper decides: A3 and Tabloid are charts for a wall, A6 and Index are cards with two sides. FILE ends in .pdf or .svg; without it SVG is printed.",
    "Print it at 100 % and measure the bar: only then are the dots as thick as the wires.",
  ],
  options: [
    { name: "paper", value: "SIZE", says: "A3, Tabloid, A6 or Index; else A3, with American units Tabloid" },
    { name: "units", value: "WHICH", says: "metric or us: what stands first; else metric" },
    { name: "mark", value: "SIZE", says: "the size that the ladder shows as an example; else 2.5 mm² or 12 AWG" },
    { name: "side", value: "WHICH", says: "front or back of a card in an SVG; else front" },
    { name: "out", short: "o", value: "FILE", says: "file to write to; else it is printed" },
  ],
  examples: [
    ["wireworthy chart -o out-chart.pdf", "for the wall"],
    ["wireworthy chart --paper A6 -o out-card.pdf", "for a pocket"],
    ["wireworthy chart --units us --mark 10AWG", "American sizes first, as SVG"],
  ],
  load: async () => (await import("./run-chart.ts")).runChart,
};
