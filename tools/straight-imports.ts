import type { Plugin } from "esbuild";
import { readFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { dirname, join, relative, sep } from "node:path";
import ts from "typescript";
import { docsApart } from "./docs-apart.ts";
import { cutRulePages } from "./without-rule-pages.ts";

/**
 * How the page's own sources are read for a bundle: without what rules carry for their own pages, and with every import led past the `index.ts` of a
 * folder to the file that a name comes from.
 *
 * A bundler that cuts a program into parts goes by files: what an `index.ts` only hands on would count as needed by everybody who takes anything from it.
 */
export const straightImports: Plugin = {
  name: "straight-imports",
  setup: (building) => {
    building.onLoad({ filter: /[\\/]src[\\/].+\.tsx?$/ }, async ({ path }) => {
      const text = await readFile(path, "utf8");
      const own = docsApart(path, text.includes("defineRule({") ? cutRulePages(path, text) : text);
      const loader = path.endsWith("x") ? "tsx" : "ts";
      return own === text && !text.includes("index.ts") ? undefined : { contents: straighten(path, own), loader };
    });
  },
};

interface Origin {
  readonly file: string;
  readonly name: string;
}

/** What an `index.ts` hands on, by the name under which it does. */
const handedOn = new Map<string, ReadonlyMap<string, Origin>>();

const parse = (path: string, text: string): ts.SourceFile => ts.createSourceFile(path, text, ts.ScriptTarget.ESNext);

/** A file beside another, where a module is named by its path; null: it is a package. */
function fileOf(from: string, specifier: ts.Expression | undefined): string | null {
  if (specifier === undefined || !ts.isStringLiteral(specifier) || !specifier.text.startsWith(".")) return null;
  return join(dirname(from), specifier.text);
}

function readIndex(path: string): ReadonlyMap<string, Origin> {
  const known = handedOn.get(path);
  if (known !== undefined) return known;
  const names = new Map<string, Origin>();
  for (const one of parse(path, readFileSync(path, "utf8")).statements) {
    if (!ts.isExportDeclaration(one) || one.exportClause === undefined || !ts.isNamedExports(one.exportClause))
      continue;
    const file = fileOf(path, one.moduleSpecifier);
    if (file === null) continue;
    for (const { name, propertyName } of one.exportClause.elements)
      names.set(name.text, { file, name: (propertyName ?? name).text });
  }
  handedOn.set(path, names);
  return names;
}

/** The file that a name really comes from. */
function originOf(file: string, name: string): Origin {
  const next = file.endsWith(`${sep}index.ts`) ? readIndex(file).get(name) : undefined;
  return next === undefined ? { file, name } : originOf(next.file, next.name);
}

/** The same program with straight imports. */
function straighten(path: string, text: string): string {
  let straight = text;
  for (const one of [...parse(path, text).statements].reverse()) {
    const isImport = ts.isImportDeclaration(one);
    if (!isImport && !ts.isExportDeclaration(one)) continue;
    const file = fileOf(path, one.moduleSpecifier);
    if (file?.endsWith(`${sep}index.ts`) !== true) continue;
    const clause = isImport ? one.importClause?.namedBindings : one.exportClause;
    if (clause === undefined || !(ts.isNamedImports(clause) || ts.isNamedExports(clause))) continue;
    const isType = isImport ? one.importClause?.phaseModifier === ts.SyntaxKind.TypeKeyword : one.isTypeOnly;
    const word = isImport ? "import" : "export";
    const lines = [...clause.elements].flatMap(({ name, propertyName, isTypeOnly }) => {
      if (isType || isTypeOnly) return [];
      const origin = originOf(file, (propertyName ?? name).text);
      const as = origin.name === name.text ? origin.name : `${origin.name} as ${name.text}`;
      return [`${word} { ${as} } from ${JSON.stringify(specifierOf(path, origin.file))};`];
    });
    straight = `${straight.slice(0, one.pos)}\n` + lines.join("\n") + straight.slice(one.end);
  }
  return straight;
}

function specifierOf(from: string, file: string): string {
  const path = relative(dirname(from), file).split(sep).join("/");
  return path.startsWith(".") ? path : `./${path}`;
}
