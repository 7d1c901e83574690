import { join } from "node:path";
import { ESLint } from "eslint";
import ts from "typescript";

/**
 * Compiles code, tests, tools and benchmarks, and lints all of it with what the compiler then knows of its types: the one program serves both,
 * since making and checking it is a large part of what either takes. Says what is wrong as `tsc` and `eslint .` do, and ends with 1 if
 * anything is.
 */
const root = join(import.meta.dirname, "..");

const settings = ts.getParsedCommandLineOfConfigFile(join(root, "tsconfig.json"), undefined, {
  ...ts.sys,
  onUnRecoverableConfigFileDiagnostic: (found) => {
    throw new Error(ts.flattenDiagnosticMessageText(found.messageText, "\n"));
  },
});
if (settings === undefined) throw new Error("tsconfig.json cannot be read");

const program = ts.createProgram({
  host: ts.createCompilerHost(settings.options, true),
  rootNames: settings.fileNames,
  options: settings.options,
  configFileParsingDiagnostics: ts.getConfigFileParsingDiagnostics(settings),
});
const found = ts.getPreEmitDiagnostics(program);
const paths: ts.FormatDiagnosticsHost = {
  getCanonicalFileName: (name) => name,
  getCurrentDirectory: () => root,
  getNewLine: () => "\n",
};
if (found.length > 0) console.log(ts.formatDiagnostics(found, paths));

const eslint = new ESLint({
  cwd: root,
  // Plain JavaScript is in no program.
  overrideConfig: { files: ["**/*.ts", "**/*.tsx"], languageOptions: { parserOptions: { programs: [program] } } },
});
const results = await eslint.lintFiles(["."]);
const formatter = await eslint.loadFormatter("stylish");
console.log(await formatter.format(results));

if (found.length > 0 || results.some(({ errorCount }) => errorCount > 0)) process.exitCode = 1;
