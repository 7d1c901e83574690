import { nearestNames } from "../plan/text/nearest.ts";
import { commands } from "./commands.ts";
import { exitCodes, type ExitCode } from "./exit-codes.ts";
import { printCommandHelp, printHelp } from "./help.ts";
import { readArguments } from "./read-arguments.ts";
import { openTerminal, type Terminal } from "./terminal.ts";
import { complain } from "./complain.ts";
import { version } from "./version.ts";

/**
 * The command line.
 *
 * @param args what stands behind the name of the program
 * @returns the exit code
 */
export async function main(args: readonly string[]): Promise<ExitCode> {
  const terminal = openTerminal();
  const [name, ...rest] = args;
  const show = (lines: readonly string[]): ExitCode => {
    terminal.out(`${lines.join("\n")}\n`);
    return exitCodes.clean;
  };
  if (name === undefined) {
    terminal.err(`${printHelp(terminal).join("\n")}\n`);
    return exitCodes.wrongUsage;
  }
  if (name === "--version" || name === "-V" || name === "version") return show([`wireworthy ${version}`]);
  if (name === "--help" || name === "-h" || name === "help") {
    const [about] = rest;
    const command = commands.find((c) => c.name === about);
    if (command !== undefined) return show(printCommandHelp(command, terminal));
    return about === undefined ? show(printHelp(terminal)) : unknownCommand(about, terminal);
  }
  const command = commands.find((c) => c.name === name);
  if (command === undefined) return unknownCommand(name, terminal);
  if (rest.includes("--help") || rest.includes("-h")) return show(printCommandHelp(command, terminal));
  const read = readArguments(command, rest);
  if (!read.ok) return complain(terminal, read.problem, read.hint);
  try {
    const run = await command.load();
    return await run(read.given, terminal);
  } catch (error) {
    // Whatever a person wrote is answered in words; what is thrown is ours. Not 1, which would read as findings.
    terminal.err(`wireworthy: this is a defect of the program, not of the plan; please report it\n${traceOf(error)}\n`);
    return exitCodes.defect;
  }
}

const traceOf = (error: unknown): string => (error instanceof Error ? (error.stack ?? error.message) : String(error));

function unknownCommand(name: string, terminal: Terminal): ExitCode {
  const what = name.startsWith("-") ? "option" : "command";
  const known = what === "option" ? ["--help", "--version"] : commands.map((c) => c.name);
  const near = nearestNames(name, known, 1)[0];
  return complain(
    terminal,
    `there is no ${what} \`${name}\``,
    near === undefined ? `the commands are ${commands.map((c) => c.name).join(", ")}` : `did you mean \`${near}\`?`,
  );
}
