import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../../compile.ts";
import { completeAt, hoverAt } from "./index.ts";

const sloop = readFileSync(new URL("../../../examples/sloop.yaml", import.meta.url), "utf8");
const compiled = compile(sloop);

/** Writes `put` in place of `find`; the cursor stands at `¦`. */
function at(find: string, put: string) {
  assert.ok(sloop.includes(find), find);
  const marked = sloop.replace(find, put);
  const offset = marked.indexOf("¦");
  return { text: marked.replace("¦", ""), offset };
}

function offered(find: string, put: string) {
  const { text, offset } = at(find, put);
  const found = completeAt(text, offset, compiled);
  const options = found?.options ?? [];
  return {
    labels: options.map((o) => o.label),
    options,
    replaced: found === null ? null : text.slice(found.from, found.to),
    take: (label: string) => {
      const option = options.find((o) => o.label === label);
      assert.ok(found !== null && option !== undefined, `${label} among ${options.map((o) => o.label).join(", ")}`);
      const lineFrom = text.lastIndexOf("\n", found.from - 1) + 1;
      const lineTo = text.indexOf("\n", found.to);
      return (text.slice(lineFrom, found.from) + option.insert + text.slice(found.to, lineTo)).trim();
    },
  };
}

describe("what may be written", () => {
  const cases: readonly [
    what: string,
    find: string,
    put: string,
    labels: readonly string[],
    not?: readonly string[],
  ][] = [
    ["sections that are not there yet", "modes: [", "wai¦\nmodes: [", ["waivers", "family"], ["parts", "circuits"]],
    [
      "keys of a circuit, those that stand there left out",
      "W14: { path",
      "W14: { ¦, path",
      ["wire", "fuse", "zones"],
      ["path", "length", "zone"],
    ],
    [
      "keys of a kind of part",
      "windlass: { kind: load,",
      "windlass: { kind: load, ¦,",
      ["starts above", "largest fuse"],
      ["running", "capacity"],
    ],
    [
      "keys of the kind that is being written",
      "  GI: {",
      "  X: { kind: battery, ¦ }\n  GI: {",
      ["capacity", "chemistry"],
    ],
    [
      "keys in lines of their own",
      "    capacity: 150 Ah\n",
      "    capacity: 150 Ah\n    ¦\n",
      ["cranking", "like"],
      ["capacity", "nominal", "at"],
    ],
    ["keys of a part that is like another", "  B2: { like: B1,", "  B2: { like: B1, ¦,", ["capacity"], ["like"]],
    [
      "keys of a map inside",
      "main: { residual device: 30 mA,",
      "main: { residual device: 30 mA, ¦,",
      ["rated"],
      ["residual device", "poles"],
    ],
    ["kinds of part", "windlass: { kind: load", "windlass: { kind: ¦", ["battery", "fuse block", "load"]],
    ["words", "chemistry: LFP", "chemistry: ¦", ["LFP", "AGM", "unknown"]],
    ["yes and no", "both ways: no", "both ways: ¦", ["yes", "no"]],
    ["parts in a path", "PNL:1 → fridge", "PNL:1 → fri¦dge", ["fridge", "BP"]],
    ["the arrow behind a part", "PNL:1 → fridge,", "PNL:1¦,", []],
    ["parts by name", "return: BN", "return: ¦", ["BN", "PNL"]],
    ["zones", "zone: mast", "zone: ¦", ["mast", "engine space"]],
    [
      "zones as names of a map",
      "zones: { dry: rest,",
      "zones: { ¦, dry: rest,",
      ["engine space", "bilge"],
      ["dry", "locker"],
    ],
    ["words of a map's value", "locker: 1.2 m }", "locker: ¦ }", ["rest", "some"]],
    ["loads of a state", "on: [fridge, VHF, windlass]", "on: [fridge, ¦]", ["windlass", "toilet"], ["BP", "B1"]],
    ["parts of a state that have positions", "TS: inverter, on", "¦, on", ["TS", "SW1", "sun"], ["fridge", "engine"]],
    ["positions", "TS: inverter, on", "TS: ¦, on", ["shore", "inverter", "off"]],
    ["states", "like: at anchor", "like: ¦", ["on passage", "alongside"]],
    ["rule sets", "  DC: iso-small-craft 2020+A1:2022", "  DC: ¦", ["iso-small-craft 2020+A1:2022"]],
    ["systems", "  AC: iso-small-craft 2020+A1:2022", "  ¦", ["AC"], ["DC"]],
    ["units of a length", "length: 5.2 m", "length: 5.2 ¦", ["m", "ft"], ["A"]],
    ["units of a list's item", "at: [4.9 m", "at: [4.9 ¦", ["m"]],
    ["units of amps and watts", "running: 4.3 A", "running: 4.3¦", ["A", "W"], ["m"]],
    [
      "sizes, the chosen one first",
      "W13: { path: PNL:1 → fridge,",
      "W13: { path: PNL:1 → fridge, wire: ¦,",
      ["2.5 mm²", "unknown"],
    ],
    ["devices", "W13: { path: PNL:1 → fridge,", "W13: { path: PNL:1 → fridge, fuse: ¦,", ["none", "unknown"]],
    [
      "where a device stands",
      "W13: { path: PNL:1 → fridge,",
      "W13: { path: PNL:1 → fridge, fuse: 10 A at ¦,",
      ["PNL", "fridge"],
    ],
    ["findings to waive", "modes: [", "waivers:\n  ¦\nmodes: [", ["battery/switched-off-always-on-load bilge pump"]],
    ["the next wire number", "  W30:", "  ¦\n  W30:", ["W35"]],
  ];
  for (const [what, find, put, labels, not] of cases) {
    test(what, () => {
      const { labels: found } = offered(find, put);
      assert.deepEqual(
        labels.filter((l) => !found.includes(l)),
        [],
      );
      assert.deepEqual(
        (not ?? []).filter((l) => found.includes(l)),
        [],
      );
    });
  }

  test("free ways come before those that are taken", () => {
    const text = sloop.replace("ways: 12", "ways: 14").replace("path: PNL:1 → fridge", "path: PNL: → fridge");
    const found = completeAt(text, text.indexOf("PNL: →") + 4, compile(text));
    assert.deepEqual(
      found?.options.slice(0, 3).map((o) => [o.label, o.detail]),
      [
        ["1", "free"],
        ["13", "free"],
        ["14", "free"],
      ],
    );
    assert.ok(found?.options.some((o) => o.label === "2" && o.detail.startsWith("W14 to")));
  });

  test("what is put in leaves a line that reads", () => {
    assert.equal(
      offered("W13: { path: PNL:1", "W13: { path: PNL:¦").take("12"),
      "W13: { path: PNL:12 → fridge, length: 5.2 m }",
    );
    assert.equal(
      offered("PNL:1 → fridge,", "PNL:1 → fri¦,").take("fridge"),
      "W13: { path: PNL:1 → fridge, length: 5.2 m }",
    );
    assert.equal(
      offered("PNL:1 → fridge,", "PNL:1 →¦,").take("fridge"),
      "W13: { path: PNL:1 → fridge, length: 5.2 m }",
    );
    assert.equal(offered("length: 5.2 m", "length: 5.2¦").take("ft"), "W13: { path: PNL:1 → fridge, length: 5.2 ft }");
    assert.equal(
      offered("length: 5.2 m", "length: 5.2 ¦m").take("ft"),
      "W13: { path: PNL:1 → fridge, length: 5.2 ft }",
    );
    assert.equal(
      offered("zone: mast", "zone:¦").take("deck"),
      "W14: { path: PNL:2 → masthead light, length: 20.5 m, zone: deck }",
    );
    assert.equal(
      offered("zone: mast", "zo¦ne: mast").take("zones"),
      "W14: { path: PNL:2 → masthead light, length: 20.5 m, zones: mast }",
    );
    assert.equal(offered("chemistry: LFP", "che¦: LFP").take("chemistry"), "chemistry: LFP");
  });

  test("a name that means something to the language is put in quotes", () => {
    const text = 'zones:\n  "a, b": { kind: dry }\ncircuits:\n  W1: { zone:  }\n';
    const found = completeAt(text, text.indexOf("zone:  }") + 6, compile(text));
    assert.equal(found?.options[0]?.insert, '"a, b"');
  });

  test("nothing is offered in a comment, and behind a closed bracket", () => {
    assert.equal(offered("# joins the two", "# joi¦ the two").replaced, null);
    assert.equal(offered("length: 0.4 m }", "length: 0.4 m }¦").replaced, null);
  });
});

