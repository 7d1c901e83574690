/**
 * A change in words: `14 % more area`, `8 % less resistance`, `the same area`.
 *
 * @param change as a share of what there was
 * @example
 * percentSays(0.19, "area") //=> "19 % more area"
 * percentSays(-0.004, "resistance") //=> "0.4 % less resistance"
 * percentSays(0.0001, "area") //=> "the same area"
 */
export function percentSays(change: number, of: string): string {
  const percent = Math.abs(change) * 100;
  if (percent < 0.05) return `the same ${of}`;
  const figures = percent < 0.95 ? percent.toFixed(1) : percent.toFixed(0);
  return `${figures} % ${change > 0 ? "more" : "less"} ${of}`;
}
