import type { Diagnostic } from "../diagnostic.ts";
import { known, placed, shown, type Named, type Plan } from "../plan/index.ts";
import { compareSizes, readLabel, sizeOfPrint, stockedSizes, type WireSize } from "../wire/index.ts";
import type { Ledger } from "./fact-reader.ts";
import type { Stock } from "./system.ts";

/** How much more copper than the least a choice of fewer sizes may take, where the plan does not say. Practice. */
const COPPER_TO_SPARE = 0.1;

/** What is bought, and what the choice of sizes aims at. */
export function resolveStock(plan: Plan, ledger: Ledger, say: (d: Diagnostic) => void): Stock {
  const { stock } = plan;
  const read = ledger.readerFor("stock");
  const system = known(stock.sizes);
  if (system === undefined) {
    read.assume({ id: "stock-sizes", value: 0, says: "wire is bought in mm²", trust: "practice", pin: "stock: sizes" });
  }
  const kept = (known(stock["sizes kept"]) ?? []).flatMap((f) => (f.value === "unknown" ? [] : [f.value]));
  const sizes = [...new Map(kept.map((s) => [s.label, s])).values()].sort(compareSizes);
  const least = known(stock["least size"]);
  const shelf = sizes.length > 0 ? sizes : stockedSizes(system ?? "mm²");
  const prices = pricesOf(plan, shelf, say);
  const asked = known(stock.choose) ?? "least copper";
  const missing = prices.flatMap((p, k) => (Number.isNaN(p) ? [shelf[k]?.label ?? ""] : []));
  const choose = asked === "least cost" && missing.length > 0 ? "least copper" : asked;
  if (asked !== choose && stock.choose !== undefined) {
    const none = missing.length === shelf.length;
    const named = missing.length > 5 ? [...missing.slice(0, 4), `${missing.length - 4} more`] : missing;
    say({
      id: "system/prices-missing",
      level: "warning",
      at: [placed(plan.stockBase, (stock["price per metre"] ?? stock.choose).span)],
      about: "stock.choose",
      message: `least cost needs a price for every size on the shelf; ${none ? "none is given" : `that of ${named.join(", ")} is missing`}, so the least copper is chosen`,
      hint: none
        ? `write \`price per metre: { ${shelf[0]?.label ?? "2.5 mm²"}: 1.00, … }\``
        : "add these prices, or list under `sizes kept` the sizes that have one",
      data: { missing },
    });
  }
  const ofPlan = known(stock["copper to spare"]);
  const spare =
    choose !== "fewest sizes"
      ? 0
      : (ofPlan?.high ??
        read.assume({
          id: "copper-to-spare",
          value: COPPER_TO_SPARE,
          says: `fewer sizes may take ${100 * COPPER_TO_SPARE} % more copper than the least`,
          trust: "practice",
          pin: "stock: copper to spare",
        }).high);
  return {
    system: system ?? "mm²",
    sizes,
    ...(least === undefined ? {} : { leastSize: least }),
    choose,
    spare,
    prices: choose === "least cost" ? prices : null,
  };
}

/** By size on the shelf; NaN where the plan gives none. */
function pricesOf(plan: Plan, shelf: readonly WireSize[], say: (d: Diagnostic) => void): number[] {
  const found = new Array<number>(shelf.length).fill(Number.NaN);
  const fact = plan.stock["price per metre"];
  for (const price of known(fact) ?? []) {
    const at = shelf.findIndex((s) => isNamed(s, price));
    if (at >= 0) {
      if (price.value !== "unknown") found[at] = price.value;
      continue;
    }
    say({
      id: "system/price-of-no-size",
      level: "hint",
      at: [placed(plan.stockBase, price.nameSpan)],
      about: "stock.price per metre",
      message: `\`${shown(price.name)}\` is no size on the shelf; its price is not used`,
      hint: "write the size as the shelf has it, such as `2.5 mm²` or `10 AWG`",
    });
  }
  return found;
}

const plain = (text: string): string => text.toLowerCase().replace(/\s+/g, "").replace("mm2", "mm²");

function isNamed(size: WireSize, { name }: Named<number>): boolean {
  if (plain(size.label) === plain(name)) return true;
  const label = readLabel(name);
  const printed = label.readings.length === 1 ? label.readings[0]?.make.size : undefined;
  return printed !== undefined && printed !== null && sizeOfPrint(printed)?.label === size.label;
}
