import { test } from "vitest";
import assert from "node:assert/strict";
import { ruleSets } from "../../ruleset/index.ts";
import { rowsOf, type KeptBuild } from "./kept-build.ts";
import { countries, countryOf, newPlanOf, nextQuestion, proposeRules, questions } from "./lay-out.ts";

const named = (name: string) => ruleSets.find(({ id }) => id === name);

test("rules that are proposed are known everywhere", () => {
  for (const what of ["boat", "van", "cabin"] as const) {
    for (const country of [null, ...countries.map(({ code }) => code)]) {
      const rules = proposeRules(what, country);
      assert.ok(named(rules) !== undefined, rules);
    }
  }
});

test("the country is taken from the language only where it says one", () => {
  assert.deepEqual(["de-DE", "en_US", "en", "xx-ZZ", ""].map(countryOf), ["DE", "US", null, null, null]);
});

test("questions come in their order, and what was taken back is asked again", () => {
  assert.equal(nextQuestion([]), "what");
  assert.equal(nextQuestion(["what", "battery"]), "there");
  assert.equal(nextQuestion(questions), null);
});

test("a plan is asked for with what was answered", () => {
  assert.deepEqual(newPlanOf({}).answers, { what: "boat" });
  assert.deepEqual(newPlanOf({ what: "van", load: " 45 W ", battery: "" }).answers, { what: "van", load: "45 W" });
});

test("each build has one row, those found after a crash first", () => {
  const build = (id: string, recovered: boolean): KeptBuild => ({
    id,
    name: id,
    revision: "",
    fileName: null,
    savedSays: "",
    tallySays: "",
    status: null,
    changesNotInFile: 0,
    hasCopies: false,
    recovered,
  });
  const rows = rowsOf([build("a", false), build("b", false), build("c", true)], [build("b", true)]);
  assert.deepEqual(
    rows.map(({ id, recovered }) => `${id} ${recovered}`),
    ["b true", "c true", "a false"],
  );
});
