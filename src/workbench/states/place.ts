import type { Bench } from "../contract.ts";

/** Where all that moves stands, by its id. */
export type Places = Readonly<Record<string, string>>;

/** Told to the view when a position is chosen from elsewhere. */
export const PLACES_EVENT = "bench-state-places";

/** Positions that the address names. */
export function readAddressed(): Places {
  const [, query = ""] = location.hash.split("?");
  return readPlaces(new URLSearchParams(query).getAll("set"));
}

/** @param written `INL=in` */
export const readPlaces = (written: readonly string[]): Places =>
  Object.fromEntries(
    written.flatMap((text) => {
      const at = text.lastIndexOf("=");
      return at < 1 ? [] : [[text.slice(0, at), text.slice(at + 1)] as const];
    }),
  );

/** Puts positions into the address, which stay there while the view is shown: `INL=in`. */
export function writeAddressed(places: readonly string[]): void {
  const [view = "", query = ""] = location.hash.split("?");
  const params = new URLSearchParams(query);
  params.delete("set");
  for (const place of places) params.append("set", place);
  const text = params.toString();
  history.replaceState(null, "", `${view}${text === "" ? "" : `?${text}`}`);
}

/** Shows what holds in a position. */
export function openPlaces(bench: Bench, places: Places): void {
  bench.go("states");
  writeAddressed(Object.entries(places).map(([mover, at]) => `${mover}=${at}`));
  dispatchEvent(new Event(PLACES_EVENT));
}
