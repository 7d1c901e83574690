import type { SystemCircuit } from "../system/index.ts";

/** A circuit as if its size were still to be chosen. */
export function freed(circuit: SystemCircuit): SystemCircuit {
  const copy: { -readonly [K in keyof SystemCircuit]: SystemCircuit[K] } = { ...circuit };
  delete copy.size;
  return copy;
}