describe("what stands there", () => {
  const hover = (find: string, more = 1) => hoverAt(sloop, sloop.indexOf(find) + more, compiled);
  test("a circuit says its size, device, drop, start volts and what decided", () => {
    const found = hover("W13:");
    const own = compiled.design.circuits.find((c) => c.id === "W13");
    assert.equal(found?.subject, "W13");
    assert.match(
      found?.lines.join("\n") ?? "",
      new RegExp(`W13: ${own?.size?.label ?? "?"}, chosen, decided by [a-z ]+\n`),
    );
    assert.match(
      found?.lines.join("\n") ?? "",
      /breaker 7\.5 A at PNL:1, proposed\ndrop \d\.\d\d V, \d\.\d % of 10\.0 % allowed\n/,
    );
  });
  test("a part says its amps and volts", () => {
    const found = hover("fridge: {");
    assert.equal(found?.subject, "fridge");
    assert.match(found?.lines.join("\n") ?? "", /4\.3 A at 1\d\.\d\d V, .*\n.*runs above 10\.50 V\n.*needs 11\.50 V/);
  });
  test("a key says what it means", () => {
    assert.deepEqual(
      hover("demand: 45 A")?.lines[0],
      "demand: Current that a feeder must be able to carry to its far end.",
    );
    assert.equal(hover("demand: 45 A")?.subject, "W04.current");
  });
  test("a figure is told in other units", () => {
    assert.equal(hover("60 °C }")?.lines[0], "60 °C = 140 °F");
    assert.equal(hover("running: 4.3 A", 10)?.lines[0], "4.3 A = 51.6 W at 12 V");
  });
  test("what is assumed is told at the thing, with the key that says otherwise", () => {
    assert.ok(
      hover("windlass: {")?.lines.includes(
        "assumed: motors start above three quarters of nominal: 9 V; `starts above` says otherwise",
      ),
    );
  });
  test("a point of a path is the part, and what stands at its terminal", () => {
    const found = hover("PNL:1 →");
    assert.deepEqual(found && sloop.slice(...found.at), "PNL:1");
    assert.ok(found?.lines.includes("PNL:1: W13 to fridge"));
  });
  test("of a text that was not compiled only the grammar is told", () => {
    const text = `# newer\n${sloop}`;
    assert.deepEqual(hoverAt(text, text.indexOf("W13:") + 1, compiled), null);
    assert.equal(hoverAt(text, text.indexOf("demand:") + 1, compiled)?.subject, null);
  });
});

