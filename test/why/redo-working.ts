import type { WorkedStep } from "../../src/why/index.ts";

/** Figures that a working is printed to. */
const FIGURES = 4;

const units: Readonly<Record<string, number>> = {
  "Ω·mm²/km": 1e-3,
  "Ω·mm²/m": 1,
  "mm²·m": 1,
  "A·√s/mm²": 1,
  "A²s": 1,
  "mΩ/m": 1e-3,
  "Ω/km": 1e-3,
  "Ω/kft": 1,
  "Ω/m": 1,
  mΩ: 1e-3,
  "mm²": 1,
  "°C": 1,
  Ω: 1,
  A: 1,
  V: 1,
  W: 1,
  Hz: 1,
  m: 1,
  s: 1,
  "%": 1,
};

interface Token {
  readonly sign: string;
  /** Index of a number in the list of numbers; −1 for a sign. */
  readonly number: number;
}

/** A sum done again from what is printed alone, and how far rounding of the printed numbers can have moved it. */
export interface Redone {
  readonly value: number;
  readonly slack: number;
}

/**
 * Does the sum of a step again from its printed text. Each printed number may be off by half a unit of its fourth figure; those that stand in the
 * equation itself are exact.
 *
 * @throws Error where the text is no sum
 */
export function redoWorking({ working, equation }: Pick<WorkedStep, "working" | "equation">): Redone {
  const { tokens, numbers, isExact } = tokenise(working, constantsOf(equation));
  const value = evaluate(tokens, numbers);
  let slack = 1e-9 * Math.abs(value);
  numbers.forEach((x, i) => {
    if (isExact[i] === true) return;
    const half = halfUnit(x);
    const moved = [-half, half].map((d) => Math.abs(evaluate(tokens, replaced(numbers, i, x + d)) - value));
    slack += Math.max(...moved);
  });
  return { value, slack };
}

/** Half a unit of the last figure that is printed of a number. */
export const halfUnit = (x: number): number =>
  x === 0 ? 0 : 0.5 * 10 ** (Math.floor(Math.log10(Math.abs(x)) + 1e-12) - (FIGURES - 1));

const replaced = (list: readonly number[], i: number, x: number): number[] => list.map((y, k) => (k === i ? x : y));

/** Bare numbers of an equation; those that are part of a symbol (`R20`) are none. */
function constantsOf(equation: string): Set<number> {
  return new Set([...equation.matchAll(/(?<![\p{L}\d.])\d+(?:\.\d+)?/gu)].map((m) => Number(m[0])));
}

function tokenise(
  text: string,
  constants: ReadonlySet<number>,
): { tokens: Token[]; numbers: number[]; isExact: boolean[] } {
  const tokens: Token[] = [];
  const numbers: number[] = [];
  const isExact: boolean[] = [];
  const byLength = Object.keys(units).sort((a, b) => b.length - a.length);
  let at = 0;
  while (at < text.length) {
    const rest = text.slice(at);
    const figure = /^\d+(?:\.\d+)?/.exec(rest)?.[0];
    const word = /^(?:max|min|√|ln)/.exec(rest)?.[0];
    if (rest.startsWith(" ")) at++;
    else if (figure !== undefined) {
      at += figure.length;
      const behind = text.slice(at);
      const unit = byLength.find((u) => behind.startsWith(` ${u}`) && !/^[\p{L}\d]/u.test(behind.slice(u.length + 1)));
      if (unit !== undefined) at += unit.length + 1;
      tokens.push({ sign: "", number: numbers.length });
      numbers.push(Number(figure) * (unit === undefined ? 1 : (units[unit] ?? 1)));
      isExact.push(unit === undefined && constants.has(Number(figure)));
    } else if (word !== undefined) {
      tokens.push({ sign: word, number: -1 });
      at += word.length;
    } else if ("()+−·/²,".includes(rest[0] ?? "")) {
      tokens.push({ sign: rest[0] ?? "", number: -1 });
      at++;
    } else throw new Error(`no sum: \`${rest}\` in \`${text}\``);
  }
  return { tokens, numbers, isExact };
}

function evaluate(tokens: readonly Token[], numbers: readonly number[]): number {
  let at = 0;
  const peek = (): string | undefined => (tokens[at]?.number === -1 ? tokens[at]?.sign : undefined);
  const need = (sign: string): void => {
    if (peek() !== sign) throw new Error(`\`${sign}\` is missing`);
    at++;
  };
  const list = (): number[] => {
    need("(");
    const values = [sum()];
    while (peek() === ",") {
      at++;
      values.push(sum());
    }
    need(")");
    return values;
  };
  const power = (): number => {
    let x: number;
    const sign = peek();
    if (sign === "−") {
      at++;
      return -power();
    } else if (sign === "(") x = list()[0] ?? NaN;
    else if (sign === "max" || sign === "min") {
      at++;
      x = Math[sign](...list());
    } else if (sign === "√") {
      at++;
      x = Math.sqrt(power());
    } else if (sign === "ln") {
      at++;
      x = Math.log(list()[0] ?? NaN);
    } else {
      const token = tokens[at];
      if (token === undefined || token.number < 0)
        throw new Error(`a number is missing in ${tokens.map((t) => t.sign || "n").join(" ")}`);
      x = numbers[token.number] ?? NaN;
      at++;
    }
    while (peek() === "²") {
      at++;
      x *= x;
    }
    return x;
  };
  const product = (): number => {
    let x = power();
    for (let sign = peek(); sign === "·" || sign === "/"; sign = peek()) {
      at++;
      const y = power();
      x = sign === "·" ? x * y : x / y;
    }
    return x;
  };
  function sum(): number {
    let x = product();
    for (let sign = peek(); sign === "+" || sign === "−"; sign = peek()) {
      at++;
      const y = product();
      x = sign === "+" ? x + y : x - y;
    }
    return x;
  }
  const value = sum();
  if (at !== tokens.length) throw new Error("more than a sum");
  return value;
}
