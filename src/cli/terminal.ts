import process from "node:process";
import { exitCodes } from "./exit-codes.ts";

/** How a piece of text looks on a terminal that can show it. Says nothing that the words do not say too. */
export type Style = "bold" | "dim" | "red" | "yellow" | "cyan";

/** Where a command writes. */
export interface Terminal {
  /** Columns to fit into. */
  readonly width: number;
  /** For people: nothing in it can steer the terminal. */
  readonly out: (text: string) => void;
  /** For people, on standard error. */
  readonly err: (text: string) => void;
  /** For programs: byte for byte. Who makes such a text sees to it that it is harmless. */
  readonly data: (text: string) => void;
  /** Styles a text for `out`; on anything but a terminal, or with NO_COLOR set, the text itself. */
  readonly paint: Paint;
}

export type Paint = (style: Style, text: string) => string;

export const plain: Paint = (_, text) => text;

const codes: Readonly<Record<Style, readonly [on: number, off: number]>> = {
  bold: [1, 22],
  dim: [2, 22],
  red: [31, 39],
  yellow: [33, 39],
  cyan: [36, 39],
};

const ESC = "\u001b";
const painted: Paint = (style, text) => `${ESC}[${codes[style][0]}m${text}${ESC}[${codes[style][1]}m`;

export const NARROWEST = 40;
export const WIDEST = 160;
/** Where there is no terminal to ask, a file or a pipe. */
const USUAL = 120;

/** Lays a number of columns inside what tables are made for. */
export const fitWidth = (columns: number): number => Math.max(NARROWEST, Math.min(WIDEST, Math.floor(columns)));

function widthOf(stream: NodeJS.WriteStream): number {
  if (stream.isTTY && stream.columns > 0) return stream.columns;
  const told = Number(process.env["COLUMNS"]);
  return told > 0 ? told : USUAL;
}

/** The terminal that this process talks to. */
export function openTerminal(): Terminal {
  const { stdout, stderr, env } = process;
  for (const stream of [stdout, stderr]) stream.on("error", quietly);
  const coloured = stdout.isTTY && (env["NO_COLOR"] ?? "") === "" && env["TERM"] !== "dumb";
  return {
    width: fitWidth(widthOf(stdout)),
    out: (text) => void stdout.write(harmless(text, coloured)),
    err: (text) => void stderr.write(harmless(text)),
    data: (text) => void stdout.write(text),
    paint: coloured ? painted : plain,
  };
}

/**
 * A reader that closes the pipe early (`… | head`) has seen enough: no complaint, and the exit code stays. Where the output cannot be written
 * for another reason, a full disk, nothing else can be done than say so.
 */
function quietly(error: NodeJS.ErrnoException): void {
  if (error.code === "EPIPE" || error.code === "ERR_STREAM_DESTROYED") return;
  process.exitCode = exitCodes.wrongUsage;
  process.stderr.write(`wireworthy: the output cannot be written: ${error.code ?? error.message}\n`);
  process.exit();
}

const OWN = Object.values(codes).flatMap(([on, off]) => [`${ESC}[${on}m`, `${ESC}[${off}m`]);
/** Everything that moves a cursor, rings, recolours or turns the direction of writing. */
const CONTROL = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2060-\u206f]/g;

/**
 * The last gate before people: names and texts of a plan may hold anything, and none of it may steer their terminal.
 *
 * Lets through line feeds and tabs; whatever else controls becomes a dot.
 *
 * @param styled whether the styles of this file are let through too
 */
export function harmless(text: string, styled = false): string {
  return text.replace(CONTROL, (sign, at: number) =>
    styled && sign === ESC && OWN.some((own) => text.startsWith(own, at)) ? sign : "·",
  );
}
