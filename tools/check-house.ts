import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import ts from "typescript";
import { doors, layers } from "./layers.js";

/**
 * The rules of the house that no other program checks. Each gives one line for each place that breaks it, beginning with the file.
 * `npx tsx tools/check-house.ts` prints them all; the tests demand that there are none.
 */
export interface HouseRule {
  /** Completes "in this house …". */
  readonly name: string;
  readonly check: (root: string) => string[];
}

/** Longer than this no file of code is read in one sitting. Tables of tests may be. */
const MOST_LINES = 400;

const NOT_OURS = new Set(["node_modules", ".git", "dist", "out", "coverage"]);

/** All files of the project as paths from its root, in one order on every machine. */
export function projectFiles(root: string, folder = ""): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true })
    .filter((entry) => !NOT_OURS.has(entry.name))
    .flatMap((entry) => {
      const path = folder === "" ? entry.name : `${folder}/${entry.name}`;
      return entry.isDirectory() ? projectFiles(root, path) : entry.isFile() ? [path] : [];
    })
    .sort();
}

const textOf = (root: string, file: string): string => readFileSync(join(root, file), "utf8");

/** Code of the product: no tests, no generated tables. */
const isCode = (file: string): boolean =>
  file.startsWith("src/") && /\.tsx?$/.test(file) && !file.endsWith(".test.ts") && !file.startsWith("src/reference/");

/** Asks each line of some files; a line that breaks the rule is told with its place. */
const lineRule = (name: string, files: (file: string) => boolean, breaks: (line: string) => boolean): HouseRule => ({
  name,
  check: (root) =>
    projectFiles(root)
      .filter(files)
      .flatMap((file) =>
        textOf(root, file)
          .split("\n")
          .flatMap((line, i) => (breaks(line) ? [`${file}:${i + 1}: ${line.trim().slice(0, 100)}`] : [])),
      ),
});

/** Words that speak of how the project came about and not of what it is. Not for this file, which has to name them. */
const WORDS_OF_THE_WORKSHOP = new RegExp(
  [
    String.raw`/wo` + String.raw`rk/`, // a path on somebody's machine
    String.raw`\bsha` + String.raw`red/`,
    String.raw`\bregi` + String.raw`stry\b`,
    String.raw`\bagents?\b`,
    String.raw`\b(?:claude|anthropic|openai|chatgpt|copilot|llms?|language model)\b`,
    String.raw`\bissue #?\d`,
    String.raw`\b(?:TODO|FIXME)\b`,
  ].join("|"),
  "i",
);

const VAGUE = /^(?:utils?|helpers?|common|manager|misc|shared)$/;

