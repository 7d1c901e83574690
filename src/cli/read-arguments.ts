import { parseArgs } from "node:util";
import { nearestNames } from "../plan/text/nearest.ts";
import type { CommandHead, Given } from "./command.ts";

/** What was typed, or what is wrong with it. */
export type ReadArguments =
  | { readonly ok: true; readonly given: Given }
  | { readonly ok: false; readonly problem: string; readonly hint: string };

const no = (problem: string, hint: string): ReadArguments => ({ ok: false, problem, hint });

/** A value may begin with a minus: `--ambient -10C`. */
const MINUS_FIGURE = /^[-−]\d/;

/**
 * Reads what stands behind a command.
 *
 * @param args behind the name of the command
 */
export function readArguments(command: CommandHead, args: readonly string[]): ReadArguments {
  const { tokens } = parseArgs({
    args: [...args],
    strict: false,
    allowPositionals: true,
    tokens: true,
    options: Object.fromEntries(
      command.options.map(({ name, short, value }) => [
        name,
        {
          type: value === undefined ? ("boolean" as const) : ("string" as const),
          ...(short === undefined ? {} : { short }),
        },
      ]),
    ),
  });
  const more = `see \`wireworthy ${command.name} --help\``;
  const names: string[] = [];
  const options: Record<string, string | true> = {};
  for (const token of tokens) {
    if (token.kind === "positional") names.push(token.value);
    if (token.kind !== "option") continue;
    const option = command.options.find(({ name }) => name === token.name);
    if (option === undefined) {
      const near = nearestNames(
        token.name,
        command.options.map(({ name }) => name),
        1,
      )[0];
      return no(
        `\`${command.name}\` has no option \`${token.rawName}\``,
        near === undefined ? more : `did you mean \`--${near}\`?`,
      );
    }
    if (Object.hasOwn(options, option.name)) return no(`\`${token.rawName}\` is given twice`, "give it once");
    if (option.value === undefined) {
      if (token.value !== undefined)
        return no(`\`${token.rawName}\` takes no value`, `write \`${token.rawName}\` alone`);
      options[option.name] = true;
      continue;
    }
    const isOption =
      token.inlineValue !== true && token.value !== undefined && token.value.length > 1 && token.value.startsWith("-");
    if (token.value === undefined || token.value === "" || (isOption && !MINUS_FIGURE.test(token.value))) {
      return no(`\`${token.rawName}\` has no value`, `write \`${token.rawName} ${option.value}\``);
    }
    options[option.name] = token.value;
  }
  const [least, most] = command.takes;
  if (names.length < least)
    return no(`\`${command.name}\` needs ${command.taking}`, `write \`wireworthy ${command.name} ${command.usage}\``);
  if (names.length > most) {
    const spare = names[most] ?? "";
    return no(
      most === 0
        ? `\`${command.name}\` takes no name, and got \`${spare}\``
        : `\`${command.name}\` takes ${command.taking} and no more, and got \`${spare}\` too`,
      more,
    );
  }
  return { ok: true, given: { names, options } };
}
