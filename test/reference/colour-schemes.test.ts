import { describe, test } from "vitest";
import assert from "node:assert/strict";
import {
  allSchemes,
  baseColours,
  clashBetween,
  findClashes,
  looksLike,
  meaningsOf,
  readColour,
  schemeColours,
  wireFunctions,
  type ColourUse,
  type WireFunction,
} from "../../src/wire/colour/index.ts";
import { isVerified } from "../../src/explain/index.ts";

const colours = (scheme: string, of: WireFunction) => schemeColours(scheme, of).map((colour) => colour.join("/")).join(" ");

/** Rows of three postings of the ABYC E-11 tables that agree, and of a posted E-8 clause list. */
describe("US boats (ABYC E-11, E-8 as quoted)", () => {
  const rows: [scheme: string, of: WireFunction, colours: string][] = [
    ["abyc-dc", "DC positive", "RD"],
    ["abyc-dc", "DC negative", "YE BK"],
    ["abyc-dc", "DC bonding", "GN GNYE"],
    ["abyc-dc", "starting circuit", "YE/RD"],
    ["abyc-dc", "bilge blower", "BN/YE"],
    ["abyc-dc-old", "bilge blower", "YE"],
    ["abyc-dc", "navigation lights", "DGY"],
    ["abyc-dc", "tachometer", "DGY"],
    ["abyc-dc", "pumps", "BN"],
    ["abyc-dc", "charge light", "BN"],
    ["abyc-dc", "accessory feed", "OG"],
    ["abyc-dc", "ignition", "VT"],
    ["abyc-dc", "cabin lights", "DBU"],
    ["abyc-dc", "instrument lights", "DBU"],
    ["abyc-dc", "oil pressure", "LBU"],
    ["abyc-dc", "water temperature", "TN"],
    ["abyc-dc", "fuel gauge", "PK"],
    ["abyc-dc", "tilt down, trim in", "GN/*"],
    ["abyc-dc", "tilt up, trim out", "BU/*"],
    ["abyc-ac", "line", "BK BN"],
    ["abyc-ac", "neutral", "WH LBU"],
    ["abyc-ac", "protective earth", "GN GNYE"],
    ["abyc-ac", "line 2", "RD OG BU BK/RD BK/BU BK/OG"],
  ];
  test.each(rows)("%s %s %s", (scheme, of, wanted) => { assert.equal(colours(scheme, of), wanted); });
});

/** NOM-001-SEDE-2012 200-6 and 250-119 (the NEC text), two RV pages, extracts and forum quotations of IEC 60445/60446, EN 60204-1 and BS 7671. */
describe("buildings, vehicles, trailers", () => {
  const rows: [scheme: string, of: WireFunction, colours: string][] = [
    ["nec", "neutral", "WH GY"],
    ["nec", "protective earth", "GN GNYE BARE"],
    ["nec", "line", "BK"],
    ["nec", "line 2", "RD"],
    ["iec-2017", "line", "BN"],
    ["iec-2017", "line 2", "BK"],
    ["iec-2017", "line 3", "GY"],
    ["iec-2017", "neutral", "BU"],
    ["iec-2017", "protective earth", "GNYE"],
    ["iec-2017", "DC positive", "RD"],
    ["iec-2017", "DC negative", "WH"],
    ["iec-2017", "functional earth", "PK"],
    ["iec-2010", "DC positive", "BN"],
    ["iec-2010", "DC negative", "GY BU"],
    ["iec-2010", "functional earth", "CR"],
    ["bs-2022", "DC negative", "WH"],
    ["bs-2004", "DC positive", "BN"],
    ["iso-small-craft", "line", "BK BN"],
    ["iso-small-craft", "neutral", "WH LBU"],
    ["iso-small-craft", "protective earth", "GN GNYE"],
    ["iso-small-craft", "DC negative", "BK YE"],
    ["german-cars", "DC negative", "BN"],
    ["german-cars", "DC positive", "RD"],
    ["german-cars", "ignition", "BK"],
    ["german-cars", "side and tail lamps", "GY"],
    ["german-cars", "main and dip beam", "WH YE"],
    ["sae-j560", "DC negative", "WH"],
    ["sae-j560", "clearance lamps", "BK"],
    ["sae-j560", "left turn", "YE"],
    ["sae-j560", "stop lamps", "RD"],
    ["sae-j560", "right turn", "GN"],
    ["sae-j560", "tail lamps", "BN"],
    ["sae-j560", "auxiliary feed", "BU"],
    ["rv-7-way", "electric brake", "BU"],
    ["rv-7-way", "trailer 12 V feed", "BK"],
    ["rv-7-way", "auxiliary feed", "RD"],
    ["rv-7-way-old", "tail lamps", "GN"],
    ["rv-7-way-old", "left turn", "RD"],
    ["rv-7-way-old", "right turn", "BN"],
    ["rv-7-way-old", "reverse lamps", "YE"],
  ];
  test.each(rows)("%s %s %s", (scheme, of, wanted) => { assert.equal(colours(scheme, of), wanted); });

  test("what was remembered says so", () => {
    const trust = (scheme: string) => allSchemes().find(({ id }) => id === scheme)?.meanings.map(({ source }) => source.trust) ?? [];
    for (const scheme of ["british-cars", "japanese-us-cars", "rv-7-way-old"]) assert.ok(trust(scheme).every((word) => word === "memory"));
    for (const scheme of ["abyc-dc", "iec-2017", "sae-j560"]) assert.ok(trust(scheme).every(isVerified));
  });
});

