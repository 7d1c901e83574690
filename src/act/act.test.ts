import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../compile.ts";
import { applySplices, invertSplices } from "../plan/text/index.ts";
import { compiledExample, newTroubles } from "../../test/fixtures/compiled-example.ts";
import { act } from "./act.ts";
import type { Acted, ActRequest, NotActed } from "./request.ts";

type Example = "sloop" | "sloop-audit" | "sloop-us" | "van" | "hut";

function ask(example: Example, request: ActRequest) {
  const { text, compiled, memory } = compiledExample(example);
  return act(text, compiled, request, memory);
}

const commentsOf = (text: string): string[] =>
  text.split("\n").flatMap((line) => /(?:^|\s)#\s.*$/.exec(line)?.[0] ?? []);

/** An act that is done, with what holds of every act: it can be undone to the byte, and comments stay. */
function done(example: Example, request: ActRequest, commentsGone = 0): Acted & { gone: string[]; put: string[] } {
  const { text } = compiledExample(example);
  const result = ask(example, request);
  assert.ok(result.ok, JSON.stringify(result));
  assert.equal(applySplices(text, result.splices), result.text);
  assert.equal(applySplices(result.text, invertSplices(text, result.splices)), text);
  assert.equal(commentsOf(text).length - commentsOf(result.text).length, commentsGone);
  const [before, after] = [text.split("\n"), result.text.split("\n")];
  return {
    ...result,
    gone: before.filter((line) => !after.includes(line)).map((line) => line.trim()),
    put: after.filter((line) => !before.includes(line)).map((line) => line.trim()),
  };
}

function askedBack(example: Example, request: ActRequest): NotActed {
  const result = ask(example, request);
  assert.ok(!result.ok, JSON.stringify(result));
  return result;
}

const set = (about: string, field: string, text: string): ActRequest => ({ do: "set-figure", about, field, text });

/** One line gives way to another: what stands between the two is all that changes. */
const oneLine: readonly [Example, ActRequest, string, string, string][] = [
  ["sloop", set("circuits.W13", "length", "6,1 m"), "W13 length 5.2 → 6.1 m", "length: 5.2 m", "length: 6.1 m"],
  ["sloop", set("circuits.W13", "length", "11 ft"), "W13 length 5.2 m → 11 ft", "length: 5.2 m", "length: 11 ft"],
  ["sloop", set("circuits.W34", "length", "about 3 m"), "W34 length 2.3 m → about 3 m", "length: 2.3 m", "length: about 3 m"], // prettier-ignore
  ["sloop", set("circuits.W13", "size", "4 mm2"), "W13 2.5 → 4 mm²", "5.2 m }", "5.2 m, wire: 4 mm² }"],
  [
    "sloop",
    set("circuits.W13", "device", "10 A"),
    "W13 breaker 7.5 → 10 A",
    "5.2 m }",
    "5.2 m, breaker: 10 A at PNL }",
  ],
  ["sloop", set("circuits.W26", "device", "16 A"), "W26 breaker 10 → 16 A", "2: breaker 10 A", "2: breaker 16 A"],
  ["sloop", set("parts.CU:2", "device", "16 A"), "CU:2 breaker 10 A 2-pole → breaker 16 A 2-pole", "2: breaker 10 A", "2: breaker 16 A"], // prettier-ignore
  ["sloop", set("parts.fridge", "load", "45 W"), "fridge running 4.3 A → 45 W", "running: 4.3 A", "running: 45 W"],
  ["sloop", set("parts.fridge", "start", "10 A"), "fridge starting 8 → 10 A", "starting: 8 A", "starting: 10 A"],
  ["sloop", set("parts.fridge", "starting", ""), "fridge starting taken away", "starting: 8 A, ", ""],
  ["sloop", set("parts.SW1", "rated", "350 A"), "SW1 rated 300 → 350 A", "rated: 300 A", "rated: 350 A"],
  ["sloop", set("parts.BP", "name", "plus bar"), "BP is called positive bus → plus bar", "positive bus", "plus bar"],
  ["sloop", set("systems.DC", "volts", "24 V"), "DC nominal 12 → 24 V", "nominal: 12 V", "nominal: 24 V"],
  ["sloop", set("stock", "insulation", "105 °C"), "stock insulation 90 → 105 °C", "90 °C", "105 °C"],
  ["sloop", set("plan", "name", "Sea: otter"), "name Coastal sloop → Sea: otter", "Coastal sloop", '"Sea: otter"'],
  [
    "sloop-audit",
    set("circuits.W12", "device", "125 A"),
    "W12 breaker 100 → 125 A",
    "breaker: 100 A",
    "breaker: 125 A",
  ],
  ["sloop-audit", set("circuits.W03", "device", "200 A"), "W03 fuse 150 → 200 A", "150 A ANL", "200 A ANL"],
  ["sloop-audit", set("circuits.W07", "device", "80 A"), "F7 60 → 80 A", "rated: 60 A", "rated: 80 A"],
  [
    "sloop-audit",
    set("circuits.W20", "length", "4.8 m"),
    "W20 length unknown → 4.8 m",
    "length: unknown",
    "length: 4.8 m",
  ],
  ["sloop-audit", { do: "unpin", about: "circuits.W12" }, "W12 unpinned from 25 mm²", "wire: 25 mm², ", ""],
  ["sloop-us", set("circuits.W13", "length", "18 ft 6 in"), "W13 length 17 ft 1 in → 18 ft 6 in", "length: 17 ft 1 in", "length: 18 ft 6 in"], // prettier-ignore
  ["van", set("parts.ACP:inverter.1", "device", "20 A"), "ACP:inverter.1 breaker → breaker 20 A", "breaker ", "breaker 20 A "], // prettier-ignore
  ["sloop", set("states.at anchor", "charge", "15 %"), "at anchor charge 40 → 15 %", "charge: 40 %", "charge: 15 %"],
  ["sloop", set("parts.PV1", "Voc per kelvin", "-0,3 %"), "PV1 Voc per kelvin -0.28 % → -0.3 %", "-0.28 %", "-0.3 %"],
  ["hut", set("climate", "ambient", "35 °C"), "climate ambient 30 → 35 °C", "ambient: 30 °C", "ambient: 35 °C"],
  ["sloop", { do: "insert-device", circuit: "circuits.W04", text: "fuse 60 A", distance: "0.1 m" }, "W04 fuse 60 A 0.1 m from BP inserted", "45 A }", "45 A, fuse: 60 A 0.1 m from BP }"], // prettier-ignore
  ["hut", set("parts.INV", "idle", "40 W"), "INV idle 45 → 40 W", "idle: 45 W", "idle: 40 W"],
  ["sloop", { do: "pin", about: "circuits.W13" }, "W13 pinned to 2.5 mm²", "5.2 m }", "5.2 m, wire: 2.5 mm² }"],
  ["sloop", { do: "pin", about: "circuits.W13", what: "device" }, "W13 breaker pinned to 7.5 A", "5.2 m }", "5.2 m, breaker: 7.5 A at PNL }"], // prettier-ignore
  ["sloop", { do: "insert-device", circuit: "circuits.W12", text: "breaker 100 A", distance: "0.3 m" }, "W12 breaker 100 A 0.3 m from BP inserted", "1.2 m } }", "1.2 m }, breaker: 100 A 0.3 m from BP }"], // prettier-ignore
  ["sloop-audit", { do: "insert-device", circuit: "circuits.W02", text: "fuse 250 A class T" }, "W02 fuse 250 A class T at B2 inserted", "fuse: none", "fuse: 250 A class T at B2"], // prettier-ignore
  [
    "sloop",
    { do: "feed", circuit: "circuits.W13", from: "parts.BP" },
    "W13 fed from BP",
    "PNL:1 → fridge",
    "BP → fridge",
  ],
  ["van", { do: "feed", circuit: "circuits.W17", from: "parts.FB" }, "W17 fed from FB:9", "BP → air", "FB:9 → air"],
  ["sloop", { do: "add-load", at: "circuits.W13", text: "lamp 4 W" }, "lamp added at fridge", "", ""],
  ["sloop", { do: "switch", about: "parts.TS", state: "at anchor", to: "shore" }, "TS shore in at anchor", "TS: inverter", "TS: shore"], // prettier-ignore
  ["sloop", { do: "switch", about: "parts.windlass", state: "motoring", to: "on" }, "windlass on in motoring", "instruments, VHF] }", "instruments, VHF, windlass] }"], // prettier-ignore
  ["sloop", { do: "switch", about: "parts.VHF", state: "motoring", to: "off" }, "VHF off in motoring", "instruments, VHF] }", "instruments] }"], // prettier-ignore
  ["sloop", { do: "set-state-figure", state: "at anchor", figure: "battery", text: "20 %" }, "at anchor battery 40 → 20 %", "charge: 40 %", "charge: 20 %"], // prettier-ignore
  ["sloop", { do: "set-state-figure", state: "motoring", figure: "engine", text: "off" }, "motoring engine running → off", "engine: running", "engine: off"], // prettier-ignore
];

test.each(oneLine)("%s: %o changes its own line and no other", (example, request, step, from, to) => {
  const { gone, put, text, ...result } = done(example, request);
  assert.equal(result.step, step);
  assert.deepEqual(newTroubles(compiledExample(example).text, text), []);
  if (request.do === "add-load") {
    assert.deepEqual(put, [
      "lamp: { kind: light, running: 4 W }",
      "W13: { path: PNL:1 → fridge, length: 5.2 m, then: [lamp] }",
    ]);
    return;
  }
  assert.equal(gone.length, 1);
  assert.deepEqual(put, [gone[0]?.replace(from, to)]);
});

test("what was typed is asked back where it can be read in two ways or has no unit", () => {
  const message = (about: string, field: string, text: string) => askedBack("sloop", set(about, field, text)).message;
  assert.equal(message("circuits.W13", "length", "1,000 m"), "`1,000` can mean 1.000 or 1000");
  assert.equal(message("circuits.W13", "length", "3.2"), "a length needs a unit");
  assert.match(message("circuits.W13", "size", "12/2 boat duplex"), /is the label of a cable/);
  assert.equal(
    message("parts.fridge", "load", "45 m"),
    "`m` is the unit of a length; a current or a power was expected",
  );
  assert.equal(message("circuits.W13", "length", "-3 m"), "expected a length with its unit, above 0; found `-3 m`");
  assert.equal(message("parts.PNL", "device", "lever"), "expected `breaker` or `fuse`, found `lever`");
  assert.equal(askedBack("sloop", set("parts.frige", "load", "45 W")).hint, "did you mean `fridge`?");
  assert.equal(askedBack("sloop", set("circuits.W13", "lenght", "5 m")).hint, "did you mean `length`?");
  assert.match(askedBack("van", set("circuits.W04", "length", "1 m")).message, /a length for each stretch/);
});

test("a value that stands there already is no step", () => {
  const same = ask("sloop", set("circuits.W13", "length", "5.2 m"));
  assert.ok(same.ok && same.splices.length === 0 && same.remarks.length === 1);
});

test("an edit that breaks other lines is made, and says what it broke", () => {
  const { remarks } = done("sloop", set("parts.PNL", "ways", "10"));
  assert.deepEqual(remarks, ["now `PNL` has no terminal `11`", "now `PNL` has no terminal `12`"]);
});

test("a circuit that is shorter than its ends are apart is written, and told", () => {
  const { remarks } = done("sloop", { do: "feed", circuit: "circuits.W31", from: "parts.B1" });
  assert.deepEqual(remarks, ["now `W31` is 0.4 m long, its ends are 1.36 m apart in a straight line"]);
});

test("a load gets a part, a circuit of the next number and the next free way", () => {
  const van = done("van", { do: "add-load", at: "parts.FB", text: "reading light 3 W, 6 ft" });
  assert.deepEqual(van.put, [
    "reading light: { kind: light, running: 3 W }",
    "W31: { path: FB:9 → reading light, length: 6 ft }",
  ]);
  assert.deepEqual([van.gone, van.select], [[], "circuits.W31"]);
  assert.ok(
    van.remarks.includes(
      "it is off in all 6 states and judged running and starting alone; turn it on where it runs with others",
    ),
  );
  const hut = done("hut", { do: "add-load", at: "parts.LC:12", text: "toaster 800 W, 5 m" });
  assert.ok(hut.put.includes("W25: { path: LC:12 → toaster, length: 5 m }"));
  const full = askedBack("sloop", { do: "add-load", at: "parts.PNL", text: "kettle socket 8 A, 4.2 m" });
  assert.equal(full.message, "all 12 ways of `PNL` are taken");
  assert.match(full.hint, /`BP`/);
  for (const { text } of [van, hut])
    assert.deepEqual(newTroubles(compiledExample(text.includes("hut") ? "hut" : "van").text, text), []);
});

test("a load is on in the states that are named, and a name that is taken gets a number", () => {
  const { put, remarks, text } = done("sloop", {
    do: "add-load",
    at: "parts.BP",
    text: "fridge 45 W, start 8 A, 3 m",
    on: ["at anchor"],
  });
  assert.ok(put.includes("fridge 2: { kind: load, running: 45 W, starting: 8 A }"));
  assert.ok(put.includes("W35: { path: BP → fridge 2, length: 3 m }"));
  assert.ok(put.some((line) => line.startsWith("at anchor:") && line.includes("battery monitor, fridge 2]")));
  assert.equal(remarks[0], "`fridge` is in the plan already: this one is called `fridge 2`");
  const circuit = compile(text).design.circuits.find(({ id }) => id === "W35");
  assert.ok(circuit?.size != null && circuit.devices[0]?.ratingA != null, "it has a size and a device");
});

test("volts that a place does not give are asked back", () => {
  const back = askedBack("sloop", { do: "add-load", at: "parts.BP", text: "kettle 1 kW 230 V, 4 m" });
  assert.equal(back.message, "`230 V` was said, and `BP` gives 12 V");
});

test("a device without a rating is proposed for what the circuit carries", () => {
  const fuse = done("sloop", { do: "insert-device", circuit: "circuits.W12", text: "fuse" });
  // The one that the design chooses, by its family: a short at BP is more than what is usual there breaks.
  assert.match(fuse.put[0] ?? "", /fuse: 150 A battery-post at BP }$/);
  const found = done("sloop-audit", { do: "insert-device", circuit: "circuits.W02", text: "fuse" });
  assert.match(found.put[0] ?? "", /fuse: \d+ A .*at B2, as found: yes }/);
  assert.match(
    askedBack("sloop", { do: "insert-device", circuit: "circuits.W12", text: "fuse", distance: "20 m" }).message,
    /beyond the end/,
  );
});

