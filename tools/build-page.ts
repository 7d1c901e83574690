import { build, type BuildOptions, type Metafile, type Plugin } from "esbuild";
import { createHash } from "node:crypto";
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { brotliCompressSync, gzipSync } from "node:zlib";
import { straightImports } from "./straight-imports.ts";
import { noticesOf } from "./third-party.ts";

/**
 * Builds the page: plain static files that any host can serve. The same sources give the same bytes.
 *
 *     page/  index.html  page.js  page.css  later.css  part-….js  worker.js  sw.js  manifest.webmanifest  icon…  fonts/  examples/  THIRD-PARTY.txt
 */
const root = join(import.meta.dirname, "..");

/** Source files that the page is made of; tests put their own in. */
export interface PageSources {
  readonly main: string;
  readonly worker: string;
  readonly serviceWorker: string;
}

export const pageSources: PageSources = {
  main: "src/workbench/main.tsx",
  worker: "src/workbench/worker/worker.ts",
  serviceWorker: "src/workbench/keep/service-worker.ts",
};

/** Where the page may fetch from and what may run in it: its own files and nothing else. Drawings carry a style element. */
export const CONTENT_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

const WEIGHTS = [
  ["Regular", 400],
  ["SemiBold", 600],
] as const;

/** What the first load of a page takes, in bytes on the way. */
export interface FirstLoad {
  readonly files: readonly {
    readonly name: string;
    readonly plain: number;
    readonly gzip: number;
    readonly brotli: number;
  }[];
  readonly gzip: number;
  readonly brotli: number;
}

export interface BuiltPage {
  /** What the first load takes: the document, its styles, the code that it names, the compiler and the two fonts of drawings. */
  readonly firstFiles: readonly string[];
}

/** Writes the page into a folder, which is emptied first. */
export async function buildPage(into: string, sources: PageSources = pageSources): Promise<BuiltPage> {
  rmSync(into, { recursive: true, force: true });
  mkdirSync(into, { recursive: true });
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string }; // our own file
  const common = {
    absWorkingDir: root,
    bundle: true,
    format: "esm",
    target: ["es2022", "chrome109", "firefox115", "safari16.4"],
    platform: "browser",
    // Not the parser's build for old pages, which is one lump.
    mainFields: ["module", "main"],
    conditions: ["browser"],
    // Of the YAML library only its lexer is used; by its front door the rest would come along.
    alias: { yaml: join(root, "node_modules/yaml/browser/dist/parse/lexer.js") },
    jsx: "automatic",
    jsxImportSource: "preact",
    minify: true,
    charset: "utf8",
    legalComments: "none",
    metafile: true,
    logLevel: "warning",
    define: { WIREWORTHY_VERSION: JSON.stringify(version) },
  } satisfies BuildOptions;
  const page = await build({
    ...common,
    entryPoints: { page: sources.main },
    outdir: into,
    splitting: true,
    chunkNames: "part-[hash]",
    plugins: [stylesApart, straightImports],
  });
  const worker = await build({
    ...common,
    entryPoints: { worker: sources.worker },
    outdir: into,
    splitting: true,
    chunkNames: "part-[hash]",
    plugins: [straightImports],
  });
  const all = stylesOf(page.metafile, sources.main, true);
  const first = stylesOf(page.metafile, sources.main, false);
  const later = all.filter((path) => !first.includes(path));
  writeFileSync(join(into, "page.css"), await bundleStyles([...fontFaces(), ...first.map(readStyles)], common));
  writeFileSync(join(into, "later.css"), await bundleStyles(later.map(readStyles), common));
  const firstParts = partsOf(page.metafile, into, "page.js");
  const workerParts = partsOf(worker.metafile, into, "worker.js");
  copyFixedFiles(into, firstParts);
  writeFileSync(join(into, "THIRD-PARTY.txt"), noticesOf([page.metafile, worker.metafile]));
  if (existsSync(join(root, sources.serviceWorker))) {
    const files = filesIn(into).map((name) => [name, hashOf(readFileSync(join(into, name)))]);
    await build({
      ...common,
      define: { ...common.define, WIREWORTHY_FILES: JSON.stringify(files) },
      entryPoints: { sw: sources.serviceWorker },
      outdir: into,
      // A classic worker runs in every browser that has service workers.
      format: "iife",
    });
  }
  const fonts = WEIGHTS.map(([weight]) => `fonts/WireworthySans-${weight}-latin.woff2`);
  return { firstFiles: ["index.html", "page.css", "page.js", ...firstParts, "worker.js", ...workerParts, ...fonts] };
}

/** Style sheets imported by code are gathered into one file, so that a part that comes later finds its styles there. */
const stylesApart: Plugin = {
  name: "styles-apart",
  setup: (building) => {
    building.onLoad({ filter: /\.css$/ }, () => ({ contents: "", loader: "js" }));
  },
};