test("every colour of a scheme is one that has a name, and every function is given a colour by some scheme", () => {
  const known = new Set<string>([...baseColours.map(({ letters }) => letters), "*"]);
  const used = new Set<string>();
  for (const { meanings } of allSchemes()) {
    for (const meaning of meanings) {
      used.add(meaning.function);
      for (const letters of meaning.colours.flat()) assert.ok(known.has(letters), letters);
    }
  }
  assert.deepEqual([...used].sort(), Object.keys(wireFunctions).sort());
});

/** What one colour may be: the collected rows of the schemes above. */
describe("one colour, many meanings", () => {
  const rows: [colour: string, meanings: string[]][] = [
    ["black", ["nec line", "iec-2017 line 2", "abyc-dc DC negative", "iso-small-craft DC negative", "rv-dc DC positive", "german-cars ignition", "rv-7-way trailer 12 V feed", "sae-j560 clearance lamps"]],
    ["white", ["nec neutral", "iec-2017 DC negative", "rv-dc DC negative", "sae-j560 DC negative", "rv-7-way DC negative", "german-cars main and dip beam"]],
    ["blue", ["iec-2017 neutral", "rv-7-way electric brake", "abyc-dc cabin lights", "iec-2010 DC negative"]],
    ["brown", ["iec-2017 line", "german-cars DC negative", "abyc-dc pumps", "sae-j560 tail lamps", "bs-2004 DC positive"]],
    ["yellow", ["abyc-dc DC negative", "iso-small-craft DC negative", "sae-j560 left turn", "abyc-dc-old bilge blower"]],
    ["green", ["nec protective earth", "sae-j560 right turn", "rv-7-way-old tail lamps"]],
    ["red", ["abyc-dc DC positive", "nec line 2", "sae-j560 stop lamps", "bs-old line"]],
  ];
  test.each(rows)("%s", (name, wanted) => {
    const colour = readColour(name) ?? [""];
    const found = meaningsOf(colour).map((meaning) => `${meaning.scheme} ${meaning.function}`);
    assert.deepEqual(wanted.filter((meaning) => !found.includes(meaning)), []);
    assert.ok(new Set(meaningsOf(colour).map((meaning) => meaning.function)).size > 2);
  });
});

const use = (colour: string, of: WireFunction, system: ColourUse["system"], where = "panel"): ColourUse => ({
  colour: readColour(colour) ?? [""],
  function: of,
  system,
  where,
});

