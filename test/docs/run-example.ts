import { transformSync } from "esbuild";
import ts from "typescript";

/** Names that code may use without importing them. */
export type Scope = Readonly<Record<string, unknown>>;

/**
 * Runs a piece of code and compares every `//=>` with the value of the expression before it.
 *
 * @returns what does not hold, one line for each; empty when all is as it is shown
 */
export async function runExample(code: string, scope: Scope): Promise<string[]> {
  const source = ts.createSourceFile("example.ts", code, ts.ScriptTarget.ES2023, true);
  const shown = [...code.matchAll(/\/\/=>\s*(.*)$/gm)];
  if (shown.length === 0) return ["nothing is shown: no `//=>`"];

  // The expression of each statement that a `//=>` follows is handed to `check` beside what is shown.
  const edits: { start: number; end: number; text: string }[] = [];
  const wrong: string[] = [];
  const expected: string[] = [];
  for (const { index, 1: text = "" } of shown) {
    const before = source.statements.filter((s) => s.getEnd() <= index).at(-1);
    if (before === undefined || !ts.isExpressionStatement(before)) {
      wrong.push(`\`//=> ${text}\` follows no expression`);
      continue;
    }
    const { expression } = before;
    const at = expected.push(text) - 1;
    edits.push({
      start: before.getStart(),
      end: before.getEnd(),
      text: `await check(${at}, async () => (${expression.getText()}));`,
    });
  }
  for (const s of source.statements)
    if (ts.isImportDeclaration(s)) edits.push({ start: s.getStart(), end: s.getEnd(), text: "" });
  let changed = code;
  for (const { start, end, text } of edits.sort((a, b) => b.start - a.start)) {
    changed = changed.slice(0, start) + text + changed.slice(end);
  }

  const check = async (at: number, value: () => Promise<unknown>): Promise<void> => {
    const text = expected[at] ?? "";
    try {
      const found = await value();
      if (!isShownAs(found, text)) wrong.push(`shown ${text}, found ${print(found)}`);
    } catch (error) {
      wrong.push(`shown ${text}, thrown ${String(error)}`);
    }
  };
  try {
    const script = transformSync(`async function run() {${changed}\n}`, { loader: "ts", target: "es2022" }).code;
    // eslint-disable-next-line @typescript-eslint/no-implied-eval -- to run the project's own examples is what this is for
    const make = new Function("check", ...Object.keys(scope), `${script}; return run;`) as (
      ...given: unknown[]
    ) => () => Promise<void>; // the text above is such a function
    await make(check, ...Object.values(scope))();
  } catch (error) {
    wrong.push(String(error).split("\n").slice(0, 3).join(" "));
  }
  return wrong;
}

const print = (value: unknown): string => (value === undefined ? "undefined" : JSON.stringify(value));

/** Whether a value is what a piece of text shows: numbers to the digits shown, everything else exactly. */
export function isShownAs(value: unknown, text: string): boolean {
  const source = ts.createSourceFile("shown.ts", `(${text})`, ts.ScriptTarget.ES2023, true);
  const [statement] = source.statements;
  if (statement === undefined || source.statements.length !== 1 || !ts.isExpressionStatement(statement)) return false;
  return agrees(value, statement.expression);
}

function agrees(value: unknown, shown: ts.Expression): boolean {
  if (ts.isParenthesizedExpression(shown)) return agrees(value, shown.expression);
  if (ts.isNumericLiteral(shown)) return typeof value === "number" && toDigits(value, shown.getText());
  if (ts.isPrefixUnaryExpression(shown) && shown.operator === ts.SyntaxKind.MinusToken) {
    return typeof value === "number" && agrees(-value, shown.operand);
  }
  if (ts.isStringLiteralLike(shown)) return value === shown.text;
  if (ts.isIdentifier(shown)) {
    const words: Record<string, unknown> = { undefined, NaN, Infinity };
    return Object.hasOwn(words, shown.text) && Object.is(value, words[shown.text]);
  }
  if (ts.isArrayLiteralExpression(shown)) {
    const items =
      typeof value === "object" && value !== null && Symbol.iterator in value
        ? [...(value as Iterable<unknown>)]
        : null; // typed arrays too
    return (
      items !== null && items.length === shown.elements.length && shown.elements.every((e, i) => agrees(items[i], e))
    );
  }
  if (ts.isObjectLiteralExpression(shown)) {
    if (typeof value !== "object" || value === null) return false;
    const given = new Map(Object.entries(value));
    return (
      given.size === shown.properties.length &&
      shown.properties.every((p) => {
        if (!ts.isPropertyAssignment(p)) return false;
        const name = ts.isStringLiteral(p.name) ? p.name.text : p.name.getText();
        return given.has(name) && agrees(given.get(name), p.initializer);
      })
    );
  }
  switch (shown.kind) {
    case ts.SyntaxKind.TrueKeyword:
      return value === true;
    case ts.SyntaxKind.FalseKeyword:
      return value === false;
    case ts.SyntaxKind.NullKeyword:
      return value === null;
    default:
      return false;
  }
}

/** Half a unit of the last digit shown; a whole number is meant to be exact but for the last bits. */
function toDigits(value: number, written: string): boolean {
  const figures = written.replaceAll("_", "");
  const expected = Number(figures);
  const [mantissa = "", exponent = "0"] = figures.toLowerCase().split("e");
  const decimals = mantissa.includes(".") ? mantissa.length - mantissa.indexOf(".") - 1 : 0;
  const tolerance =
    decimals === 0 && exponent === "0"
      ? 1e-9 * Math.max(1, Math.abs(expected))
      : 0.5 * 10 ** (Number(exponent) - decimals) * (1 + 1e-9);
  return Math.abs(value - expected) <= tolerance;
}
