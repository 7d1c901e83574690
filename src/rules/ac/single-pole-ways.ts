import type { Contact } from "../../system/index.ts";
import type { Build } from "../build.ts";

const fnOf = (terminal: string): string => terminal.slice(terminal.lastIndexOf(":") + 1);

/** Branches whose device opens their line and leaves neutral whole, by the mover of the device. */
export function singlePoleWays({ system }: Build): readonly string[] {
  const byMover = new Map<string, Set<string>>();
  for (const e of system.elements) {
    if (e.is !== "contact" || !isBranch(e)) continue;
    const fns = byMover.get(e.mover ?? e.part) ?? new Set<string>();
    byMover.set(e.mover ?? e.part, fns.add(fnOf(e.b)).add(fnOf(e.a)));
  }
  const wired = new Set(
    system.circuits.flatMap((c) =>
      c.current === "AC" && c.conductors.some((w) => w.fn === "N") ? c.conductors.flatMap((w) => [w.from, w.to]) : [],
    ),
  );
  const isUsed = (mover: string): boolean =>
    system.elements.some(
      (e) => e.is === "contact" && (e.mover ?? e.part) === mover && (wired.has(e.b) || wired.has(e.a)),
    );
  return [...byMover].flatMap(([mover, fns]) =>
    [...fns].some((fn) => fn.startsWith("L")) && !fns.has("N") && isUsed(mover) ? [mover] : [],
  );
}

/** A device in a way of a board, or a breaker in the line of a circuit. */
const isBranch = ({ way, mover, closedIn }: Contact): boolean =>
  (way !== undefined || /:breaker(:to)?$/.test(mover ?? "")) && closedIn?.includes("on") === true;
