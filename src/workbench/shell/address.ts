import type { BenchState, ViewId } from "../contract.ts";

/** What of the page its address holds: build, sheet, selection, state. */
export interface Address {
  readonly build: string | null;
  readonly view: ViewId | null;
  readonly selection: string | null;
  readonly operatingState: string | null;
}

const views: readonly ViewId[] = [
  "start",
  "one-line",
  "states",
  "schedules",
  "faults",
  "findings",
  "why",
  "text",
  "wire-desk",
];

/**
 * @example
 * writeAddress({ build: "b1", view: "one-line", selection: "circuits.W13", operatingState: "at anchor" }) //=> "#one-line?build=b1&at=circuits.W13&state=at+anchor"
 */
export function writeAddress({ build, view, selection, operatingState }: Address): string {
  const query = new URLSearchParams();
  if (build !== null) query.set("build", build);
  if (selection !== null) query.set("at", selection);
  if (operatingState !== null) query.set("state", operatingState);
  const text = query.toString();
  return `#${view ?? "start"}${text === "" ? "" : `?${text}`}`;
}

/** Reads what stands behind `#`; what it does not know it leaves out. */
export function readAddress(hash: string): Address {
  const [name = "", query = ""] = hash.replace(/^#/, "").split("?");
  const params = new URLSearchParams(query);
  return {
    build: params.get("build"),
    view: views.find((view) => view === name) ?? null,
    selection: params.get("at"),
    operatingState: params.get("state"),
  };
}

/** Of a place; whatever else stands in an address a view has put there. */
const PLACE = ["build", "at", "state"] as const;

/**
 * The address after a change of place: what a view has put there of its own stays while the same view is shown.
 *
 * @param now the hash as it is
 * @example
 * moveAddress("#wire-desk?label=12%2F3", { build: "b1", view: "wire-desk", selection: null, operatingState: null }) //=> "#wire-desk?build=b1&label=12%2F3"
 * moveAddress("#wire-desk?label=12%2F3", { build: "b1", view: "findings", selection: null, operatingState: null }) //=> "#findings?build=b1"
 */
export function moveAddress(now: string, to: Address): string {
  const moved = writeAddress(to);
  if (readAddress(now).view !== to.view) return moved;
  const own = new URLSearchParams(now.split("?")[1] ?? "");
  for (const name of PLACE) own.delete(name);
  const text = own.toString();
  return text === "" ? moved : `${moved}${moved.includes("?") ? "&" : "?"}${text}`;
}

export const addressOf = ({ open, view, selection, operatingState, buildId }: BenchState): Address => ({
  build: open ? buildId : null,
  view,
  selection: open ? selection : null,
  operatingState: open ? operatingState : null,
});
