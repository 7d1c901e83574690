import { lineStartsOf, positionAt } from "../../src/plan/text/index.ts";
import type { Diagnostic } from "../../src/diagnostic.ts";

/** What a plan is expected to be told, and the plan without the comments that say so. */
export interface Expectation {
  readonly text: string;
  /** `12 error plan/unit-missing`: line, level, id; line 0 for a message about what is absent. In the order of the text. */
  readonly lines: readonly string[];
}

const COMMENT = /[ \t]*#!(.*)$/;

/**
 * Takes the expected messages out of a plan. They stand as comments on the line that they point at, several after one another with
 * semicolons: `W1: { path: A }   #! error plan/path-too-short; error plan/key-unknown`. `#! nowhere warning system/no-supply` expects a
 * message without a place.
 */
export function readExpectation(source: string): Expectation {
  const lines: string[] = [];
  const text = source.split("\n").map((line, i) => {
    const said = COMMENT.exec(line);
    for (const one of said?.[1]?.split(";") ?? []) {
      const words = one.trim().split(/\s+/);
      lines.push(words[0] === "nowhere" ? `0 ${words.slice(1).join(" ")}` : `${i + 1} ${words.join(" ")}`);
    }
    return line.replace(COMMENT, "");
  });
  return { text: text.join("\n"), lines: lines.sort(byLine) };
}

/** What a plan was told, in the same form; notes about what is read and not used yet are left out. */
export function toldLines(text: string, diagnostics: readonly Diagnostic[]): string[] {
  const starts = lineStartsOf(text);
  return diagnostics
    .filter((d) => d.id !== "plan/not-used-yet")
    .map((d) => {
      const [at] = d.at;
      return `${at === undefined ? 0 : positionAt(text, at[0], starts).line} ${d.level} ${d.id}`;
    })
    .sort(byLine);
}

const byLine = (a: string, b: string): number => parseInt(a, 10) - parseInt(b, 10) || (a < b ? -1 : a > b ? 1 : 0);
