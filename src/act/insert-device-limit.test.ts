import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../compile.ts";
import { act } from "./act.ts";

const plan = (limit: string): string => `wireworthy: 1
rules: { DC: iso-small-craft }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
parts:
  B1: { kind: battery, chemistry: LFP, capacity: 200 Ah, short-circuit: 3 kA }
  BN: { kind: bus bar }
  BP: { kind: bus bar }
  radio: { kind: load, running: 4.5 A${limit} }
circuits:
  W1: { path: B1 → BP, length: 1 m }
  W2: { path: B1:− → BN, length: 1 m }
  W3: { path: BP → radio, length: 2 m, fuse: none }
`;

test("a device without a rating holds to what the maker of the load allows", () => {
  for (const [limit, kind, words] of [
    ["", "fuse", "fuse: 7.5 A at BP"],
    [", largest fuse: 5 A", "fuse", "fuse: 5 A at BP"],
    [", largest fuse: 5 A", "breaker", "breaker: 5 A at BP"],
    [", largest fuse: unknown", "fuse", "fuse: 7.5 A at BP"],
  ] as const) {
    const text = plan(limit);
    const result = act(text, compile(text), { do: "insert-device", circuit: "circuits.W3", text: kind });
    assert.ok(result.ok, JSON.stringify(result));
    assert.ok(result.text.includes(words), result.text);
  }
});
