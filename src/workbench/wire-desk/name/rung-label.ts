/** How a size of each system of the ladder is written so that it reads as that alone. */
const written: Readonly<Record<string, (name: string) => string>> = {
  "mm²": (name) => `${name} mm²`,
  // The gauge ends at 40; greater numbers are thousands of circular mils.
  AWG: (name) => `${name} ${Number(name) > 40 ? "kcmil" : "AWG"}`,
  SAE: (name) => `${name} SAE`,
  SWG: (name) => `${name} SWG`,
  JIS: (name) => `${name} SQ`,
  "vehicle diameter": (name) => `${name} mm auto cable`,
};

/**
 * The label of a rung of the size ladder.
 *
 * @param rung system and name, as the drawing calls it
 * @returns null: there is no such system
 * @example
 * rungLabel("AWG/2/0") //=> "2/0 AWG"
 * rungLabel("AWG/250") //=> "250 kcmil"
 * rungLabel("vehicle diameter/6") //=> "6 mm auto cable"
 */
export function rungLabel(rung: string): string | null {
  const cut = rung.indexOf("/");
  return written[rung.slice(0, cut)]?.(rung.slice(cut + 1)) ?? null;
}
