import { afterAll, beforeAll, test } from "vitest";
import assert from "node:assert/strict";
import { chmodSync, existsSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import type { CureDocument, CheckDocument } from "../../src/cli/documents.ts";
import { freshFolder, removeFolder, root, warmRunner, type Run } from "./built.ts";
import { hostilePlan } from "./hostile-plan.ts";

let temporary = "";
let run: Run;

beforeAll(async () => {
  temporary = freshFolder();
  run = await warmRunner();
});
afterAll(() => {
  removeFolder(temporary);
});

const SLOOP = "examples/sloop.yaml";
const sloop = readFileSync(join(root, SLOOP), "utf8");
const RULE = "battery/switched-off-always-on-load";
const cured = sloop.replace("path: BP → bilge pump", "path: SW1:in → bilge pump");
const copyIn = (name: string): string => {
  const path = join(temporary, name);
  writeFileSync(path, sloop);
  return path;
};

/** Holds a text to a published schema. */
function fits(file: string, text: string): void {
  const ajv = new Ajv({ strict: true, allowUnionTypes: true });
  const validate = ajv.compile(JSON.parse(readFileSync(join(root, "schema", file), "utf8")) as object); // a published schema
  assert.ok(validate(JSON.parse(text)), JSON.stringify(validate.errors?.[0]));
}

test("a cure is shown with what it changes, clears and costs", () => {
  const { code, out, err } = run(["cure", SLOOP, RULE, "bilge pump", "--width", "120"]);
  assert.equal(err, "");
  assert.equal(code, 0);
  assert.match(out, /^must +Switched-off always-on load/);
  assert.match(out, /\ncure 1 +feed it from ahead of the switch, with a device of its own \(1 line, /);
  assert.match(out, /W18: BP → bilge pump, .* ⇒ SW1:in → bilge pump, /);
  for (const asked of [
    [RULE, "bilge", "pump"],
    [RULE, "parts.bilge pump"],
    ["switched-off-always-on-load", "Bilge Pump"],
  ])
    assert.equal(run(["cure", SLOOP, ...asked, "--width", "120"]).out, out);
});

test("what no change cures leaves 1; what is not found is said with what is", () => {
  const none = run(["cure", "examples/sloop-audit.yaml", "record/unknown-fact", "W42"]);
  assert.equal(none.code, 1);
  assert.match(none.out, /\ncure +none: /);
  const other = run(["cure", SLOOP, RULE, "fridge"]);
  assert.equal(other.code, 3);
  assert.match(other.err, /nothing is found by .*\nhint: it is found of `parts\.bilge pump`/);
  assert.equal(run(["cure", SLOOP, "no-rule", "fridge"]).code, 3);
  assert.equal(run(["cure", SLOOP]).code, 3);
});

test("a cured plan is written to another file, never over one that is there", () => {
  const to = join(temporary, "cured.yaml");
  const { code, out } = run(["cure", SLOOP, RULE, "bilge pump", "--apply", "1", "-o", to]);
  assert.equal(code, 0);
  assert.match(out, /\nwrote .*cured\.yaml with cure 1\n$/);
  assert.equal(readFileSync(to, "utf8"), cured);
  const plan = copyIn("plan.yaml");
  for (const [path, says] of [
    [to, /is there already/],
    [plan, /is the plan itself/],
    [join(temporary, "no", "such", "folder.yaml"), /cannot be written/],
  ] as const) {
    const ran = run(["cure", plan, RULE, "bilge pump", "--apply", "1", "-o", path]);
    assert.equal(ran.code, 3);
    assert.match(ran.err, says);
  }
  assert.equal(readFileSync(plan, "utf8"), sloop);
  assert.equal(readFileSync(to, "utf8"), cured);
});

test("a plan is changed in place when that is asked for, through a link and with its rights kept", () => {
  const plan = copyIn("own.yaml");
  chmodSync(plan, 0o640);
  const link = join(temporary, "link.yaml");
  symlinkSync(plan, link);
  assert.equal(run(["cure", link, RULE, "bilge pump", "--apply", "1", "--in-place"]).code, 0);
  assert.equal(readFileSync(plan, "utf8"), cured);
  assert.equal(statSync(plan).mode & 0o777, 0o640);
  assert.equal(run(["cure", plan, RULE, "bilge pump"]).code, 3, "it is found no more");
  assert.deepEqual(
    readdirSync(temporary).filter((name) => name.endsWith(".tmp")),
    [],
  );
});

test("what is asked in a way that cannot be done is said, and nothing is written", () => {
  const to = join(temporary, "never.yaml");
  const ask = [SLOOP, RULE, "bilge pump"];
  const slips: [string[], RegExp][] = [
    [[...ask, "--apply", "1"], /`--apply` needs a file/],
    [[...ask, "-o", to], /not said which cure/],
    [[...ask, "--apply", "first", "-o", to], /takes the number of a cure/],
    [[...ask, "--apply", "9", "-o", to], /there is no cure 9/],
    [[...ask, "--apply", "1", "-o", to, "--in-place"], /ask for one of the two/],
    [["-", RULE, "bilge pump", "--apply", "1", "--in-place"], /standard input cannot be changed/],
  ];
  for (const [args, says] of slips) {
    const { code, err } = run(["cure", ...args], { input: sloop });
    assert.equal(code, 3, args.join(" "));
    assert.match(err, says);
  }
  assert.ok(!existsSync(to));
});

test("`check` prints cures under each fail, and assumptions that decide", () => {
  const plain = run(["check", SLOOP, "--quiet"]);
  const { code, out } = run(["check", SLOOP, "--quiet", "--cures", "--assumptions"]);
  assert.equal(code, 1);
  assert.doesNotMatch(plain.out, /\ncure/);
  assert.match(out, /bilge pump is always on[^]*?\ncure 1 +feed it from ahead of the switch/);
  assert.match(out, /\nAssumptions moved over their ranges\n/);
});

test("programs get the same as JSON, with its schema", () => {
  const cure = run(["cure", SLOOP, RULE, "bilge pump", "--json"]).out;
  fits("cure.schema.json", cure);
  const { search, written } = JSON.parse(cure) as CureDocument; // it fits its schema
  assert.ok(search.is === "edits" && search.cures[0]?.text === cured && written === null);
  fits("cure.schema.json", run(["cure", "examples/sloop-audit.yaml", "record/unknown-fact", "W42", "--json"]).out);
  const hostile = join(temporary, "hostile.yaml");
  writeFileSync(hostile, hostilePlan);
  const check = run(["check", SLOOP, hostile, "--json", "--cures", "--assumptions"]).out;
  fits("check.schema.json", check);
  const [first] = (JSON.parse(check) as CheckDocument).plans; // as above
  assert.ok(first !== undefined);
  assert.ok(first.cures?.some((c) => c.rule === RULE && c.search.is === "edits"));
  assert.ok((first.deciding?.findings.length ?? 0) > 0);
});
