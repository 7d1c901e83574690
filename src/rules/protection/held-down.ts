import type { Build } from "../build.ts";
import { figure, type Figure } from "../figure.ts";
import type { Guard } from "./guards.ts";

/** Words for the load whose maker allows no larger device than one that was chosen; null: none was held down. */
export function heldDownTo(
  build: Build,
  guards: readonly Guard[],
): { readonly load: string; readonly most: Figure } | null {
  const heldTo = guards.find((g) => g.placed?.heldTo !== undefined)?.placed?.heldTo;
  if (heldTo === undefined) return null;
  return { load: build.part(heldTo.part)?.subject.name ?? heldTo.part, most: figure(heldTo.amps, "A") };
}