test("a switch is put into the path, with a length for each side of it", () => {
  const { put } = done("sloop", { do: "insert-device", circuit: "circuits.W12", text: "switch", distance: "2 m" });
  assert.deepEqual(put, [
    "SW2: { kind: switch, rated: 100 A }",
    "W12: { path: BP → SW2 → windlass, zones: { dry: rest, locker: 1.2 m }, legs: [2 m, 6.6 m] }",
  ]);
});

test("a part that goes leaves its circuits with an open end, and reading the plan says so", () => {
  const { put, remarks, text, select } = done("sloop", { do: "remove", about: "parts.fridge" });
  assert.ok(text.includes("W13: { path: PNL:1 → fridge, length: 5.2 m }"));
  assert.equal(put.length, 5, "the five states say no more of it");
  assert.equal(select, "circuits.W13");
  assert.ok(remarks.includes("`W13` stays, with an open end where `fridge` was"));
  assert.deepEqual(newTroubles(compiledExample("sloop").text, text), ["no part is called `fridge`"]);
});

test("facts that another part copied stay with it", () => {
  const { text } = done("sloop", { do: "remove", about: "parts.B1" });
  const unit = compile(text).system.elements.find((e) => e.is === "store" && e.part === "B2");
  assert.ok(unit?.is === "store" && unit.unit.capacityCoulombs !== undefined);
  assert.deepEqual(newTroubles(compiledExample("sloop").text, text), ["no part is called `B1`"]);
});

