import { afterAll, beforeAll, test } from "vitest";
import assert from "node:assert/strict";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { textWidth } from "../../src/cli/text-width.ts";
import { freshFolder, removeFolder, warmRunner, type Run } from "./built.ts";

let temporary = "";
let run: Run;

beforeAll(async () => {
  temporary = freshFolder();
  run = await warmRunner();
});
afterAll(() => {
  removeFolder(temporary);
});

const linesOf = (text: string): string[] => text.split("\n");
/** Nothing that steers a terminal: all but the line feeds. */
const STEERS = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u200e\u200f\u2028-\u202e\u2066-\u2069]/;

test("a label is read as words without quotes, and each fact shows its characters", () => {
  const { code, out, err } = run(["read", "14/3", "SOOW", "--width", "100"]);
  assert.equal(err, "");
  assert.equal(code, 0);
  const [label = "", ...rest] = linesOf(out);
  assert.equal(label, "14/3 SOOW");
  const marks = rest.filter((line) => /^ *\^/.test(line));
  const size = marks.find((line) => line.endsWith("size") || line.includes("size,")) ?? "";
  assert.equal(label.slice(size.indexOf("^"), size.lastIndexOf("^") + 1).slice(0, 2), "14");
  const type = marks.find((line) => line.includes("type")) ?? "";
  assert.equal(label.slice(type.indexOf("^"), type.lastIndexOf("^") + 1), "SOOW");
  assert.match(out, /^exact: /m);
  assert.match(out, /^size +14 AWG, 2\.08 mm² of metal +/m);
  assert.match(out, /^conductors +3 insulated, one of them the green ground/m);
  assert.match(out, /^type +SOOW/m);
  for (const line of linesOf(out)) assert.ok(textWidth(line) <= 100, line);
});

