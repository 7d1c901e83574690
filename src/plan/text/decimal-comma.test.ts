import { test } from "vitest";
import assert from "node:assert/strict";
import { judgeCommas } from "./decimal-comma.ts";

test("commas without a space join decimals where a unit follows, and ask where both readings are open", () => {
  const cases: [string, ReturnType<typeof judgeCommas>][] = [
    ["3,4 m", "joined"],
    ["3,4m", "joined"],
    ["-0,28 %", "joined"],
    ["about 3,4 m", "joined"],
    ["2,4…3,1 m", "joined"],
    ["2,4 m…3,1 m", "joined"],
    ["3,4 m ± 0,2 m", "joined"],
    ["2-3,5 m", "joined"],
    ["3,4–6 m", "joined"],
    ["1,000 W", "joined"], // whether a thousand or one is for the reader of quantities to ask
    ["5,5 °C", "joined"],
    ["0,5 Ω", "joined"],
    ["16 ft 4,5 in", "joined"],
    ["1,2", "ambiguous"],
    ["1,2,3", "ambiguous"],
    ["1,5,2,5 m", "ambiguous"],
    ["1,000,000 W", "ambiguous"],
    ["1,1/2 in", "ambiguous"],
    ["3,4.5 m", "ambiguous"],
    ["1.5,2 m", "ambiguous"],
    ["1/2,3 m", "ambiguous"],
    ["B1,2 fridges", "separate"],
    ["PNL:1,2 ways", "separate"],
    ["W13,14", "separate"],
  ];
  for (const [text, verdict] of cases) assert.equal(judgeCommas(text.split(",")), verdict, text);
});
