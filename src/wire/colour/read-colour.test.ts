import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import {
  baseColours,
  colourAt,
  colourChoices,
  colourLooks,
  colourName,
  coreColoursAt,
  lookOf,
  readColour,
} from "./index.ts";

const said = (text: string) => readColour(text)?.join("/") ?? null;

describe("colours are read as people write them", () => {
  const spellings: [colour: string | null, string[]][] = [
    ["RD", ["red", "Red", "RED", "RD", "rot", "rt", "rouge", "красный", "赤", " red "]],
    ["GY", ["grey", "gray", "GRY", "GY", "slate", "grau"]],
    ["VT", ["violet", "purple", "VT", "PUR"]],
    ["DGY", ["dark grey", "dk gray", "dunkelgrau", "DKGRY", "Dark-Grey"]],
    ["LBU", ["light blue", "lt. blue", "LT BLU", "sky blue", "hellblau"]],
    [
      "GNYE",
      [
        "GNYE",
        "GN/YE",
        "GN-YE",
        "green/yellow",
        "yellow/green",
        "green with yellow tracer",
        "GRN/YEL",
        "grün-gelb",
        "vert/jaune",
      ],
    ],
    ["YE/GN", ["yellow with green stripe", "yellow/green tracer"]],
    ["RD/YE", ["red/yellow", "RD-YE", "RDYE", "red with a yellow stripe", "REDYEL"]],
    ["YE/RD", ["YEL/RED stripe", "yellow/red stripe", "yellow w/ red stripe", "yellow red stripe"]],
    ["BK/WH/YE", ["BKWHYE", "BK/WH/YE", "black/white/yellow"]],
    ["BK/BU", ["sw/bl", "BK/BU"]],
    ["BARE", ["bare"]],
    // Dialects differ, one letter is too little, or no colour is meant.
    [
      null,
      [
        "B",
        "BL",
        "GR",
        "R/Y",
        "G",
        "OR",
        "or",
        "",
        "reddish",
        "red cable",
        "red/",
        "RDX",
        "BKWH1",
        "light",
        "red/white/blue/green",
      ],
    ],
  ];
  test.each(spellings)("%s", (colour, texts) => {
    for (const text of texts) assert.equal(said(text), colour, text);
  });

  test("letters that dialects read differently are told with their readers", () => {
    const names = (text: string) => colourChoices(text).map(({ name }) => name);
    assert.deepEqual(names("B"), ["black", "blue"]);
    assert.deepEqual(names("BL"), ["blue", "black"]);
    assert.deepEqual(names("GR"), ["grey", "green"]);
    assert.deepEqual(names("R/Y"), ["red with yellow tracer"]);
    assert.deepEqual(names("GR/B").length, 4);
    for (const choice of colourChoices("GR/B")) assert.equal(choice.by.length, 2);
  });

  test("every colour's letters and name read as itself", () => {
    for (const { letters, name, own } of baseColours) {
      assert.equal(said(name), letters, name);
      if (!own) assert.equal(said(letters), letters);
    }
  });

  test("what is printed is read back, with one tracer and with two", () => {
    const letters = fc
      .constantFrom(...baseColours.filter(({ own }) => !own).map((colour) => colour.letters))
      .filter((l) => l !== "GNYE");
    fc.assert(
      fc.property(fc.uniqueArray(letters, { minLength: 1, maxLength: 3 }), (parts) => {
        // Green with yellow alone is the one colour of the protective conductor, in either order of a stroke.
        fc.pre(!(parts.length === 2 && parts.includes("GN") && parts.includes("YE")));
        assert.deepEqual(readColour(parts.join("/")), parts);
        assert.deepEqual(readColour(parts.join("")), parts);
        const [base = "", ...tracers] = parts;
        if (tracers.length < 2) assert.deepEqual(readColour(colourName([base, ...tracers])), parts);
      }),
    );
  });

  test("whatever the text, a colour ends inside it", () => {
    const word = fc.constantFrom("red", "/", " ", "-", "with", "tracer", "BL", "dark", ".", "GNYE", "İ", "黒", "w/");
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ maxLength: 40 }),
          fc.array(word).map((words) => words.join("")),
        ),
        (text) => {
          for (let from = 0; from < text.length; from++) {
            const found = colourAt(text, from);
            if (found !== null) assert.ok(found.to > from && found.to <= text.length);
            const cores = coreColoursAt(text, from, null);
            if (cores !== null) assert.ok(cores.to > from && cores.to <= text.length);
          }
        },
      ),
    );
  });
});

describe("colours of the cores of a cable", () => {
  const lists: [text: string, count: number | null, cores: string | null][] = [
    ["red/yellow", 2, "RD YE"],
    ["red/yellow", 1, "RD/YE"],
    ["BLK/WHT/GRN 50 ft", 3, "BK WH GN"],
    ["blk wht red grn", 4, "BK WH RD GN"],
    ["BN+BU+GNYE", 3, "BN BU GNYE"],
    ["brown/blue/green-yellow", 3, "BN BU GNYE"],
    ["brown/blue/green/yellow", 3, "BN BU GNYE"],
    ["brown/blue/green/yellow", 4, "BN BU GN YE"],
    ["brown, blue, green/yellow", null, "BN BU GNYE"],
    ["black-white-green", 3, "BK WH GN"],
    ["red & black", 2, "RD BK"],
    ["sw/bl", 2, "BK BU"],
    ["red", 2, null],
    ["red/black/white", 2, null],
    ["4 mm²", 1, null],
  ];
  test.each(lists)("%s as %s", (text, count, cores) => {
    const found = coreColoursAt(text, 0, count);
    const names = found?.cores.map((choices) => choices.map(({ colour }) => colour.join("/")).join("|")).join(" ");
    assert.equal(names ?? null, cores);
  });

  test("letters of several dialects stay open", () => {
    assert.deepEqual(
      coreColoursAt("B/W", 0, 2)?.cores.map((choices) => choices.length),
      [2, 1],
    );
  });
});

test("no two colours have one pattern, and each is drawn on both papers", () => {
  const looks = Object.values(colourLooks);
  assert.equal(new Set(looks.map(({ pattern }) => pattern)).size, baseColours.length);
  for (const { light, dark } of looks) for (const value of [light, dark]) assert.match(value, /^#[0-9A-F]{6}$/);
  assert.deepEqual(lookOf(["GN", "*"]).length, 1);
});
