import type { Bench, KeyPath } from "../contract.ts";
import type { PagePlan } from "../worker/protocol.ts";

/** Tabs of the view. */
export const faultTabs = ["map", "curves", "devices", "pairs", "feeders", "banks", "terminals"] as const;
export type FaultTab = (typeof faultTabs)[number];

/** What each tab is called. */
export const tabTitles: Readonly<Record<FaultTab, string>> = {
  map: "Fault map",
  curves: "Curves in time",
  devices: "Devices",
  pairs: "In series",
  feeders: "Feeders",
  banks: "Banks",
  terminals: "Terminals",
};

/** Told to the view when its tab is chosen from elsewhere. */
export const TAB_EVENT = "bench-fault-tab";

/** The tab that the address names. */
export function readTab(): FaultTab {
  const [, query = ""] = location.hash.split("?");
  const named = new URLSearchParams(query).get("tab");
  return faultTabs.find((tab) => tab === named) ?? "map";
}

/** Puts a tab into the address, which stays there while the view is shown. */
export function writeTab(tab: FaultTab): void {
  const [view = "", query = ""] = location.hash.split("?");
  const params = new URLSearchParams(query);
  if (tab === "map") params.delete("tab");
  else params.set("tab", tab);
  const text = params.toString();
  history.replaceState(null, "", `${view}${text === "" ? "" : `?${text}`}`);
}

/** Shows when the devices of a circuit open. */
export function openCurves(bench: Bench, circuit: string): void {
  bench.select(`circuits.${circuit}`);
  bench.go("faults");
  writeTab("curves");
  dispatchEvent(new Event(TAB_EVENT));
}

/**
 * The circuit that a thing of the plan is, belongs to or is fed by; null: none.
 *
 * @param about `circuits.W13`, one end of it `circuits.W13.from`, `parts.fridge`
 */
export function circuitOf({ design }: Pick<PagePlan, "design">, about: KeyPath | null): string | null {
  const [section, ...rest] = (about ?? "").split(".");
  const id = rest.join(".");
  const { circuits } = design;
  if (section === "circuits")
    return (circuits.find((c) => c.id === id) ?? circuits.find((c) => id.startsWith(`${c.id}.`)))?.id ?? null;
  if (section !== "parts") return null;
  const at = (end: string): boolean => end === id || end.startsWith(`${id}:`);
  return (circuits.find((c) => at(c.to)) ?? circuits.find((c) => c.loads.some(({ part }) => part === id)) ?? circuits.find((c) => at(c.from)))?.id ?? null; // prettier-ignore
}