export const houseRules: readonly HouseRule[] = [
  {
    name: `no file of code has more than ${MOST_LINES} lines`,
    check: (root) =>
      projectFiles(root)
        .filter(isCode)
        .flatMap((file) => {
          const lines = textOf(root, file).trimEnd().split("\n").length;
          return lines > MOST_LINES ? [`${file}: ${lines} lines`] : [];
        }),
  },
  lineRule(
    "nothing is exported by default",
    (file) => file.startsWith("src/") && /\.tsx?$/.test(file),
    (line) => /^export default\b/.test(line),
  ),
  {
    name: "files are called by what they hold, in kebab-case",
    check: (root) =>
      projectFiles(root)
        .filter((file) => /^(?:src|test|tools|bench)\//.test(file) && /\.[cm]?[jt]sx?$/.test(file))
        .flatMap((file) => {
          const names = file.split("/").map((name) => name.replace(/(?:\.(?:test|d))?\.[cm]?[jt]sx?$/, ""));
          const odd = names.find((name) => !/^[a-z0-9]+(?:-[a-z0-9]+)*$/.test(name));
          const vague = names.find((name) => name.split("-").some((word) => VAGUE.test(word)));
          if (odd !== undefined) return [`${file}: \`${odd}\` is not kebab-case`];
          return vague === undefined ? [] : [`${file}: \`${vague}\` does not say what it holds`];
        }),
  },
  lineRule(
    "the project speaks of itself alone",
    (file) => !/^(?:package-lock\.json|tools\/check-house\.ts)$/.test(file) && !/\.(?:svg|ttf)$/.test(file),
    (line) => WORDS_OF_THE_WORKSHOP.test(line),
  ),
  {
    name: "every folder of the code has its place in the order",
    check: (root) => {
      const listed = [...layers, ...doors];
      const there = readdirSync(join(root, "src"), { withFileTypes: true }).filter((e) => e.isDirectory());
      return [
        ...there.filter((e) => !listed.includes(e.name)).map((e) => `src/${e.name}: not in tools/layers.js`),
        ...listed.filter((l) => !there.some((e) => e.name === l)).map((l) => `tools/layers.js: no folder src/${l}`),
      ];
    },
  },
  {
    name: "every assertion of a type has its reason on its line",
    check: (root) =>
      projectFiles(root)
        .filter(isCode)
        .flatMap((file) => assertionsWithoutReason(file, textOf(root, file))),
  },
  {
    name: "decision records are numbered without a gap and have four parts",
    check: (root) => {
      const folder = "docs/decisions";
      const files = existsSync(join(root, folder)) ? readdirSync(join(root, folder)).sort() : [];
      if (files.length === 0) return [`${folder}: no decision is recorded`];
      return files.flatMap((file, i) => {
        const number = String(i + 1).padStart(4, "0");
        if (!new RegExp(`^${number}-[a-z0-9]+(?:-[a-z0-9]+)*\\.md$`).test(file)) {
          return [`${folder}/${file}: number ${number} was expected`];
        }
        const text = textOf(root, `${folder}/${file}`);
        const parts = ["Context", "Decision", "Consequences", "Turned down"];
        const missing = parts.filter((part) => !text.includes(`\n## ${part}\n`));
        const titled = text.startsWith(`# ${number.replace(/^0+/, "")}. `);
        return [
          ...(titled ? [] : [`${folder}/${file}: title \`# ${number.replace(/^0+/, "")}. …\` was expected`]),
          ...missing.map((part) => `${folder}/${file}: no part \`## ${part}\``),
        ];
      });
    },
  },
  {
    name: "notes of changes say what kind of change they tell of",
    check: (root) =>
      projectFiles(root)
        .filter((file) => file.startsWith("docs/changes/") && !file.endsWith("README.md"))
        .filter((file) => !/^docs\/changes\/[a-z0-9-]+\.(?:feature|fix|number|language|breaking)\.md$/.test(file))
        .map((file) => `${file}: expected <slug>.<feature|fix|number|language|breaking>.md`),
  },
];

/** `x as T` without a comment on its lines or above; `as const` asserts nothing. */
function assertionsWithoutReason(file: string, text: string): string[] {
  if (!/\bas\b/.test(text)) return [];
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2023, true);
  const lines = text.split("\n");
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isAsExpression(node) && node.type.getText() !== "const") {
      const from = source.getLineAndCharacterOfPosition(node.getStart()).line;
      const to = source.getLineAndCharacterOfPosition(node.getEnd()).line;
      let statement: ts.Node = node;
      while (!ts.isStatement(statement) && !ts.isSourceFile(statement.parent)) statement = statement.parent;
      const first = source.getLineAndCharacterOfPosition(statement.getStart()).line;
      // Where a line is full the reason stands above it, or above the whole statement.
      const isComment = (line = ""): boolean => /^\s*(?:\/\/|\*|\/\*)/.test(line);
      const hasReason =
        lines.slice(from, to + 1).some((l) => l.includes("// ")) ||
        isComment(lines[from - 1]) ||
        isComment(lines[first - 1]);
      if (!hasReason) found.push(`${file}:${from + 1}: ${(lines[from] ?? "").trim().slice(0, 100)}`);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const root = join(import.meta.dirname, "..");
  const broken = houseRules
    .map((rule) => ({ rule, places: rule.check(root) }))
    .filter(({ places }) => places.length > 0);
  for (const { rule, places } of broken)
    console.log(`in this house ${rule.name}:\n${places.map((p) => `  ${p}\n`).join("")}`);
  process.exitCode = broken.length > 0 ? 1 : 0;
}
