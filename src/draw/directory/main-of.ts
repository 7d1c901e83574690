import type { System } from "../../system/index.ts";
import { cleanText } from "../clean-text.ts";
import { residualText } from "./residual-text.ts";

/** What of a main device a plan may write: a device in words, or a record of facts. */
interface Written {
  readonly is?: string;
  readonly rating?: { readonly text: string } | "unknown";
  readonly kind?: string | { readonly value: string };
  readonly poles?: number | { readonly value: number | "unknown" };
  readonly rated?: { readonly value: { readonly text: string } | "unknown" };
}

/**
 * The main device of a board in words: `breaker 30 A, opens 2 poles`.
 *
 * @param written value of `main`
 * @param inside elements of the board, which say what it opens
 * @returns null: the plan states none
 * @example
 * mainOf("ACP", { is: "device", rating: { text: "30 A" }, kind: "breaker", poles: 2 }, []) //=> "breaker 30 A, opens 2 poles"
 * mainOf("ACP", undefined, []) //=> null
 */
export function mainOf(part: string, written: unknown, inside: System["elements"]): string | null {
  if (written === undefined || written === null) return null;
  if (written === "unknown") return "not known";
  if (typeof written !== "object") return null;
  const { is, rating, rated, kind, poles: given } = written as Written; // as the rule of `main` reads it
  if (is === "none") return "none";
  const contacts = inside.filter((e) => e.is === "contact" && e.mover === `${part}:main`);
  const residual = residualText({ elements: inside }, new Set(contacts.map(({ id }) => id)));
  const ratedAs = rating ?? rated?.value;
  const stated = typeof given === "object" ? given.value : given;
  const poles = (count: number): string => `${count} ${count === 1 ? "pole" : "poles"}`;
  const called = typeof kind === "string" ? kind : (kind?.value ?? (residual === "" ? "main device" : "residual device")); // prettier-ignore
  const size = ratedAs === undefined ? "" : ratedAs === "unknown" ? "rating not known" : ratedAs.text;
  const words = [called, size, residual].filter((text) => text !== "").join(" ");
  const says =
    typeof stated === "number"
      ? `, opens ${poles(stated)}`
      : contacts.length === 0
        ? ""
        : `, taken to open ${poles(contacts.length)}, which the plan does not say`;
  return cleanText(`${words}${says}`);
}