describe("hostile and half written text", () => {
  const examples = ["sloop", "sloop-us", "sloop-audit", "van", "hut"].map((name) =>
    readFileSync(new URL(`../../../examples/${name}.yaml`, import.meta.url), "utf8"),
  );
  const check = (text: string, offset: number): void => {
    const found = completeAt(text, offset, compiled);
    const told = hoverAt(text, offset, compiled);
    if (found !== null) {
      assert.ok(found.from <= offset && offset <= found.to, "around the offset");
      assert.ok(!text.slice(found.from, found.to).includes("\n"), "within its line");
      assert.ok(
        found.options.every((o) => !/[\n\r]/.test(o.insert)),
        "nothing breaks the line",
      );
    }
    if (told !== null) assert.ok(told.at[0] < told.at[1] && told.at[1] <= text.length && told.lines.length > 0);
  };
  test("any offset of any example", () => {
    for (const text of examples) for (let offset = 0; offset <= text.length; offset += 7) check(text, offset);
  });
  test("any offset of a text that was spoilt", () => {
    const junk = fc.constantFrom(
      "{",
      "}",
      "[",
      "]",
      ":",
      ",",
      '"',
      "'",
      "#",
      "\n",
      "\n  ",
      "→",
      "\t",
      "<script>",
      "__proto__: ",
      "- ",
      "|",
      "&a",
      "\r\n",
      "\u0000",
      "🛥",
    );
    fc.assert(
      fc.property(
        fc.nat(4),
        fc.nat(),
        fc.nat(40),
        fc.array(junk, { maxLength: 4 }),
        fc.nat(60),
        (which, where, cut, put, ahead) => {
          const text = examples[which] ?? "";
          const at = where % (text.length + 1);
          const spoilt = text.slice(0, at) + put.join("") + text.slice(at + cut);
          check(spoilt, Math.max(0, Math.min(spoilt.length, at + ahead - 20)));
        },
      ),
      { numRuns: 1500 },
    );
  });
});
