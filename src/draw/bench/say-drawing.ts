import { cleanText } from "../clean-text.ts";
import { gravityOf, isUnjudged, unjudgedIn } from "../one-line/drawn-finding.ts";
import type { OneLineBuild } from "../one-line/index.ts";
import { viewParts } from "../one-line/part-view.ts";
import { readState } from "./read-state.ts";

/**
 * What a reader hears of the whole one-line before its things: its sources and bars by name, how many circuits, how they stand.
 *
 * @param state operating state; null: none
 */
export function sayDrawing({ plan, system, design, findings }: OneLineBuild, state: string | null = null): string {
  const views = [...viewParts(plan, system, "unknown").values()];
  const shown = readState(system, design, state);
  const named = (is: readonly string[]): string[] =>
    views.filter((v) => is.includes(v.is) && !v.structure).map((v) => v.label);
  const list = (one: string, names: readonly string[]): string =>
    names.length === 0 ? `no ${one}` : `${names.length} ${names.length === 1 ? one : `${one}s`}: ${listed(names)}`;
  const gravities = findings.filter((finding) => !isUnjudged(finding)).map(gravityOf);
  const count = (gravity: string): number => gravities.filter((g) => g === gravity).length;
  const tally = [
    `${count("fail")} fail`,
    `${count("warn")} should be mended`,
    `${count("note")} ${count("note") === 1 ? "note" : "notes"}`,
    `${count("unknown")} cannot be told`,
  ].join(", ");
  const circuits = system.circuits.length;
  const on = shown === null ? 0 : system.circuits.filter(({ id }) => shown.live.has(`circuits.${id}`)).length;
  return [
    `One-line of ${cleanText(plan.name === "" ? "an unnamed build" : plan.name)}${shown === null ? ", contacts at rest" : `, ${cleanText(shown.id)}`}.`,
    `${capital(list("source", named(["source", "store"])))}.`,
    `${capital(list("bar", named(["bar", "panel"])))}.`,
    `${circuits} ${circuits === 1 ? "circuit" : "circuits"}${shown === null ? "" : `, ${on} on`}.`,
    `${tally}.`,
    ...unjudgedIn(findings),
  ].join(" ");
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** So many names are said; of more the rest is counted. */
const MOST = 6;

const listed = (names: readonly string[]): string =>
  names.length <= MOST ? names.join(", ") : `${names.slice(0, MOST).join(", ")} and ${names.length - MOST} more`;