/**
 * Style sheets in the order in which the code names them, from the entry downwards.
 *
 * @param lazy also those of parts that come later
 */
function stylesOf({ inputs }: Metafile, entry: string, lazy: boolean): string[] {
  const seen = new Set<string>();
  const visit = (path: string): void => {
    if (seen.has(path)) return;
    seen.add(path);
    for (const { path: next, kind } of inputs[path]?.imports ?? [])
      if (lazy || kind === "import-statement") visit(next);
  };
  visit(entry);
  return [...seen].filter((path) => path.endsWith(".css"));
}

const readStyles = (path: string): string => readFileSync(join(root, path), "utf8");

/** The fonts of drawings, the light one first. */
function fontFaces(): readonly string[] {
  const light = readFileSync(join(root, "fonts", "latin.txt"), "utf8")
    .trim()
    .replace(/\s+/g, "");
  return WEIGHTS.flatMap(([weight, number]) => {
    const face = (file: string, ranges: string): string =>
      `@font-face{font-family:"IBM Plex Sans";font-weight:${number};font-display:swap;src:url("fonts/${file}.woff2") format("woff2");unicode-range:${ranges}}`;
    // The whole font is fetched only for what the light one has not.
    return [face(`WireworthySans-${weight}-latin`, light), face(`IBMPlexSans-${weight}`, allBut(light))];
  });
}

async function bundleStyles(sheets: readonly string[], common: BuildOptions): Promise<string> {
  const { outputFiles } = await build({
    ...common,
    metafile: false,
    stdin: { contents: sheets.join("\n"), loader: "css", resolveDir: root },
    external: ["fonts/*"],
    write: false,
  });
  return outputFiles[0]?.text ?? "";
}

/** The ranges of characters between some, which stand in order. */
function allBut(ranges: string): string {
  const ends = ranges.split(",").map((range) =>
    range
      .slice(2)
      .split("-")
      .map((end) => Number.parseInt(end, 16)),
  );
  const firsts = [0, ...ends.map(([first = 0, last = first]) => last + 1)];
  const lasts = [...ends.map(([first = 0]) => first - 1), 0x10ffff];
  return firsts.map((first, i) => `U+${first.toString(16)}-${(lasts[i] ?? first).toString(16)}`).join(",");
}

/** Parts that the page needs before it can begin. */
function partsOf({ outputs }: Metafile, into: string, entry: string): string[] {
  const folder = relative(root, into);
  const found = new Set<string>();
  const visit = (path: string): void => {
    for (const { path: next, kind } of outputs[path]?.imports ?? []) {
      if (kind !== "import-statement" || found.has(next)) continue;
      found.add(next);
      visit(next);
    }
  };
  visit(join(folder, entry));
  return [...found].map((path) => relative(folder, path)).sort();
}

function copyFixedFiles(into: string, firstParts: readonly string[]): void {
  const fixed = join(root, "src", "workbench", "static");
  for (const name of readdirSync(fixed).sort()) {
    if (name !== "index.html") cpSync(join(fixed, name), join(into, name));
  }
  const preloads = ["page.js", ...firstParts].map((name) => `<link rel="modulepreload" href="${name}" />`);
  const html = readFileSync(join(fixed, "index.html"), "utf8")
    .replace("{csp}", CONTENT_POLICY)
    .replace("{preloads}", preloads.join("\n    "));
  writeFileSync(join(into, "index.html"), html);
  for (const name of readdirSync(join(root, "fonts")).filter((file) => /\.woff2$|^OFL\.txt$/.test(file)))
    copyInto(join(root, "fonts", name), join(into, "fonts", name));
  for (const name of readdirSync(join(root, "examples")).filter((file) => file.endsWith(".yaml")))
    copyInto(join(root, "examples", name), join(into, "examples", name));
}

function copyInto(from: string, to: string): void {
  mkdirSync(dirname(to), { recursive: true });
  cpSync(from, to);
}

/** All files of a folder, as paths from it. */
export function filesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)))
    .sort();
}

const hashOf = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex").slice(0, 16);

/** Weighs files as a host sends them. */
export function weighFirstLoad(folder: string, names: readonly string[]): FirstLoad {
  const files = names.map((name) => {
    const bytes = readFileSync(join(folder, name));
    // Packing a packed font again gains nothing.
    const isPacked = name.endsWith(".woff2");
    const gzip = isPacked ? bytes.length : gzipSync(bytes, { level: 9 }).length;
    const brotli = isPacked ? bytes.length : brotliCompressSync(bytes).length;
    return { name, plain: bytes.length, gzip, brotli };
  });
  const sum = (of: "gzip" | "brotli"): number => files.reduce((total, file) => total + file[of], 0);
  return { files, gzip: sum("gzip"), brotli: sum("brotli") };
}
