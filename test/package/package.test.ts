import { afterAll, beforeAll, test } from "vitest";
import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { declare } from "../../tools/build.ts";
import { buildPackage, freshFolder, removeFolder, root } from "./built.ts";

let built = "";
let user = "";
let packed: { filename: string; size: number; unpackedSize: number; files: readonly { path: string }[] };

const npm = (cwd: string, ...args: string[]): string =>
  execFileSync("npm", [...args, "--offline", "--ignore-scripts", "--no-audit", "--no-fund"], { cwd, encoding: "utf8" });

beforeAll(async () => {
  built = await buildPackage({ page: true });
  declare(join(built, "dist", "types"));
  user = freshFolder();
  const [first] = JSON.parse(npm(built, "pack", "--json", "--pack-destination", user)) as (typeof packed)[]; // what npm prints
  assert.ok(first !== undefined);
  packed = first;
  writeFileSync(join(user, "package.json"), '{ "name": "user", "private": true, "type": "module" }\n');
  npm(user, "install", join(user, packed.filename));
});
afterAll(() => {
  removeFolder(built);
  removeFolder(user);
});

test("what is published holds the program, its schemas and its examples, and nothing else", () => {
  const names = packed.files.map(({ path }) => path);
  for (const name of names) {
    assert.match(name, /^(?:bin|dist|schema|examples|fonts)\/|^(?:LICENSE|README\.md|CHANGELOG\.md|package\.json)$/);
  }
  for (const name of [
    "bin/wireworthy.js",
    "dist/cli.js",
    "dist/index.js",
    "dist/types/index.d.ts",
    "dist/THIRD-PARTY.txt",
    "dist/page/index.html",
    "dist/page/sw.js",
    "dist/page/THIRD-PARTY.txt",
  ]) {
    assert.ok(names.includes(name), name);
  }
  assert.ok(names.some((name) => name.startsWith("schema/")) && names.includes("examples/sloop.yaml"));
  // The install is to stay below 15 MB with all documents in it; half is plenty for the program, the page, the PDF writer and the fonts.
  assert.ok(packed.unpackedSize < 7.5e6, `${packed.unpackedSize} bytes`);
});

test("it needs nothing beside itself, and the licence of what is bundled is there", () => {
  const manifest = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { dependencies?: object }; // our own file
  assert.equal(manifest.dependencies, undefined);
  assert.match(npm(user, "ls", "--all"), /└── wireworthy@[\d.]+\s*$/);
  assert.match(
    readFileSync(join(user, "node_modules/wireworthy/dist/THIRD-PARTY.txt"), "utf8"),
    /Permission to use, copy/,
  );
});

test("the installed command runs", () => {
  const bin = join(user, "node_modules", ".bin", "wireworthy");
  const plan = join(user, "node_modules", "wireworthy", "examples", "sloop.yaml");
  const { status, stdout, stderr } = spawnSync(bin, ["check", plan], { cwd: user, encoding: "utf8" });
  // The demo boat has findings, and no errors.
  assert.equal(status, 1, stderr);
  assert.match(stdout, /sloop\.yaml: no errors/);
});

test("the installed library is imported, and its types are understood", () => {
  const program = `import { compile, readQuantity, readQuestion, sizeCircuit, solveDc, type CircuitDesign } from "wireworthy";
const { design, diagnostics } = compile("wireworthy: 1\\n");
const circuits: readonly CircuitDesign[] = design.circuits;
const read = readQuestion({ load: "4.3 A", run: "5.2 m", drop: "3 %" });
const size: string | undefined = read.ok ? sizeCircuit(read.question).size?.label : undefined;
const amps = readQuantity("4.3 A", "current");
const point = solveDc({ elements: [] });
console.log(JSON.stringify([circuits.length, diagnostics.length, size, amps.ok, point.converged]));
`;
  writeFileSync(join(user, "user.ts"), program);
  const options = {
    compilerOptions: {
      module: "NodeNext",
      target: "ES2023",
      lib: ["ES2023", "DOM"],
      strict: true,
      exactOptionalPropertyTypes: true,
      outDir: "out",
      types: [],
    },
    files: ["user.ts"],
  };
  writeFileSync(join(user, "tsconfig.json"), JSON.stringify(options));
  // Libraries are checked too: a type that points into sources that are not there would show.
  const { status, stdout } = spawnSync(process.execPath, [join(root, "node_modules/typescript/bin/tsc"), "-p", user], {
    encoding: "utf8",
  });
  assert.equal(status, 0, stdout);
  mkdirSync(join(user, "out"), { recursive: true });
  const out = execFileSync(process.execPath, [join(user, "out", "user.js")], { encoding: "utf8" });
  const [circuits, , size, amps, converged] = JSON.parse(out) as unknown[]; // what the program above prints
  assert.deepEqual([circuits, size, amps, converged], [0, "4 mm²", true, true]);
});
