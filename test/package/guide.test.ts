import { beforeAll, test } from "vitest";
import assert from "node:assert/strict";
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { filesBelow } from "../docs/read-examples.ts";
import { freshFolder, removeFolder, root, warmRunner, type Run } from "./built.ts";

/**
 * What the guide shows of the command line has been run: each `console` fence is a command and lines of its output, in their order. A line with
 * `…` alone stands for lines that are left out. The plan is the last one that was shown.
 */

let run: Run;

beforeAll(async () => {
  run = await warmRunner();
});

interface Fence {
  readonly mark: string;
  readonly lines: readonly string[];
  readonly at: number;
}

function fencesOf(text: string): Fence[] {
  return [...text.matchAll(/^```(console|yaml plan)\n([\s\S]*?)^```$/gm)].map((match) => ({
    mark: match[1] ?? "",
    lines: (match[2] ?? "").trimEnd().split("\n"),
    at: text.slice(0, match.index).split("\n").length,
  }));
}

/** A command as a shell would take it apart; the guide uses no more than quotes. */
const wordsOf = (command: string): string[] =>
  [...command.matchAll(/"([^"]*)"|(\S+)/g)].map((match) => match[1] ?? match[2] ?? "");

/** The first line that does not follow; null: all do. */
function missingLine(shown: readonly string[], output: readonly string[]): string | null {
  let at = 0;
  let isFree = true;
  for (const line of shown) {
    if (line.trim() === "…") {
      isFree = true;
      continue;
    }
    const found = isFree ? output.indexOf(line, at) : output[at] === line ? at : -1;
    if (found < 0) return line;
    at = found + 1;
    isFree = false;
  }
  return null;
}

const pages = filesBelow("docs/guide", ".md");

test.each(pages)("%s shows what the command line says", (page) => {
  const temporary = freshFolder();
  try {
    let commands = 0;
    // Whoever reads the guide has the examples beside it.
    cpSync(join(root, "examples"), join(temporary, "examples"), { recursive: true });
    for (const { mark, lines, at } of fencesOf(readFileSync(join(root, page), "utf8"))) {
      if (mark === "yaml plan") {
        writeFileSync(join(temporary, "first.yaml"), `${lines.join("\n").replace(/ *#!.*$/gm, "")}\n`);
        continue;
      }
      const [command = "", ...shown] = lines;
      const [prompt, name, ...words] = wordsOf(command);
      assert.deepEqual([prompt, name], ["$", "wireworthy"], `${page}:${at}`);
      const ran = run(words, { cwd: temporary });
      assert.ok(ran.code !== null && ran.code < 3, `${page}:${at}: ${ran.err}`);
      assert.equal(missingLine(shown, ran.out.split("\n")), null, `${page}:${at}:\n${ran.out}`);
      commands++;
    }
    assert.ok(commands > 0);
  } finally {
    removeFolder(temporary);
  }
});

test("a line that the output has not is found out", () => {
  assert.equal(missingLine(["a", "…", "c"], ["a", "b", "c"]), null);
  assert.equal(missingLine(["a", "c"], ["a", "b", "c"]), "c");
  assert.equal(missingLine(["…", "d"], ["a", "b"]), "d");
});
