export { routeRuns } from "./route-runs.ts";
export type { Run, Runs, Stretch } from "./runs.ts";
