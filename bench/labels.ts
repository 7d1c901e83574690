import { readFileSync } from "node:fs";
import { join } from "node:path";
import { readLabel } from "../src/wire/index.ts";
import type { Row } from "./bench.ts";
import { timeWork } from "./time.ts";

/** A thousand labels as the trade writes them, exact ones, doubtful ones and nonsense alike. */
function thousandLabels(): readonly string[] {
  const text = readFileSync(join(import.meta.dirname, "..", "test", "fixtures", "wire-labels.csv"), "utf8");
  const labels = [...text.matchAll(/^"((?:[^"]|"")*)"/gm)].map(([, label = ""]) => label.replaceAll('""', '"'));
  return Array.from({ length: 1000 }, (_, at) => labels[at % labels.length] ?? "");
}

/** Reading labels, beside the least that any reader does: to split each into its words and numbers. */
export function labelRows(): Row[] {
  const labels = thousandLabels();
  let words = 0;
  const split = timeWork(() => {
    for (const label of labels) words += label.match(/[\p{L}]+|\d+(?:[.,]\d+)?|\S/gu)?.length ?? 0;
  }, 1000);
  if (words === 0) throw new Error("the labels of the fixture were not found");
  const read = timeWork(() => {
    for (const label of labels) readLabel(label);
  }, 1500);
  return [
    {
      // 20 ms for a thousand are fifty thousand a second.
      work: "1,000 labels read",
      ...read,
      goalMs: 20,
      beside: { what: "splitting them into words by one regular expression", ms: split.median },
    },
  ];
}
