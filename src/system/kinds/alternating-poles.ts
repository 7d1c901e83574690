import type { Mover } from "../element.ts";
import type { Fn } from "../terminal.ts";

/** Volts between a line and neutral where the supply has both, else those between its lines. */
export function lineVolts(nominal: number, cores: readonly Fn[]): number {
  const lines = linesOf(cores).length;
  if (!cores.includes("N")) return nominal;
  return lines === 2 ? nominal / 2 : lines === 3 ? nominal / Math.sqrt(3) : nominal;
}

export const linesOf = (cores: readonly Fn[]): Fn[] => cores.filter((c) => c !== "N" && c !== "PE");

/** Lines first, neutral after them: the order in which a device of few poles takes them up. */
export const livesOf = (cores: readonly Fn[]): Fn[] => [...linesOf(cores), ...cores.filter((c) => c === "N")];

/** A terminal for each core of a port. */
export const terminalsOf = (
  port: string,
  cores: readonly Fn[],
  t: (port: string, fn: Fn) => string,
): Partial<Record<Fn, string>> => Object.fromEntries(cores.map((fn) => [fn, t(port, fn)]));

/** What a hand or something outside sets; the first position is the dead one. */
export const mover = (id: string, part: string, positions: readonly string[], by: Mover["by"]): Mover => ({
  is: "mover",
  id,
  part,
  positions,
  by,
});
