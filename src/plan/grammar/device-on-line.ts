import { readQuantity } from "../../quantity/index.ts";
import type { Fact, Measure } from "../fact.ts";
import { readBreakerMarking } from "./breaker-marking.ts";
import { foldName, shown } from "./record.ts";
import { residualProblem } from "./residual-current.ts";
import type { ValueRule } from "./rule.ts";
import { scalarOf, sayProblem } from "./values.ts";

/**
 * A protective device as it is written in the line of its circuit: `10 A at BP`, `30 A class T fuse 0.12 m from B1`,
 * `15 A 2-pole at PNL`, `none`, `unknown`, `breaker` for one that is left to be chosen, or the name of a part that says more.
 */
export type DeviceOnLine =
  | { readonly is: "none" }
  /** One of this kind; which one is left to be chosen. */
  | { readonly is: "open"; readonly kind: "fuse" | "breaker" }
  | { readonly is: "part"; readonly part: string }
  | LineDevice;

/** A device with its figures. */
export interface LineDevice {
  readonly is: "device";
  readonly rating: Measure | "unknown";
  /** Where the words say which it is: `breaker 16 A`. */
  readonly kind?: "fuse" | "breaker";
  readonly poles?: number;
  /** Of one that also opens on leakage, `16 A 30 mA`: the residual current. */
  readonly residual?: Measure;
  /** Words between the figures: a family of devices. */
  readonly family?: string;
  /** The part whose end of the conductor it stands at. */
  readonly from?: string;
  /** Metres along the conductor from there; absent: right at it. */
  readonly distance?: Measure;
  /** All that is written is a marking, `C32`: where a part is called so, that part is meant. */
  readonly bare?: string;
}

