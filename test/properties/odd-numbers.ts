/**
 * Where plain data holds what JSON cannot carry: a number that is none or has no end, a function, a thing with a class.
 *
 * @returns one line for each, with its path
 */
export function oddNumbers(value: unknown, path: string): string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (value === undefined) return [`${path} is undefined`];
  if (typeof value === "function" || typeof value === "symbol" || typeof value === "bigint") {
    return [`${path} is a ${typeof value}`];
  }
  if (typeof value !== "object" || value === null) return [];
  if (Array.isArray(value)) return value.flatMap((item, i) => oddNumbers(item, `${path}[${i}]`));
  const prototype: unknown = Object.getPrototypeOf(value);
  // A map by names has no prototype, so that a part may be called `constructor`.
  if (prototype !== Object.prototype && prototype !== null) return [`${path} is no plain object`];
  return Object.entries(value).flatMap(([key, inner]) => oddNumbers(inner, `${path}.${key.slice(0, 40)}`));
}
