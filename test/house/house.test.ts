import { afterAll, beforeAll, describe, expect, test } from "vitest";
import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { mkdirSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { houseRules } from "../../tools/check-house.ts";
import { doors, layers } from "../../tools/layers.js";
import { readAllTables } from "../../tools/make-reference.ts";

/** The rules of the house, held by every test run; and a planted breach of each, so that none of them has gone blind. */

const root = join(import.meta.dirname, "../..");
const planted = join(root, "out", "test", `house-${process.pid}`);

interface Ran {
  readonly code: number;
  readonly output: string;
}

/** Tools that take a while, two at a time, the longest first. */
const waiting: (() => void)[] = [];
let running = 0;

async function run(cwd: string, tool: string, ...args: string[]): Promise<Ran> {
  if (running === 2) await new Promise<void>((resolve) => waiting.push(resolve));
  running++;
  try {
    return await new Promise<Ran>((resolve) => {
      const bin = join(root, "node_modules", ".bin", tool);
      execFile(
        bin,
        args,
        { cwd, maxBuffer: 1e8, env: { ...process.env, NO_COLOR: "1", FORCE_COLOR: "0" } },
        (error, stdout, stderr) => {
          const code = error === null ? 0 : typeof error.code === "number" ? error.code : -1;
          resolve({ code, output: `${stdout}${stderr}`.trim() });
        },
      );
    });
  } finally {
    running--;
    waiting.shift()?.();
  }
}

const tools = {
  // Holds what tsconfig.cli.json holds too, under the same settings.
  "code, tests, tools and benchmarks compile, and eslint finds no error": ["tsx", "tools/check-types.ts"],
  "everything is formatted": ["prettier", "--check", "."],
  "the core compiles without page and without Node": ["tsc", "-p", "tsconfig.core.json"],
  "the import law holds": ["depcruise", "src", "--config", ".dependency-cruiser.js", "--output-type", "err"],
  "nothing is left over": ["knip"],
} as const satisfies Record<string, readonly [string, ...string[]]>;

const results = new Map<string, Promise<Ran>>();
beforeAll(() => {
  for (const [name, [tool, ...args]] of Object.entries(tools)) results.set(name, run(root, tool, ...args));
});

test.each(Object.keys(tools))(
  "%s",
  async (name) => {
    const ran = await results.get(name);
    assert.ok(ran?.code === 0, ran?.output.split("\n").slice(-60).join("\n"));
    // Tools that read everything share two cores with all other tests.
  },
  400_000,
);

test.each(houseRules)("in this house $name", (rule) => {
  expect(rule.check(root)).toEqual([]);
});

test("every published table says where it comes from", () => {
  // Throws on the first without source, cite, how, units, status or key.
  assert.ok(readAllTables().length >= 30);
});

/** Writes a small house of its own. */
function plant(files: Readonly<Record<string, string>>): string {
  rmSync(planted, { recursive: true, force: true });
  for (const [file, text] of Object.entries(files)) {
    mkdirSync(dirname(join(planted, file)), { recursive: true });
    writeFileSync(join(planted, file), text);
  }
  return planted;
}

afterAll(() => {
  rmSync(planted, { recursive: true, force: true });
});

/** A path on somebody's machine, put together so that this file does not hold one. */
const ELSEWHERE = ["", "work", ""].join("/");

describe("a planted breach is found", () => {
  const sound = {
    ...Object.fromEntries([...layers, ...doors].map((layer) => [`src/${layer}/index.ts`, "export const here = 1;\n"])),
    "docs/decisions/0001-a.md": "# 1. A\n\n## Context\n\n## Decision\n\n## Consequences\n\n## Turned down\n",
  };

  test("in a sound house there is none", () => {
    const house = plant(sound);
    for (const rule of houseRules) assert.deepEqual(rule.check(house), [], rule.name);
  });

  test.each([
    ["no file of code", { "src/wire/long.ts": "// a line\n".repeat(401) }, "src/wire/long.ts: 401 lines"],
    ["nothing is exported", { "src/wire/a.ts": "export default 1;\n" }, "src/wire/a.ts:1: export default 1;"],
    [
      "files are called",
      { "src/wire/wire-utils.ts": "" },
      "src/wire/wire-utils.ts: `wire-utils` does not say what it holds",
    ],
    ["files are called", { "test/BigTest.ts": "" }, "test/BigTest.ts: `BigTest` is not kebab-case"],
    ["the project speaks", { "docs/a.md": `see ${ELSEWHERE}a\n` }, `docs/a.md:1: see ${ELSEWHERE}a`],
    ["every folder", { "src/attic/a.ts": "" }, "src/attic: not in tools/layers.js"],
    ["every assertion", { "src/wire/a.ts": "const a = b as C;\n" }, "src/wire/a.ts:1: const a = b as C;"],
    ["decision records", { "docs/decisions/0003-c.md": "" }, "docs/decisions/0003-c.md: number 0002 was expected"],
    ["decision records", { "docs/decisions/0002-b.md": "# 2. B\n" }, "docs/decisions/0002-b.md: no part `## Context`"],
    [
      "notes of changes",
      { "docs/changes/a.md": "" },
      "docs/changes/a.md: expected <slug>.<feature|fix|number|language|breaking>.md",
    ],
  ] as const)("%s …: %o", (name, files, place) => {
    const rule = houseRules.find((r) => r.name.startsWith(name));
    assert.equal(rule?.check(plant({ ...sound, ...files }))[0], place);
  });

  test("an assertion with its reason is lawful", () => {
    const lines = ["const a = b as C; // it is", "// it is", "const d = e as F;", "const g = [1] as const;"];
    const rule = houseRules.find((r) => r.name.startsWith("every assertion"));
    assert.deepEqual(rule?.check(plant({ ...sound, "src/wire/a.ts": lines.join("\n") })), []);
  });

  test("by the import law", async () => {
    const house = plant({
      ...sound,
      "src/quantity/a.ts": 'import { here } from "../plan/index.ts";\nexport const a = here;\n',
      "src/size/a.ts": 'import type { B } from "../cli/b.ts";\nexport type A = B;\n',
      "src/cli/b.ts": "export type B = number;\n",
      "src/wire/a.ts": 'import { b } from "./b.ts";\nexport const a = () => b;\n',
      "src/wire/b.ts": 'import { a } from "./a.ts";\nexport const b = () => a;\n',
      "src/device/a.ts": 'import { readFileSync } from "node:fs";\nexport const a = readFileSync;\n',
      "src/diagnostic.ts": 'import { here } from "./plan/index.ts";\nexport const d = here;\n',
      "src/plan/a.ts": 'import { build } from "esbuild";\nexport const a = build;\n',
      "src/system/lawful.ts": 'import { here } from "../plan/index.ts";\nexport const lawful = here;\n',
      "package.json": '{ "name": "planted", "devDependencies": { "esbuild": "*" } }\n',
      "tsconfig.json":
        '{ "compilerOptions": { "module": "NodeNext", "moduleResolution": "NodeNext", "allowImportingTsExtensions": true, "noEmit": true } }\n',
    });
    const { output } = await run(
      house,
      "depcruise",
      "src",
      "--config",
      join(root, ".dependency-cruiser.js"),
      "--output-type",
      "err",
    );
    const found = [...output.matchAll(/error ([a-z-]+): (\S+)/g)].map(([, name = "", file = ""]) => `${name} ${file}`);
    assert.deepEqual([...new Set(found)].sort(), [
      "core-knows-no-host src/device/a.ts",
      "diagnostic-imports-nothing src/diagnostic.ts",
      "no-cycles src/wire/a.ts",
      "only-declared-dependencies src/plan/a.ts",
      "quantity-imports-a-later-stage src/quantity/a.ts",
      "size-imports-a-later-stage src/size/a.ts",
    ]);
  });

  test("by the compiler of the core", async () => {
    const house = plant({
      "src/a.ts": 'console.log(1);\nprocess.exit(1);\ndocument.write("");\nenum E {\n  A,\n}\nexport const e = E;\n',
      "tsconfig.json": JSON.stringify({
        extends: join(root, "tsconfig.core.json"),
        include: ["src/**/*.ts"],
      }),
    });
    const { output } = await run(house, "tsc", "-p", "tsconfig.json");
    const lines = [...output.matchAll(/^src\/a\.ts\((\d+),/gm)].map((m) => m[1]);
    assert.deepEqual(lines, ["1", "2", "3", "4"], output);
  });
});

test("the ground that the house stands on is there", () => {
  // A rule that looks at no file would pass.
  assert.ok(readdirSync(join(root, "src")).length > 10);
});
