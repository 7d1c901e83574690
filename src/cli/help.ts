import type { Command, Option } from "./command.ts";
import { commands } from "./commands.ts";
import { printTable } from "./table.ts";
import type { Terminal } from "./terminal.ts";
import { wrap } from "./text-width.ts";

const CODES = [
  "0   nothing to do",
  "1   a rule fails that must or should be kept, or cannot be told where it must; of `cure`: there is none; of `read`: a label has several meanings",
  "2   the plan has an error; results are printed all the same; of `read`: a label has no meaning",
  "3   wrong usage, or a file that cannot be read or written",
  "70  a defect of the program itself",
];

const EXAMPLES: readonly (readonly [string, string])[] = [
  ["wireworthy size --load 4.3A --run 5.2m", "the wire for one load"],
  ["wireworthy check examples/sloop.yaml", "what is wrong with a plan"],
  ["wireworthy schedule examples/sloop.yaml", "every wire and device of it"],
  ["wireworthy build examples/sloop.yaml -o out/sloop", "all results as files"],
];

/** What the program is and what it can be asked. */
export function printHelp({ width, paint }: Terminal): string[] {
  return [
    `${paint("bold", "wireworthy")}: turns a plan of an electrical build into a sized, protected, explained wiring design`,
    "",
    paint("bold", "Commands"),
    ...twoColumns(
      [
        ...commands.map(({ name, usage, summary }) => [`wireworthy ${name} ${usage}`, summary] as const),
        ["wireworthy COMMAND --help", "more about a command"],
        ["wireworthy --version", "which version this is"],
      ],
      width,
    ),
    "",
    paint("bold", "Examples"),
    ...twoColumns(EXAMPLES, width),
    "",
    paint("bold", "Exit codes"),
    ...CODES.map((line) => `  ${line}`),
    "",
    ...wrap(
      "A plan is a text: parts, circuits, states. examples/sloop.yaml says a whole boat in it. Results are advice to a competent person; wiring can burn, shock and sink.",
      width,
    ),
  ];
}

/** What one command is for. */
export function printCommandHelp(command: Command, { width, paint }: Terminal): string[] {
  return [
    `${paint("bold", `wireworthy ${command.name}`)} ${command.usage}`,
    "",
    ...command.about.flatMap((text) => wrap(text, width)),
    "",
    paint("bold", "Options"),
    ...twoColumns(
      [...command.options.map(({ says, ...option }) => [nameOf(option), says] as const), ["-h, --help", "this page"]],
      width,
    ),
    "",
    paint("bold", "Examples"),
    ...command.examples.flatMap(([line, says]) => [`  ${line}`, `      ${says}`]),
  ];
}

const nameOf = ({ name, short, value }: Omit<Option, "says">): string =>
  `${short === undefined ? "" : `-${short}, `}--${name}${value === undefined ? "" : ` ${value}`}`;

function twoColumns(rows: readonly (readonly [string, string])[], width: number): string[] {
  const left = Math.max(...rows.map(([name]) => name.length));
  const table = printTable<readonly [string, string | readonly string[]]>(
    [
      { head: "", cell: ([name]) => name },
      { head: "", cell: ([, says]) => says },
    ],
    rows.map(([name, says]) => [name, wrap(says, Math.max(24, width - left - 4))]),
    width - 2,
  );
  return (table ?? rows.map(([name, says]) => `${name}  ${says}`))
    .filter((line) => line !== "")
    .map((line) => `  ${line}`);
}
