import { findRuleSet, isoSmallCraft, usSmallCraft } from "../../ruleset/index.ts";
import type { Move } from "../case.ts";
import { namesIn, put, textOf } from "../write.ts";

/** The edition of the set that is named; else a set that another supply names; else those whose numbers are carried, that of the stock's sizes first. */
export const nameRuleSet: Move = ({ finding, build, document }) => {
  const id = finding.about.replace(/^systems\./, "");
  const path = ["rules", id];
  const found = findRuleSet(textOf(document, path) ?? "");
  if (found.found && !found.editionNamed) {
    return [[{ edits: [put(document, path, `${found.set.id} ${found.edition.name}`)] }]];
  }
  const named = namesIn(document, ["rules"]).flatMap((key) => {
    const text = textOf(document, ["rules", key]) ?? "";
    return findRuleSet(text).found ? [text] : [];
  });
  const carried = [isoSmallCraft, usSmallCraft].map((set) => `${set.id} ${set.editions[0]?.name ?? ""}`.trim());
  const own = build.system.stock.system === "mm²" ? carried : carried.reverse();
  const texts = [...new Set(named.length > 0 ? named : own)];
  return texts.map((text) => [{ edits: [put(document, path, text)] }]);
};
