/** Which of several devices in series opens, what goes dark with it, and what feeders carry. */
export {
  coordinate,
  seriesPairs,
  type Coordination,
  type FaultDark,
  type FeederLoad,
  type PairInSeries,
  type SeriesPairs,
} from "./coordinate.ts";
export { seriesIn, type Series } from "./series-in.ts";