test("what may mean several things is asked back, each with a label that says it alone", () => {
  const { code, out } = run(["read", "14/3"]);
  assert.equal(code, 1);
  assert.match(out, /^ambiguous: [^?]*\?$/m);
  const written = [...out.matchAll(/^ {4}write `([^`]+)`$/gm)].map((match) => match[1] ?? "");
  assert.ok(written.length >= 2, out);
  for (const label of written) assert.equal(run(["read", label]).code, 0, label);
  // The place settles it, and is named.
  const boat = run(["read", "14/3", "--context", "boat"]);
  assert.equal(boat.code, 0);
  assert.match(boat.out, /decided by: .*boat/);
});

test("what means nothing is refused with a reason and a next step", () => {
  for (const label of ["qwertz", "2/O AWG", "<b>12 AWG</b>", "12-Feb", "", "9".repeat(5000)]) {
    const { code, out, err } = run(["read", label]);
    assert.ok(code === 2 || code === 1, `${label}: ${out}`);
    assert.equal(err, "");
    if (code === 2) assert.match(out, /^hint: /m, label);
    for (const line of linesOf(out)) assert.ok(textWidth(line) <= 120, label);
  }
});

test("a list is read line by line, from standard input or a file, the gravest verdict decides the code", () => {
  const list = "12 AWG\r\n\n2.5 mm²\nH07RN-F 3G2,5\n";
  const piped = run(["read"], { input: list });
  assert.equal(piped.code, 0, piped.out);
  assert.match(piped.out, /^3 labels: 3 exact, 0 ambiguous, 0 rejected$/m);
  const file = join(temporary, "order.txt");
  writeFileSync(file, `\ufeff${list}`);
  assert.equal(run(["read", "--file", file]).out, piped.out);
  assert.equal(run(["read"], { input: `${list}12/3\n` }).code, 1);
  assert.equal(run(["read"], { input: `${list}12/3\nqwertz\n` }).code, 2);
  assert.equal(run(["read", "12 AWG", "H07RN-F 3G2.5"]).out.match(/^exact: /gm)?.length, 2);
  const again = run(["read"], { input: "\n\n" });
  assert.equal(again.code, 3);
  assert.match(again.err, /there is no label to read/);
});

test("JSON is one document a line", () => {
  const { code, out } = run(["read", "--json"], { input: "14/3 SOOW\n12/2\nqwertz\n" });
  assert.equal(code, 2);
  const documents = out
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line) as Record<string, unknown>); // our own output
  assert.deepEqual(
    documents.map(({ text, verdict }) => [text, verdict]),
    [
      ["14/3 SOOW", "exact"],
      ["12/2", "ambiguous"],
      ["qwertz", "rejected"],
    ],
  );
  assert.deepEqual(
    documents.map((document) => Object.keys(document)),
    [
      ["text", "verdict", "readings", "problems"],
      ["text", "verdict", "readings", "question", "problems"],
      ["text", "verdict", "readings", "problems"],
    ],
  );
  const [cord] = documents[0]?.["readings"] as Record<string, unknown>[]; // a reading is a record
  assert.ok(cord !== undefined);
  const { system, size, cores, type, volts, metal, stranding } = cord;
  assert.deepEqual([system, size, type, volts], ["AWG", "14", "SOOW", 600]);
  assert.deepEqual(cores, {
    insulated: 3,
    total: 3,
    ground: "insulated",
    groundSize: null,
    others: [],
    paired: false,
  });
  assert.ok(metal === null || typeof metal === "string");
  assert.ok(stranding === null || typeof stranding === "string");
});

test("a label can do nothing to the terminal", () => {
  const hostile = "12 AWG\u001b[2J\u001b]0;x\u0007 \u202eGWA\u202c\u0000 red";
  const list = join(temporary, "hostile.txt");
  writeFileSync(list, hostile.replaceAll("\u0000", ""));
  for (const args of [
    ["read", hostile.replaceAll("\u0000", "")],
    ["read", "--file", list],
    ["read", "--json", "--file", list],
  ]) {
    const { code, out, err } = run(args);
    assert.doesNotMatch(out + err, STEERS, args.join(" "));
    assert.ok(code !== null && code < 3);
  }
});

test("a slip in the question is told", () => {
  const slips: [string[], RegExp][] = [
    [["read", "12 AWG", "--context", "boot"], /no context `boot`\nhint: did you mean `boat`\?/],
    [["read", "12 AWG", "--context", "zzzzzz"], /hint: the contexts are boat, building/],
    [["read", "12 AWG", "--file", "list.txt"], /both on the line and as a file/],
    [["read", "--file", join(temporary, "none.txt")], /there is no such file/],
    [["read", "--file", temporary], /is a folder/],
    [["read", "12 AWG", "--contxt", "boat"], /did you mean `--context`\?/],
  ];
  for (const [args, expected] of slips) {
    const { code, out, err } = run(args);
    assert.equal(code, 3, args.join(" "));
    assert.equal(out, "");
    assert.match(err, expected);
  }
});

test("a size is converted to one that is not smaller, with what is gained and what the next smaller would lose", () => {
  const { code, out, err } = run(["convert", "6", "AWG", "--width", "100"]);
  assert.equal(err, "");
  assert.equal(code, 0);
  // ASTM B258: 13.30 mm²; 16 mm² has 20 % more, 10 mm² 25 % less.
  assert.match(out, /^6 AWG → 16 mm²: 20 % more area/);
  assert.match(out, /^16 mm² .*taken: \+20\.3 % area/m);
  assert.match(out, /^10 mm² .*next smaller: −24\.8 % area/m);
  assert.match(out, /^published pair: customary pairs of terminals/m);
  assert.match(out, /^Cautions$/m);
  for (const line of linesOf(out)) assert.ok(textWidth(line) <= 100, line);
});

test("nearest has to be asked for and shows its loss; a list is followed to the letter", () => {
  const back = run(["convert", "16 mm2", "--to", "AWG"]).out;
  assert.match(back, /^16 mm² → 4 AWG/);
  const nearest = run(["convert", "16 sqmm", "--to", "AWG", "--nearest"]).out;
  assert.match(nearest, /^16 mm² → 6 AWG: 17 % less area/);
  assert.match(nearest, /^- 6 AWG has 17 % less area than 16 mm²; not smaller is 4 AWG$/m);
  assert.match(run(["convert", "16 mm²", "--by", "table"]).out, /^16 mm² → 6 AWG: 17 % less area/);
});

test("metal, plating, strands and temperature come from the label or the options, and are told", () => {
  const copper = run(["convert", "2/0 AWG aluminium", "--metal", "copper", "--by", "resistance"]).out;
  assert.match(copper.replaceAll("\n  ", " "), /compared: 2\/0 AWG: class B, aluminium; .*: class 5, copper; at 20 °C/);
  const tinned = run([
    "convert",
    "16mm2",
    "--by",
    "resistance",
    "--strands",
    "CLASS 2",
    "--tinned",
    "--temperature",
    "167F",
  ]).out;
  assert.match(
    tinned.replaceAll("\n  ", " "),
    /compared: 16 mm²: class 2, tinned copper; .*: class B, tinned copper; at 75 °C/,
  );
});

test("what is not told clearly is asked back, not converted", () => {
  const slips: [string[], RegExp][] = [
    [["convert", "6 mm"], /`6 mm`: Which size.*\nhint: write `6 mm²` or `6 mm auto cable`/],
    [["convert", "qwertz"], /holds no size/],
    [["convert"], /`convert` needs a size/],
    [["convert", "6 AWG", "--to", "furlong"], /no size system `furlong`/],
    [["convert", "6 AWG", "--by", "aria"], /did you mean `--by area`\?/],
    [["convert", "6 AWG", "--by", "table", "--nearest"], /one pair for a size/],
    [["convert", "6 AWG", "--strands", "class 9"], /no strand class `class 9`/],
    [["convert", "6 AWG", "--metal", "gold"], /no metal `gold`/],
    [["convert", "6 AWG", "--temperature", "900C"], /from −40 to 250 °C/],
    [["convert", "6 AWG", "--temperature", "75"], /--temperature: /],
    [["convert", "\u001b[2J6 AWG"], /hint: /],
  ];
  for (const [args, expected] of slips) {
    const { code, out, err } = run(args);
    assert.equal(code, 3, `${args.join(" ")}: ${out}`);
    assert.equal(out, "");
    assert.match(err, expected);
    assert.doesNotMatch(err, STEERS);
  }
  // Nothing that is made is thick enough: that is an answer.
  const none = run(["convert", "1000 mm2", "--to", "SAE"]);
  assert.equal(none.code, 1);
  assert.match(none.out, /^nothing among sizes on sale/);
});

test("a wire in place of the drawn one is judged in its place", () => {
  const does = run(["substitute", "examples/sloop.yaml", "W13", "16", "mm2", "--width", "100"]);
  assert.equal(does.code, 0, does.out + does.err);
  assert.match(
    does.out,
    /^W13: 16 mm² in place of 2\.5 mm²: [\d.]+ % less resistance; no finding is raised: it can stand in$/m,
  );
  assert.match(does.out, /^Look at the ends$/m);
  const not = run(["substitute", "examples/sloop.yaml", "W12", "6 AWG", "--width", "100"]);
  assert.equal(not.code, 1);
  assert.match(not.out.replaceAll("\n  ", " "), /raises .*must conductor\/overloaded-conductor W12/);
  assert.ok(linesOf(not.out).every((line) => textWidth(line) <= 100));
  const json = JSON.parse(run(["substitute", "examples/sloop.yaml", "W12", "6 AWG", "--json"]).out) as {
    readonly does: boolean;
    readonly resistanceShare: number;
  }; // our own form, held by its schema
  assert.equal(json.does, false);
  // 1.36 Ω/km of 6 AWG against 0.565 of tinned 35 mm² (NEC Chapter 9 Table 8 at 20 °C, IEC 60228 Table 3 class 5), within what tinning adds.
  assert.ok(json.resistanceShare > 1.2 && json.resistanceShare < 1.6, String(json.resistanceShare));
});

test("a substitute that is not told clearly is asked back", () => {
  for (const [args, expected] of [
    [["W12", "6 mm"], /can be read in .* ways/],
    [["W99", "6 AWG"], /there is no circuit `W99`/],
    [["W12", "banana"], /hint: /],
  ] as const) {
    const { code, out, err } = run(["substitute", "examples/sloop.yaml", ...args]);
    assert.equal(code, 3, out);
    assert.match(err, expected);
    assert.doesNotMatch(err, STEERS);
  }
});