/** The pairs that rule `label/colour-clash` names, with the conductor that is freer to change. */
describe("clashes", () => {
  const pairs: [a: ColourUse, b: ColourUse, hazard: string, changes: WireFunction, to: string | null][] = [
    [use("black", "DC negative", "DC"), use("black", "line", "AC"), "shock", "DC negative", "YE"],
    [use("white", "neutral", "AC"), use("white", "DC negative", "DC"), "shock", "DC negative", "BK"],
    [use("brown", "line", "AC"), use("brown", "DC negative", "vehicle"), "shock", "line", "BK"],
    [use("blue", "neutral", "AC"), use("blue", "DC negative", "DC"), "shock", "DC negative", "GY"],
    [use("yellow", "DC negative", "DC"), use("yellow", "bilge blower", "DC"), "short circuit", "bilge blower", "BN/YE"],
    [use("green", "protective earth", "AC"), use("green", "right turn", "trailer"), "lost earth", "protective earth", "GNYE"],
    [use("black", "DC positive", "DC"), use("black", "DC negative", "DC"), "reversed", "DC negative", "YE"],
  ];
  test.each(pairs)("%o and %o", (a, b, hazard, changes, to) => {
    const [clash, ...more] = findClashes([a, b]);
    assert.deepEqual(more, []);
    assert.ok(clash !== undefined);
    assert.equal(clash.hazard, hazard);
    assert.equal(clash.together, true);
    assert.equal(clash[clash.change].function, changes);
    assert.equal(clash.to?.join("/") ?? null, to);
    // The same pair the other way round is the same clash.
    const turned = findClashes([b, a])[0];
    assert.deepEqual([turned?.hazard, turned?.[turned.change].function, turned?.to], [hazard, changes, clash.to]);
  });

  test("one potential, other colours and nuisances are no clash", () => {
    assert.deepEqual(findClashes([use("brown", "pumps", "DC"), use("brown", "tail lamps", "trailer")]), []);
    assert.deepEqual(findClashes([use("black", "DC negative", "DC"), use("black", "DC negative", "vehicle")]), []);
    assert.deepEqual(findClashes([use("yellow", "DC negative", "DC"), use("black", "line", "AC")]), []);
    assert.deepEqual(findClashes([use("brown", "line", "AC"), use("brown/yellow", "bilge blower", "DC")]), []);
  });

  test("those in one place come first, and the same use twice is one", () => {
    const far = use("black", "line", "AC", "galley");
    const found = findClashes([use("black", "DC negative", "DC"), far, far, use("black", "line", "AC")]);
    assert.deepEqual(found.map(({ together }) => together), [true, false]);
  });

  test("a colour that is proposed clashes with nothing that is in use", () => {
    const all = allSchemes().flatMap(({ meanings }) => meanings);
    const uses = all.flatMap((meaning) => meaning.colours.map((colour): ColourUse => ({ ...meaning, colour, where: "build" })));
    for (let from = 0; from < uses.length; from += 7) {
      const some = uses.slice(from, from + 25);
      const before = findClashes(some);
      for (const { to, change, ...clash } of before) {
        if (to === null) continue;
        const changed = clash[change];
        const after = findClashes(some.map((one) => (one === changed ? { ...one, colour: to } : one)));
        assert.ok(after.length < before.length);
      }
    }
  });
});

describe("two schemes in one build", () => {
  const told = (a: string, b: string) =>
    clashBetween(a, b).map(({ first, second }) => `${first.colour.join("/")} ${first.function} / ${second.function}`);

  test("ABYC DC beside ABYC AC: black; so yellow is the better minus", () => {
    assert.ok(told("abyc-dc", "abyc-ac").includes("BK DC negative / line"));
    const clash = clashBetween("abyc-dc", "abyc-ac").find(({ first }) => first.function === "DC negative");
    assert.deepEqual(clash?.to, ["YE"]);
  });
  test("ISO small craft contradicts itself in black", () => { assert.deepEqual(told("iso-small-craft", "iso-small-craft"), ["BK line / DC negative"]); });
  test("North American AC beside IEC DC: white", () => { assert.ok(told("nec", "iec-2017").includes("WH neutral / DC negative")); });
  test("IEC AC in a German vehicle: brown", () => { assert.ok(told("iec-2017", "german-cars").includes("BN line / DC negative")); });
  test("IEC AC beside the older IEC DC: blue and brown", () => {
    const found = told("iec-2017", "iec-2010");
    assert.ok(found.includes("BU neutral / DC negative") && found.includes("BN line / DC positive"));
  });
  test("yellow minus beside the older blower", () => { assert.deepEqual(told("abyc-dc", "abyc-dc-old"), ["YE DC negative / bilge blower"]); });
  test("schemes that agree do not clash, and unknown ones are silent", () => {
    assert.deepEqual(told("iec-2017", "bs-2022"), []);
    assert.deepEqual(told("iec-2017", "nothing"), []);
  });
  test("whichever is named first, the same pairs clash", () => {
    const ids = allSchemes().map(({ id }) => id);
    for (const a of ids) for (const b of ids) assert.equal(clashBetween(a, b).length, clashBetween(b, a).length, `${a} ${b}`);
  });
});

test("light and dark blue are told apart, a plain blue from neither", () => {
  assert.ok(looksLike(["BU"], ["LBU"]) && looksLike(["DBU"], ["BU"]) && !looksLike(["LBU"], ["DBU"]));
});
