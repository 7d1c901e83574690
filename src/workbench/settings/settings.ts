import type { Units } from "../contract.ts";
import { recall, remember } from "./small-memory.ts";

/** How the page looks, sounds and prints for this person; nothing of it stands in a plan. */
export interface Settings {
  readonly units: Units;
  readonly theme: "light" | "dark" | "system";
  /** Ink and shapes only, thicker lines. */
  readonly contrast: "usual" | "more";
  /** Whether single letters act on the drawing and in the margin. */
  readonly singleKeys: boolean;
  /** How much a reader hears of a thing. */
  readonly spoken: "names" | "brief" | "full";
}

/** What each setting can be, the usual first. */
export const choices = {
  lengths: ["m", "ft"],
  sizes: ["mm²", "AWG", "both"],
  temperatures: ["°C", "°F"],
  decimal: [".", ","],
  theme: ["system", "light", "dark"],
  contrast: ["usual", "more"],
  spoken: ["brief", "names", "full"],
} as const;

/** Countries that measure wire by gauge and runs by the foot. */
const BY_THE_FOOT = ["US"];

/** Asks the browser how numbers are written here. */
function decimalOf(language: string): Units["decimal"] {
  try {
    return new Intl.NumberFormat(language).format(1.5).includes(",") ? "," : ".";
  } catch {
    return "."; // no such language
  }
}

/**
 * What holds before anybody has said otherwise.
 *
 * @param language as the browser names it: `en-US`, `de`
 */
export function usualSettings(language: string): Settings {
  const american = BY_THE_FOOT.includes(/-([A-Z]{2})\b/.exec(language)?.[1] ?? "");
  return {
    units: {
      lengths: american ? "ft" : "m",
      sizes: american ? "AWG" : "both",
      temperatures: american ? "°F" : "°C",
      decimal: decimalOf(language),
    },
    theme: "system",
    contrast: "usual",
    singleKeys: true,
    spoken: "brief",
  };
}

/**
 * Settings out of a text that was remembered. Whatever is not understood stays as is usual.
 *
 * @param text null: nothing was remembered
 */
export function settingsOf(text: string | null, usual: Settings): Settings {
  const given = fieldsOf(text);
  const units = fieldsOf(given["units"]);
  const pick = <T extends string>(value: unknown, all: readonly T[], or: T): T => all.find((v) => v === value) ?? or;
  return {
    units: {
      lengths: pick(units["lengths"], choices.lengths, usual.units.lengths),
      sizes: pick(units["sizes"], choices.sizes, usual.units.sizes),
      temperatures: pick(units["temperatures"], choices.temperatures, usual.units.temperatures),
      decimal: pick(units["decimal"], choices.decimal, usual.units.decimal),
    },
    theme: pick(given["theme"], choices.theme, usual.theme),
    contrast: pick(given["contrast"], choices.contrast, usual.contrast),
    singleKeys: typeof given["singleKeys"] === "boolean" ? given["singleKeys"] : usual.singleKeys,
    spoken: pick(given["spoken"], choices.spoken, usual.spoken),
  };
}

function fieldsOf(value: unknown): Readonly<Record<string, unknown>> {
  if (typeof value === "string") {
    try {
      return fieldsOf(JSON.parse(value));
    } catch {
      return {};
    }
  }
  return typeof value === "object" && value !== null ? Object.fromEntries(Object.entries(value)) : {};
}

/** The settings of this person. */
export const readSettings = (): Settings =>
  settingsOf(recall("settings"), usualSettings(globalThis.navigator?.language ?? ""));

/** @returns whether they outlive the page */
export const keepSettings = (settings: Settings): boolean => remember("settings", JSON.stringify(settings));

/** Puts what concerns the look on the page; units are told to the bench. */
export function showSettings({ theme, contrast }: Settings): void {
  const { dataset } = document.documentElement;
  if (theme === "system") delete dataset["theme"];
  else dataset["theme"] = theme;
  if (contrast === "usual") delete dataset["contrast"];
  else dataset["contrast"] = contrast;
}
