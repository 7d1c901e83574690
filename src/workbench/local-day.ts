/** Today by the reader's own calendar, as `2026-05-04`; by that of Greenwich it may be another day. */
export function localDay(now = new Date()): string {
  const two = (n: number): string => String(n).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