export function deviceOnLine(): ValueRule<DeviceOnLine> {
  const says =
    "a device such as `10 A at BP`, `10 A 0.12 m from BP`, `C16`, `RCBO B32 30 mA`, `none`, `unknown` or a part's name";
  return {
    says,
    schema: { type: "string", description: says },
    takes: { form: "device" },
    read(node, reading): Fact<DeviceOnLine> | undefined {
      const scalar = scalarOf(node, says, reading);
      if (scalar === undefined) return undefined;
      const { span } = scalar;
      const text = scalar.text.trim();
      if (text.length > 200) {
        reading.say({
          id: "plan/text-too-long",
          level: "error",
          at: span,
          message: `expected ${says}, found a text of ${text.length} characters`,
          hint: "write the device alone; longer words go under `note`",
        });
        return undefined;
      }
      const folded = foldName(text);
      if (folded === "unknown") return { value: "unknown", span };
      if (folded === "none" || folded === "no") return { value: { is: "none" }, span };
      if (folded === "fuse" || folded === "breaker") return { value: { is: "open", kind: folded }, span };

      const { head, from } = cutPlace(text);
      const marking = readBreakerMarking(head);
      let rest = marking?.plain ?? head;
      let poles: number | undefined;
      const pole = /(?:^|\s)(\d)[ -]?poles?(?=\s|$)/i.exec(rest);
      if (pole !== null) {
        poles = Number(pole[1]);
        rest = `${rest.slice(0, pole.index)} ${rest.slice(pole.index + pole[0].length)}`;
      }
      let residual: Measure | undefined;
      const leak = /(?:^|\s)(\d[\d.,]*\s*mA)(?=\s|$)/i.exec(rest);
      const others = leak === null ? "" : `${rest.slice(0, leak.index)} ${rest.slice(leak.index + leak[0].length)}`;
      // One figure alone is the rating, however small.
      if (leak !== null && /(?:^|\s)(unknown|\d[\d.,]*\s*A(?:mps?|mperes?)?)(?=\s|$)/i.test(others)) {
        const figure = leak[1] ?? "";
        const read = readQuantity(figure, "current", { min: 0 });
        if (read.ok && read.amount.form !== "unknown") {
          const problem = residualProblem(read.amount, figure);
          if (problem !== null) {
            reading.say({ id: "plan/out-of-range", level: "error", at: span, ...problem });
            return undefined;
          }
          residual = { low: read.amount.low, high: read.amount.high, text: figure };
          rest = others;
        }
      }
      if (marking?.residual !== undefined && residual === undefined) {
        const figure = marking.residual;
        if (figure === "to be said") {
          reading.say({
            id: "plan/residual-current-missing",
            level: "error",
            at: span,
            message: `\`${shown(text)}\` opens on leakage, and does not say at which`,
            hint: "write the residual current behind the rating, as it stands on the device: `RCBO C16 30 mA`",
          });
        } else residual = { ...STANDARD[figure], text: figure };
      }
      if (marking?.isLeakageAlone === true)
        reading.say({
          id: "plan/no-overcurrent-device",
          level: "error",
          at: span,
          message: `\`${shown(text)}\` opens on leakage alone: it guards no wire against too much current`,
          hint: "write the breaker there, or `RCBO C16 30 mA`; an RCD ahead is a part of kind `RCD`, or the `main` of its board",
        });
      if (marking?.interrupt !== undefined)
        reading.say({
          id: "plan/interrupt-elsewhere",
          level: "hint",
          at: span,
          message: `\`${shown(marking.interrupt)}\` is not read in the line of a circuit`,
          hint: `write \`interrupt: ${shown(marking.interrupt)}\` on its board, or on the breaker as a part`,
        });
      // The figure with A, words of the family on either side of it, the distance behind.
      const amps = /(?:^|\s)(unknown|\d[\d.,…/\s-]*m?(?:A|amps?|amperes?))(?=\s|$)/i.exec(rest);
      if (amps === null) {
        const bare = /^\d[\d.,]*$/.exec(rest.trim());
        if (bare === null && from === undefined && poles === undefined) {
          return { value: { is: "part", part: text }, span };
        }
        const better = bare === null ? "10 A" : `${bare[0]} A`;
        reading.say({
          id: bare === null ? "plan/device-rating-missing" : "plan/unit-missing",
          level: "error",
          at: span,
          message:
            bare === null
              ? `the device \`${shown(text)}\` has no rating in A`
              : `the rating \`${bare[0]}\` of the device has no unit`,
          hint: from === undefined ? `write \`${better}\`` : `write \`${better} ${from.said} ${shown(from.part)}\``,
        });
        return undefined;
      }
      const figure = amps[1] ?? "";
      const rating = readQuantity(figure, "current", { min: 0 });
      if (!rating.ok) {
        for (const problem of rating.problems)
          sayProblem({ ...problem, at: [0, scalar.text.length] }, scalar, "error", reading);
        return undefined;
      }
      if (rating.amount.form !== "unknown" && rating.amount.low <= 0) {
        reading.say({
          id: "plan/out-of-range",
          level: "error",
          at: span,
          message: `a device of \`${shown(figure.trim())}\` carries nothing; expected a rating above 0`,
          hint: "write what stands on the device, `none` or `unknown`",
        });
        return undefined;
      }
      const before = rest.slice(0, amps.index).trim();
      rest = rest.slice(amps.index + amps[0].length).trim();
      let distance: Measure | undefined;
      const metres = from?.said === "from" ? /(?:^|\s)(\d.*)$/.exec(rest) : null;
      if (metres !== null) {
        const figures = (metres[1] ?? "").trim();
        const read = readQuantity(figures, "length", { min: 0 });
        if (!read.ok || read.amount.form === "unknown") {
          const problems = read.ok ? [] : read.problems;
          for (const problem of problems)
            sayProblem({ ...problem, at: [0, scalar.text.length] }, scalar, "error", reading);
          return undefined;
        }
        distance = { low: read.amount.low, high: read.amount.high, text: figures };
        rest = rest.slice(0, metres.index).trim();
      }
      const words = [before, rest].filter((w) => w !== "").join(" ");
      const kind = /(?:^|\s)(fuse|breaker)$/i.exec(words)?.[1]?.toLowerCase();
      rest = /^(fuse|breaker)$/i.test(words) ? "" : words;
      const value: DeviceOnLine = {
        is: "device",
        rating:
          rating.amount.form === "unknown" || marking?.isLeakageAlone === true
            ? "unknown"
            : { low: rating.amount.low, high: rating.amount.high, text: figure.trim() },
        ...(kind === "fuse" || kind === "breaker" ? { kind } : marking === null ? {} : { kind: "breaker" }),
        ...(poles === undefined ? {} : { poles }),
        ...(residual === undefined ? {} : { residual }),
        ...(rest === "" ? {} : { family: rest }),
        ...(from === undefined ? {} : { from: from.part }),
        ...(distance === undefined ? {} : { distance }),
        ...(marking?.isBare === true ? { bare: head.trim() } : {}),
      };
      return { value, span };
    },
  };
}

/** Residual currents of devices for which they are fixed, A. */
const STANDARD = { "5 mA": { low: 0.004, high: 0.006 }, "30 mA": { low: 0.03, high: 0.03 } } as const;

/** Takes `at BP` or `from BP` off the end. */
function cutPlace(text: string): { head: string; from?: { said: "at" | "from"; part: string } } {
  const place = /^(.*?)(?:^|\s)(at|from)\s+(\S.*)$/i.exec(text);
  if (place === null) return { head: text };
  const said = (place[2] ?? "").toLowerCase() === "at" ? "at" : "from";
  return { head: place[1] ?? "", from: { said, part: (place[3] ?? "").trim() } };
}
