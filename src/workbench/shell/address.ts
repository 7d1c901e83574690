import type { BenchState, ViewId } from "../contract.ts";

/** What of the page its address holds: build, sheet, selection, state. */
export interface Address {
  readonly build: string | null;
  readonly view: ViewId | null;
  readonly selection: string | null;
  readonly operatingState: string | null;
}

const views: readonly ViewId[] = ["start", "one-line", "schedules", "findings", "why", "text", "wire-desk"];

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

export const addressOf = ({ open, view, selection, operatingState, buildId }: BenchState): Address => ({
  build: open ? buildId : null,
  view,
  selection: open ? selection : null,
  operatingState: open ? operatingState : null,
});
