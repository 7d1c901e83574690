/** Which of several devices in series opens, what goes dark with it, and what feeders carry. */
export { coordinate, type Coordination, type FaultDark, type FeederLoad, type PairInSeries } from "./coordinate.ts";
export { seriesIn, type Series } from "./series-in.ts";