test("a circuit that goes takes its line and the comment behind it", () => {
  const { gone, put, remarks } = done("sloop", { do: "remove", about: "circuits.W18" }, 1);
  assert.deepEqual([gone.length, put.length], [1, 0]);
  assert.deepEqual(remarks, ["no circuit leads to `bilge pump` now"]);
});

test("two circuits change places on a panel", () => {
  const { put, remarks, text } = done("sloop", { do: "move-way", circuit: "circuits.W13", way: "3" });
  assert.deepEqual(put, [
    "W13: { path: PNL:3 → fridge, length: 5.2 m }",
    "W15: { path: PNL:1 → air heater, length: 4.3 m, zone: locker }",
  ]);
  assert.deepEqual(remarks, ["W15 stood there and takes way 1"]);
  assert.deepEqual(newTroubles(compiledExample("sloop").text, text), []);
});

test("a renamed thing is renamed wherever the plan speaks of it, so that all comes out as before", () => {
  const names = [
    ["sloop-audit", "parts.bilge pump", "sump"],
    ["sloop", "parts.PNL", "P1"],
    ["sloop", "parts.BP", "a, {b}"],
    ["sloop", "parts.SW1", 'sw "1" #2'],
    ["sloop", "states.at anchor", "anchored"],
    ["sloop", "systems.DC", "house"],
    ["sloop", "zones.engine space", "engine room"],
    ["sloop-audit", "circuits.W13", "W113"],
    ["van", "parts.ACP", "mains board"],
  ] as const;
  for (const [example, about, to] of names) {
    const { text } = done(example, { do: "rename", about, to });
    const { compiled } = compiledExample(example);
    const then = compile(text);
    const troubles = ({ diagnostics }: typeof then) => diagnostics.filter((d) => d.level !== "note").length;
    assert.equal(troubles(then), troubles(compiled), `${about} → ${to}`);
    assert.deepEqual(
      then.design.circuits.map((c) => [c.size?.label, c.steadyA, c.devices.length]),
      compiled.design.circuits.map((c) => [c.size?.label, c.steadyA, c.devices.length]),
      `${about} → ${to}`,
    );
    assert.deepEqual(then.judgement.tally, compiled.judgement.tally, `${about} → ${to}`);
  }
});

