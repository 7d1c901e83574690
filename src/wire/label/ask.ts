import type { WireReading } from "./label-reading.ts";

/** The words in which readings differ, for a choice. */
const short = ({ make, says }: WireReading, what: "family" | "size" | "all"): string => {
  if (what === "family" && make.family !== null) {
    const total = make.cores === null ? "" : ` (${make.cores.total} conductors in all)`;
    return `${make.family}${total}`;
  }
  if (what === "size") return make.size?.label ?? `${make.outsideMm ?? 0} mm over everything`;
  return says;
};

const differ = (readings: readonly WireReading[], of: (reading: WireReading) => unknown): boolean =>
  new Set(readings.map((reading) => JSON.stringify(of(reading)))).size > 1;

const choice = (words: readonly string[]): string =>
  words.length === 1 ? (words[0] ?? "") : `${words.slice(0, -1).join(", ")} or ${words.at(-1) ?? ""}`;

/**
 * What to ask or to look at, so that one of several readings is left: one sentence.
 *
 * @param readings two and more
 */
export function ask(readings: readonly WireReading[]): string {
  const families = differ(readings, ({ make }) => make.family);
  const sizes = differ(readings, ({ make }) => make.size);
  const cores = differ(readings, ({ make }) => [make.cores, make.runs]);
  const list = (what: "family" | "size" | "all"): string =>
    choice([...new Set(readings.map((reading) => short(reading, what)))]);
  if (families && !sizes) return `Which kind of cable is it by the letters on its jacket: ${list("family")}?`;
  if (sizes && !cores && !families) return `Which size is meant by the print or the data sheet: ${list("size")}?`;
  return `Which is meant: ${list("all")}?`;
}
