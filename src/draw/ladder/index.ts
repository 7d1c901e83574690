/** Wire sizes side by side: for a page, a wall and a pocket. */
export { drawPocketCard, cardPapers, type CardPaper } from "./draw-pocket-card.ts";
export { drawSizeLadder, windowAbout } from "./draw-size-ladder.ts";
export { chartPapers, drawWallChart, type ChartPaper } from "./draw-wall-chart.ts";
export type { LadderMark } from "./ladder-items.ts";
export type { ChartUnits } from "./size-facts.ts";
