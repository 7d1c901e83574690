import { build, type Plugin } from "esbuild";
import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import ts from "typescript";
import { buildPage, pageSources, weighFirstLoad } from "./build-page.ts";
import { noticesOf } from "./third-party.ts";
import { cutRulePages, EXAMPLES } from "./without-rule-pages.ts";

/**
 * Builds what is published: `dist/cli.js` and `dist/index.js` with everything they need inside, the types of the library,
 * and the page in `dist/page`. The same sources give the same bytes.
 */
const root = join(import.meta.dirname, "..");

/**
 * Bundles the command line and the library.
 *
 * @param more further entries, as name and source file; for tests
 * @returns bytes of each file written
 */
export async function bundle(
  into: string,
  more: Readonly<Record<string, string>> = {},
): Promise<ReadonlyMap<string, number>> {
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string }; // our own file
  const { metafile } = await build({
    absWorkingDir: root,
    entryPoints: { cli: "src/cli/main.ts", index: "src/index.ts", ...more },
    outdir: into,
    bundle: true,
    format: "esm",
    target: "node20",
    // Not `node`: the parser's build for pages is made of modules, so that what is not used can be left out.
    platform: "neutral",
    conditions: ["browser"],
    mainFields: ["module", "main"],
    // Half a megabyte that unpacks WOFF2; the fonts here are not packed.
    alias: { "brotli/decompress.js": "./tools/no-brotli.ts" },
    external: ["node:*"],
    // Help and a slip of the finger are answered without reading the compiler from disk.
    splitting: true,
    chunkNames: "part-[hash]",
    // The stack of a defect is read with a source map made from the same sources, which give the same bytes.
    minify: true,
    charset: "utf8",
    legalComments: "none",
    define: { WIREWORTHY_VERSION: JSON.stringify(version) },
    plugins: [withoutExamples],
    metafile: true,
    logLevel: "warning",
  });
  writeFileSync(join(into, "THIRD-PARTY.txt"), noticesOf([metafile]));
  return new Map(Object.entries(metafile.outputs).map(([path, { bytes }]) => [path, bytes]));
}

/** Examples of rules are a third of a megabyte that nothing in the program reads. */
const withoutExamples: Plugin = {
  name: "without-examples",
  setup: (building) => {
    building.onLoad({ filter: /[\\/]src[\\/]rules[\\/].+\.ts$/ }, async ({ path }) => {
      const text = await readFile(path, "utf8");
      return { contents: text.includes("defineRule") ? cutRulePages(path, text, EXAMPLES) : text, loader: "ts" };
    });
  },
};

/** Writes the types of the library, one file a source file. */
export function declare(into: string): void {
  const read = ts.readConfigFile(join(root, "tsconfig.core.json"), (path) => ts.sys.readFile(path));
  const { options } = ts.parseJsonConfigFileContent(read.config, ts.sys, root);
  const program = ts.createProgram([join(root, "src", "index.ts")], {
    ...options,
    noEmit: false,
    declaration: true,
    emitDeclarationOnly: true,
    rootDir: join(root, "src"),
    outDir: into,
  });
  const written = new Map<string, string>();
  const { diagnostics } = program.emit(undefined, (path, text) => {
    written.set(path, text);
  });
  const all = [...ts.getPreEmitDiagnostics(program), ...diagnostics];
  if (all.length > 0) {
    throw new Error(
      ts.formatDiagnostics(all, {
        getCurrentDirectory: () => root,
        getCanonicalFileName: (name) => name,
        getNewLine: () => "\n",
      }),
    );
  }
  // Only what the door leads to; who installs the package has no sources, so the types refer to each other as the code would.
  const door = join(into, "index.d.ts");
  const reached = new Set([door]);
  for (const path of reached) {
    const text = written.get(path) ?? "";
    ts.sys.writeFile(path, text.replace(/((?:from|import\() ?"\.{1,2}\/[^"]+)\.ts"/g, '$1.js"'));
    for (const [, to = ""] of text.matchAll(/(?:from|import\() ?"(\.{1,2}\/[^"]+)\.ts"/g))
      reached.add(join(dirname(path), `${to}.d.ts`));
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const dist = join(root, "dist");
  rmSync(dist, { recursive: true, force: true });
  const files = await bundle(dist);
  declare(join(dist, "types"));
  const kib = [...files.values()].reduce((sum, bytes) => sum + bytes, 0) / 1024;
  console.log(`dist: ${files.size} files of code, ${kib.toFixed(0)} KiB`);
  if (existsSync(join(root, pageSources.main))) {
    const page = join(dist, "page");
    const { firstFiles } = await buildPage(page);
    const first = weighFirstLoad(page, firstFiles);
    const inKib = (bytes: number): string => (bytes / 1024).toFixed(0);
    console.log(`dist/page: first load ${inKib(first.gzip)} KiB packed by gzip, ${inKib(first.brotli)} KiB by brotli`);
  }
}