test("a waiver names the finding, keeps the reason as it was typed, and stops it", () => {
  const { compiled } = compiledExample("sloop");
  const finding = compiled.judgement.findings.find((f) => f.outcome === "fail");
  assert.ok(finding !== undefined);
  const { rule, about } = finding;
  const request = {
    do: "waive",
    finding: { rule, about },
    reason: 'the owner: "yes", #1',
    until: "2099-01-01",
  } as const;
  const { text } = done("sloop", request);
  const waived = compile(text).judgement.findings.find((f) => f.rule === rule && f.about === about)?.waived;
  assert.deepEqual([waived?.reason, waived?.until, waived?.lapsed], ['the owner: "yes", #1', "2099-01-01", null]);
  assert.equal(askedBack("sloop", { ...request, reason: " " }).message, "why may this stand?");
  assert.match(askedBack("sloop", { ...request, until: "next year" }).message, /is no day/);
});

test("a question of the wire desk stands in the plan with its own figures", () => {
  const { put } = done("sloop", {
    do: "put-question-in-plan",
    question: { load: "45 W", start: "8 A", loop: "10,4 m", drop: "3 %", volts: "12 V" },
    at: "parts.BP",
    name: "cool box",
    wire: "4 mm2",
  });
  assert.deepEqual(put, [
    "cool box: { kind: load, running: 45 W, starting: 8 A }",
    "W35: { path: BP → cool box, length: 5.2 m, drop: 3 %, wire: 4 mm² }",
  ]);
});

test("a plan that has changed in between is not edited by places of the old one", () => {
  const { text, compiled } = compiledExample("sloop");
  const result = act(`# one line more\n${text}`, compiled, set("circuits.W13", "length", "6 m"));
  assert.equal(result.ok, false);
});
