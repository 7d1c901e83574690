import { test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { compile } from "../../src/compile.ts";
import { explainWhy, explanationPage, listSubjects, whyFinding } from "../../src/why/index.ts";
import { hostilePlan } from "../package/hostile-plan.ts";

const read = (name: string): string =>
  readFileSync(join(import.meta.dirname, "../../examples", `${name}.yaml`), "utf8");
const sloop = compile(read("sloop"));
const subjectOf = (asked: string): string | null => {
  const found = explainWhy(sloop, asked);
  return found.ok ? found.explanation.subject : null;
};

test("a thing can be asked for as people write it", () => {
  const same: readonly (readonly [string, readonly string[]])[] = [
    ["W12", ["W12", "w12", " W12 ", "W12+", "W12−", "W12-", "W12.wire", "W12 size", "W12.conductor"]],
    ["W12.device", ["W12.device", "W12 fuse", "W12.breaker", "w12 Fuse"]],
    ["W12.drop", ["W12.drop", "W12 voltage drop"]],
    ["fridge", ["fridge", "fridge.volts", "Fridge voltage"]],
    ["masthead light.drop", ["masthead light.drop", "masthead light drop"]],
    ["fridge@at anchor", ["fridge@at anchor", "fridge @ At anchor", "fridge.volts@at anchor"]],
    ["INV", ["INV"]],
    ["copper", ["copper"]],
    ["joint-resistance", ["joint-resistance"]],
    ["lowest-charge", ["lowest-charge"]],
  ];
  for (const [subject, ways] of same) for (const asked of ways) assert.equal(subjectOf(asked), subject, asked);
});

test("what is not there is answered with what is near", () => {
  const found = explainWhy(sloop, "frige");
  assert.ok(!found.ok);
  assert.match(found.hint, /`fridge`/);
  const topic = explainWhy(sloop, "W12.colour");
  assert.ok(!topic.ok);
  for (const asked of ["", "  ", "__proto__", "W12.constructor", "fridge@nowhere", "toString@at anchor"]) {
    assert.ok(!explainWhy(sloop, asked).ok, asked);
  }
});

test("everything that is listed can be asked, and says something in one sentence", () => {
  for (const name of ["sloop", "sloop-us", "sloop-audit", "van", "hut"]) {
    const built = compile(read(name));
    for (const { subject } of listSubjects(built)) {
      const found = explainWhy(built, subject);
      assert.ok(found.ok, `${name}: ${subject}`);
      const { answer, question } = found.explanation;
      assert.ok(
        answer.endsWith(".") && answer.length > 10 && !/undefined|NaN|\[object|Infinity/.test(JSON.stringify(found)),
        answer,
      );
      assert.ok(question.endsWith("?"), question);
    }
  }
});

test("what a size leans on is told with its place, its pin and its trust", () => {
  const found = explainWhy(sloop, "W12");
  assert.ok(found.ok);
  const { leansOn, cautions } = found.explanation;
  const lines = read("sloop").split("\n");
  const facts = leansOn.filter((l) => l.kind === "plan");
  assert.ok(facts.length >= 6);
  for (const { says, line, column } of facts) {
    const value = says.slice(says.indexOf(": ") + 2);
    assert.ok(
      lines[(line ?? 0) - 1]?.slice((column ?? 1) - 1).startsWith(value),
      `${says} at ${line ?? 0}:${column ?? 0}`,
    );
  }
  assert.ok(leansOn.some((l) => l.kind === "assumption" && l.pin === "starts above"));
  assert.ok(leansOn.some((l) => l.kind === "table" && l.trust === "memory"));
  assert.ok(cautions.some((c) => c.includes("unverified")));
});

test("a finding is explained with what it measured and the working behind it", () => {
  const audit = compile(read("sloop-audit"));
  const { findings } = audit.judgement;
  assert.ok(findings.length > 0);
  for (const finding of findings) {
    const one = whyFinding(finding, audit);
    assert.equal(one.subject, `${finding.rule} ${finding.about}`);
    if (finding.measured !== null)
      assert.ok(one.figures.some((f) => f.name === "measured" && f.value === finding.measured?.value));
    assert.deepEqual(JSON.parse(JSON.stringify(one)), one);
    const asked = explainWhy(audit, one.subject);
    assert.ok(asked.ok && asked.explanation.subject === one.subject, one.subject);
  }
});

test("a page needs nothing else, and no text of a plan can be more than text in it", () => {
  const odd = `wireworthy: 1
name: '</title><script>alert(1)</script>'
rules: { DC: iso-small-craft }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
parts:
  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah }
  BN: { kind: bus bar }
  BP: { kind: bus bar }
  '<img src=x onerror=alert(1)>': { kind: load, running: 5 A, starting: 9 A, starts above: 10 V }
circuits:
  'W1"><b>': { path: B1 → BP, length: 1 m }
  W2: { path: BP → <img src=x onerror=alert(1)>, length: 4 m }
  W3: { path: B1:− → BN, length: 1 m }
states:
  '<svg onload=alert(1)>': { on: ['<img src=x onerror=alert(1)>'] }
`;
  let shown = 0;
  for (const text of [odd, hostilePlan, read("sloop")]) {
    const built = compile(text);
    for (const { subject } of listSubjects(built).slice(0, 60)) {
      const found = explainWhy(built, subject);
      assert.ok(found.ok, subject);
      const page = explanationPage(found.explanation, built.plan.name);
      const tags = new Set([...page.matchAll(/<\/?([a-z!][a-z0-9]*)/gi)].map((m) => (m[1] ?? "").toLowerCase()));
      for (const tag of tags) {
        assert.ok(
          [
            "!doctype",
            "html",
            "head",
            "meta",
            "title",
            "style",
            "body",
            "main",
            "p",
            "h1",
            "h2",
            "div",
            "table",
            "thead",
            "tbody",
            "tr",
            "th",
            "td",
            "span",
            "br",
            "ul",
            "li",
          ].includes(tag),
          `${subject}: <${tag}>`,
        );
      }
      // Attributes are written by the program alone: no handler, no address.
      assert.ok(!/<[^>]*\s(?:on\w+|src|href)\s*=/i.test(page), subject);
      assert.equal(page.match(/<title>/g)?.length, 1);
      assert.ok(!/[\u202e\u0007]/.test(page));
      if (page.includes("&#60;img") || page.includes("&#60;b&#62;") || page.includes("&#60;svg")) shown++;
    }
  }
  // The odd names were really there to be shown.
  assert.ok(shown >= 3, `${shown} pages`);
});

test("a breaker of 230 V is told with what it opens there, and on no boat by an American clause", () => {
  const text = `wireworthy: 1
rules: { AC: iso-small-craft 2020+A1:2022 }
systems: { AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] } }
stock: { sizes: mm² }
parts:
  INL: { kind: shore inlet, rated: 16 A }
  CU: { kind: consumer unit, ways: { 1: breaker 10 A 2-pole } }
  heater: { kind: load, running: 8 A }
circuits:
  W1: { path: INL → CU, length: 1 m }
  W2: { path: CU:1 → heater, length: 5 m }
`;
  const told = JSON.stringify(explainWhy(compile(text), "W2.device"));
  assert.match(told, /interrupts, at 230 V/);
  assert.doesNotMatch(told, /not made for|NFPA/);
});

test("a device that is held to what a maker allows says so, with the load's own key", () => {
  const told = (set: string) => {
    const built = compile(`wireworthy: 1
rules: { DC: ${set} }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
parts:
  B1: { kind: battery, chemistry: LFP, capacity: 200 Ah, short-circuit: 3 kA }
  BN: { kind: bus bar }
  PNL: { kind: panel, ways: 4, device: breaker, negative bar: yes }
  radio: { kind: load, running: 4.5 A, largest fuse: 5 A }
circuits:
  W1: { path: B1 → PNL, length: 1 m }
  W2: { path: B1:− → BN, length: 1 m }
  W3: { path: PNL:1 → radio, length: 2 m }
`);
    return ["W3.device", "W3"].map((asked) => {
      const found = explainWhy(built, asked);
      assert.ok(found.ok);
      return found.explanation;
    });
  };
  for (const set of ["iso-small-craft", "us-cabin"]) {
    const [device, size] = told(set);
    assert.match(device?.answer ?? "", /5 A panel breaker .* the maker of radio allows no more than 5 A/);
    for (const e of [device, size]) {
      const section = e?.sections.find((s) => s.title === "The device at PNL:1");
      const step = section?.steps.find((s) => s.name === "largest fuse that the maker of radio allows");
      assert.deepEqual([step?.value, step?.source], [5, "plan, line 8"]);
      assert.match(section?.says ?? "", /the maker of radio allows no more; it is loaded with 90 % of its rating/);
      assert.equal(section?.says.includes("NEC 210.20 allows 80 %"), set === "us-cabin");
      assert.ok(e?.leansOn.some((l) => l.says === "radio, largest fuse: 5 A"));
    }
  }
});
