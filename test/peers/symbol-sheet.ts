import type { Item, Point, Scene, Shape } from "../../src/draw/scene.ts";
import { findSymbol, placeSymbol, symbolNames } from "../../src/draw/symbols.ts";

export const CELL = 35;
const ACROSS = 12;

/** A sheet with every symbol in every turn, one a cell, and its name below. */
export function drawSymbolSheet(): Scene {
  const items: Item[] = [];
  const arts = symbolNames().flatMap(([key, variant]) => {
    const art = findSymbol(key, variant === "both" ? "iec" : variant);
    return art === null ? [] : ([0, 90, 180, 270] as const).map((turn) => ({ art, variant, turn }));
  });
  arts.forEach(({ art, variant, turn }, i) => {
    const at: Point = [CELL * (i % ACROSS) + 16, CELL * Math.floor(i / ACROSS) + 16];
    const name = `${art.key} ${variant} ${turn}`;
    const caption: Shape = {
      is: "text",
      at: [at[0], at[1] + 18],
      text: name,
      capMm: 1.8,
      weight: "regular",
      anchor: "middle",
      ink: "ink2",
    };
    items.push({ role: "symbol", about: null, name, shapes: placeSymbol(art, at, turn).shapes });
    items.push({ role: "caption", about: null, name: "", shapes: [caption] });
  });
  return {
    width: CELL * ACROSS,
    height: CELL * Math.ceil(arts.length / ACROSS),
    title: "Symbols",
    says: "Every symbol in every turn.",
    items,
  };
}
