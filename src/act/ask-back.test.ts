import { test } from "vitest";
import assert from "node:assert/strict";
import { readQuantity } from "../quantity/index.ts";
import { readLabel } from "../wire/label/read-label.ts";
import { compiledExample } from "../../test/fixtures/compiled-example.ts";
import { act } from "./act.ts";
import type { ActRequest } from "./request.ts";

type Example = "sloop" | "sloop-us" | "van";

function ask(example: Example, request: ActRequest) {
  const { text, compiled, memory } = compiledExample(example);
  return act(text, compiled, request, memory);
}
const typed = (field: string, text: string): ActRequest => ({
  do: "set-figure",
  about: field === "load" ? "parts.fridge" : "circuits.W13",
  field,
  text,
});
const said = (example: Example, field: string, text: string): string => {
  const result = ask(example, typed(field, text));
  return result.ok ? `done: ${result.step}` : `${result.message}; ${result.hint}`;
};

test.each([
  ["length", "5", "a length needs a unit; write `5 m`"],
  ["length", "5,2", "a length needs a unit; write `5.2 m`"],
  ["length", "1,000 m", "`1,000` can mean 1.000 or 1000; write `1.000 m` or `1000 m`"],
  ["length", "-3 m", "expected a length with its unit, above 0; found `-3 m`; write it as in `3.5 m`, or `unknown`"],
  ["length", "0 m", "expected a length with its unit, above 0; found `0 m`; write it as in `3.5 m`, or `unknown`"],
  ["length", "abc", "`abc` is not a number; a length was expected; write it as in `3.5 m`, or `unknown`"],
  ["length", "999999 km", "`999999 km` is longer than any run here: a length up to 1000 m was expected; check the figure and its unit, as in `3.5 m`"],
  ["length", "5 A", "`A` is the unit of a current; a length was expected; write it as in `3.5 m`, or `unknown`"],
  ["size", "6", "`6` can be read in 2 ways: which size is meant by the print or the data sheet: 6 AWG or 6 mm²?; write `6 mm²` or `6 AWG`"],
  ["size", "5,2", "`5,2` can be read in 2 ways: which size is meant by the print or the data sheet: 5.2 mm² or 5.2 mm over everything?; write `5.2 mm²`"],
  ["size", "1,000 mm²", "`1,000 mm²` can be read in 2 ways: which size is meant by the print or the data sheet: 1 mm² or 1000 mm²?; write `1 mm²` or `1000 mm²`"],
  ["load", "5", "a current or a power needs a unit; write `5 A` or `5 W`"],
  ["load", "1,000 m", "`m` is the unit of a length; a current or a power was expected; write it as in `4 A` or `45 W`, or `unknown`"],
  ["load", "1,000 W", "`1,000` can mean 1.000 or 1000; write `1.000 W` or `1000 W`"],
  ["device", "5", "a current needs a unit; write `5 A`"],
  ["device", "5,2", "a current needs a unit; write `5.2 A`"],
  ["device", "1,000 A", "`1,000` can mean 1.000 or 1000; write `1.000 A` or `1000 A`"],
  ["device", "1,000 m", "`1,000 m` is a length; the rating of a device in A was expected; write it as in `10 A` or `breaker 10 A`"],
  ["device", "0 m", "`0 m` is a length; the rating of a device in A was expected; write it as in `10 A` or `breaker 10 A`"],
  ["device", "abc", "`abc` is no device; write `fuse`, `breaker 10 A` or `none`"],
])("%s: `%s` is asked back in the units of the plan", (field, text, says) => {
  assert.equal(said("sloop", field, text), says);
}); // prettier-ignore

test("a plan in feet and gauges is answered in feet and gauges, one in metres and gauges in both", () => {
  assert.equal(said("sloop-us", "length", "5"), "a length needs a unit; write `5 ft`");
  assert.match(said("sloop-us", "length", "-3 m"), /as in `11 ft`/);
  assert.match(said("sloop-us", "length", "999999 km"), /up to 3280 ft was expected/);
  assert.match(said("sloop-us", "size", "6"), /write `6 AWG` or `6 mm²`$/);
  assert.match(said("sloop-us", "size", "5,2"), /write `5.2 mm²`, or a gauge as in `12 AWG`$/);
  assert.match(said("sloop-us", "size", "abc"), /as in `12 AWG`$/);
  assert.equal(said("van", "length", "5"), "a length needs a unit; write `5 m`");
  assert.match(said("van", "size", "abc"), /as in `12 AWG`$/);
});

test("whatever is typed wrongly, the answer is one sentence, and its example can be read", () => {
  const wrong = ["5", "5,2", "1,000 m", "-3 m", "0 m", "abc", "999999 km", "5 A", "0", "3 m 5", "6 mm", "12/3", "1e3 m"];
  for (const example of ["sloop", "sloop-us"] as const) {
    for (const field of ["length", "size", "load", "device"]) {
      for (const text of wrong) {
        const result = ask(example, typed(field, text));
        if (result.ok) continue;
        assert.ok(!/\. |\n/.test(result.message) && result.hint !== "", `${field} ${text}: ${result.message}`);
        if (field === "device") continue;
        const examples = Array.from(result.hint.matchAll(/`([^`]+)`/g), ([, like = ""]) => like);
        for (const like of examples) {
          const isRead = field === "size" ? readLabel(like).verdict === "exact" : readQuantity(like, ["length", "current", "power"]).ok;
          assert.ok(isRead, `${field} ${text}: ${result.hint}`);
        }
      }
    }
  }
}); // prettier-ignore

test("the sign between two figures of a drawing is left out", () => {
  assert.equal(said("sloop", "length", "· 6.2 m"), "done: W13 length 5.2 → 6.2 m");
  assert.equal(said("sloop", "size", " ·4 mm²"), "done: W13 2.5 → 4 mm²");
  assert.equal(said("sloop", "load", "· 45 W"), "done: fridge running 4.3 A → 45 W");
  assert.equal(said("sloop", "device", "· 10 A"), "done: W13 breaker 7.5 → 10 A");
  const inserted = ask("sloop", { do: "insert-device", circuit: "circuits.W04", text: "· fuse 60 A", distance: "· 0.1 m" }); // prettier-ignore
  assert.ok(inserted.ok && inserted.step === "W04 fuse 60 A 0.1 m from BP inserted");
  const name = ask("sloop", { do: "set-figure", about: "parts.BP", field: "name", text: "· bar" });
  assert.ok(name.ok && name.text.includes("· bar"), "a name may begin so");
});

test("a distance is asked back as a length is, and its end is told in the unit of the plan", () => {
  const far = (example: Example, distance: string) => {
    const result = ask(example, { do: "insert-device", circuit: "circuits.W13", text: "fuse 10 A", distance });
    return result.ok ? result.step : `${result.message}; ${result.hint}`;
  };
  assert.equal(far("sloop", "5"), "a length needs a unit; write `5 m`");
  assert.equal(far("sloop-us", "5"), "a length needs a unit; write `5 ft`");
  assert.match(far("sloop", "60 m"), /which is 5\.2 m long/);
  assert.match(far("sloop-us", "60 ft"), /which is 17\.1 ft long/);
});
