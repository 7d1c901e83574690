import { afterAll, beforeAll, test } from "vitest";
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { textWidth } from "../../src/cli/text-width.ts";
import {
  examples,
  freshFolder,
  removeFolder,
  root,
  runner,
  sharedPackage,
  warmRunner,
  type Ran,
  type Run,
} from "./built.ts";
import { HOSTILE_NAMES, hostilePlan } from "./hostile-plan.ts";

let folder = "";
let temporary = "";
let run: Run;
/** In a process of its own, as a person does. */
let runAlone: Run;

beforeAll(async () => {
  folder = await sharedPackage();
  temporary = freshFolder();
  run = await warmRunner();
  runAlone = runner(folder);
});
afterAll(() => {
  removeFolder(temporary);
});

const file = (name: string, text: string | Buffer): string => {
  const path = join(temporary, name);
  writeFileSync(path, text);
  return path;
};
const linesOf = (text: string): string[] => text.split("\n");

const SLOOP = "examples/sloop.yaml";
const BAD = `wireworthy: 1
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
parts:
  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah }
  BN: { kind: bus bar }
  fridge: { kind: load, running: 4.3 A }
circuits:
  W1: { path: B1 → frige, length: 3.2 m }
  W2: { path: B1 → fridge, length: 5 }
`;

test("help teaches: every command with its examples, and the exit codes", () => {
  const { code, out } = run(["--help"]);
  assert.equal(code, 0);
  for (const command of [
    "check",
    "schedule",
    "why",
    "faults",
    "selectivity",
    "states",
    "compare",
    "cure",
    "build",
    "draw",
    "page",
    "size",
    "read",
    "convert",
  ]) {
    assert.match(out, new RegExp(`wireworthy ${command} `));
    const own = run([command, "--help"]);
    assert.equal(own.code, 0);
    assert.deepEqual(run(["help", command]), own);
    assert.match(own.out, /Examples\n/);
  }
  assert.match(out, /2 +the plan has an error/);
  assert.equal(run([]).code, 3);
  assert.equal(run([]).err, out);
});

test("every example of the help runs as it stands", () => {
  // `page` goes on until it is stopped; its examples run in a file of their own.
  const shown = [
    "check",
    "schedule",
    "why",
    "faults",
    "selectivity",
    "states",
    "compare",
    "cure",
    "build",
    "draw",
    "size",
    "read",
    "convert",
  ].flatMap((command) =>
    linesOf(run([command, "--help"]).out).filter((line) => /^ {2}(?:echo .*\| )?wireworthy \S/.test(line)),
  );
  assert.ok(shown.length >= 9, shown.join("\n"));
  const bin = `${process.execPath} ${join(folder, "bin", "wireworthy.js")}`;
  const copy = join(temporary, "project");
  mkdirSync(copy);
  symlinkSync(join(root, "examples"), join(copy, "examples"));
  for (const line of shown) {
    const command = line.trim().replace(/(^|\| )wireworthy /, `$1${bin} `);
    // What needs a shell to take it apart gets one.
    const { code: status, err: stderr } = /["'|<>$*]/.test(line)
      ? inShell(command, copy)
      : run(line.trim().split(" ").slice(1), { cwd: copy });
    // The examples have findings, which `check` and `build` say by their code.
    assert.ok(
      status === 0 || (status === 1 && /wireworthy(?:\.js)? (?:check|build) /.test(command)),
      `${line}: ${stderr}`,
    );
    assert.equal(stderr, "");
  }
});

function inShell(command: string, cwd: string): Pick<Ran, "code" | "err"> {
  const { status, stderr } = spawnSync("sh", ["-c", command], { cwd, encoding: "utf8" });
  return { code: status, err: stderr };
}

test("the version is that of the package", () => {
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string }; // our own file
  assert.deepEqual(runAlone(["--version"]), { code: 0, out: `wireworthy ${version}\n`, err: "" });
});

test("a slip of the finger gets the nearest name, and exit code 3", () => {
  const slips: [string[], RegExp][] = [
    [["chek", SLOOP], /no command `chek`\nhint: did you mean `check`\?/],
    [["--verson"], /no option `--verson`\nhint: did you mean `--version`\?/],
    [["help", "sched"], /no command `sched`\nhint: did you mean `schedule`\?/],
    [["schedule", SLOOP, "--stats"], /no option `--stats`\nhint: did you mean `--states`\?/],
    [["size", "--lod", "4A"], /did you mean `--load`\?/],
    [["size", "--load"], /`--load` has no value/],
    [["size", "--load", "--run", "5m"], /`--load` has no value/],
    [["size", "--load", "4A", "--load", "5A"], /`--load` is given twice/],
    [["size", "--sheathed=yes"], /`--sheathed` takes no value/],
    [["size", "4A"], /takes no name, and got `4A`/],
    [["check", "-", "-"], /standard input is named twice/],
    [["check"], /`check` needs a plan/],
    [["schedule", SLOOP, SLOOP], /takes one plan and no more/],
    [["faults", SLOOP, "W99"], /the plan has no circuit `W99`\nhint: it has W01, W02/],
    [["compare", SLOOP, "iso boat"], /no rule set is called `iso boat`/],
    [["schedule", SLOOP, "--csv", "--json"], /both `--csv` and `--json`/],
    [["schedule", SLOOP, "--width", "wide"], /`--width` takes a number of columns/],
    [["build", SLOOP], /`build` needs a folder/],
  ];
  for (const [args, expected] of slips) {
    const { code, out, err } = run(args);
    assert.equal(code, 3, args.join(" "));
    assert.equal(out, "", args.join(" "));
    assert.match(err, expected, args.join(" "));
  }
});

test("a plan in which no rule fails leaves 0, findings leave 1", () => {
  const clean = runAlone(["check", file("plain.yaml", readFileSync(join(root, "test/rules/plain-boat.yaml")))]);
  assert.equal(clean.code, 0, clean.out);
  assert.match(clean.out, /\nno rule fails; \d+ passed/);
  for (const plan of examples) {
    const { code, out, err } = run(["check", plan]);
    assert.equal(err, "");
    assert.match(out, new RegExp(`^${plan.replaceAll(".", "\\.")}: no errors`, "m"));
    const finds = /\nrules that fail: [^;]*(?:must|should)/.test(out) || /\d+ cannot be told/.test(out);
    assert.equal(code, finds ? 1 : 0, out);
  }
});

test("a bad plan shows what and where, with a mark, goes on, and ends with 2", () => {
  const { code, out, err } = runAlone(["check", file("bad.yaml", BAD), "--width", "80"]);
  assert.equal(code, 2);
  assert.equal(err, "");
  const lines = linesOf(out);
  const first = lines.findIndex((line) => line.includes("bad.yaml:8:"));
  assert.match(lines[first] ?? "", /^error {4}\S*bad\.yaml:8:20 {2}\S+/);
  const [shown = "", mark = ""] = lines.slice(first + 1);
  // The carets stand under the very name.
  assert.equal(shown.slice(mark.indexOf("^"), mark.lastIndexOf("^") + 1), "frige");
  assert.match(out, /hint {5}did you mean `fridge`\?/);
  assert.ok(
    lines.some((line) => /^error .*bad\.yaml:9:/.test(line)),
    "the second fault is told in the same pass",
  );
  assert.match(out, /bad\.yaml: 2 errors, no warnings/);
  // Results are printed all the same.
  assert.equal(run(["schedule", file("bad.yaml", BAD)]).code, 2);
});

test("several plans are checked in one go, and standard input is one of them", () => {
  const { code, out, err } = runAlone(["check", SLOOP, "-", "--quiet"], { input: BAD });
  assert.deepEqual(
    run(["check", SLOOP, "-", "--quiet"], { input: BAD }),
    { code, out, err },
    "in the process that stays",
  );
  assert.equal(code, 2);
  assert.match(out, /^examples\/sloop\.yaml: no errors/m);
  assert.match(out, /^error {4}-:8:20 /m);
  assert.match(out, /^-: 2 errors/m);
  assert.doesNotMatch(out, /Assumed|^note/m);
});

test("what cannot be read is said in one plain line, with exit code 3", () => {
  const bad: [string, RegExp][] = [
    [join(temporary, "none.yaml"), /there is no such file/],
    [temporary, /is a folder/],
    [file("photo.yaml", Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0, 1])), /is not a text file/],
    [file("utf16.yaml", Buffer.from("\ufeffwireworthy: 1\n", "utf16le")), /is written in UTF-16/],
    [file("latin1.yaml", Buffer.from("name: caf\u00e9\n", "latin1")), /is not written in UTF-8/],
    [file("huge.yaml", "a".repeat(9_000_000)), /is larger than 8 MB/],
    ["/dev/zero", /is larger than 8 MB/],
    [`${temporary}/none\u001b[2J.yaml`, /none·\[2J\.yaml/],
  ];
  for (const [name, expected] of bad) {
    const { code, out, err } = runAlone(["check", name]);
    assert.equal(code, 3, name);
    assert.equal(out, "");
    assert.match(err, expected);
    assert.equal(linesOf(err).length, 3, err);
  }
  // One that cannot be read does not keep the others from being checked.
  const both = run(["check", join(temporary, "none.yaml"), SLOOP]);
  assert.equal(both.code, 3);
  assert.match(both.out, /sloop\.yaml: no errors/);
  // Long, but a text: the reader refuses it with a message of its own.
  assert.equal(run(["check", file("long.yaml", "a".repeat(3_000_000))]).code, 2);
});

test("the schedule says all it has to: circuits, states, sources, defaults, what was not judged, caution", () => {
  const { code, out } = run(["schedule", SLOOP, "--width", "120"]);
  assert.equal(code, 0);
  for (const id of ["W01", "W13", "W24", "W34"]) assert.match(out, new RegExp(`^${id} `, "m"));
  assert.match(out, /^W25 +INL +CU:in/m);
  assert.match(out, /Iz: unverified/);
  const table = out.slice(0, out.indexOf("\nAssumed"));
  assert.equal(table.match(/unverified/g)?.length, 1, "once a column, not in every cell");
  assert.match(out, /hauling the\s+.*\n.*anchor/);
  assert.match(out, /^windlass +W12 +– +1[01]\.\d\d +–/m);
  assert.match(out, /^at anchor +B1 +13\.\d\d/m);
  assert.match(out, /^- each closed switch contact 0\.2 mΩ \(SW1, TS\); pin with `resistance`/m);
  assert.match(out, /Wiring can burn, shock and sink/);
  assert.match(out, /Not judged yet: /);
  const states = run(["schedule", SLOOP, "--states"]).out;
  assert.ok(states.startsWith("Volts at the loads") && !states.includes("Ends without"));
});

test("what fails in a found build stands first, with its figures", () => {
  const { code, out } = run(["schedule", "examples/sloop-audit.yaml", "--width", "140"]);
  assert.equal(code, 0);
  assert.match(linesOf(out)[3] ?? "", /^Look at these first$/);
  assert.match(out, /^! must: W02 \(B2 → SW1\) has no device: B2 can push into it at B2, and nothing would open$/m);
  assert.match(out, /^! must: W12 \(BP → windlass\) loses 1\d\.\d % \(1\.\d\d V\) on the way to windlass and back/m);
  assert.match(out, /^Cannot be told, 1 circuit: its length is not known$/m);
  assert.match(
    out,
    /These volts are too high: what is lost in wires that cannot be told is not in them \(W20, W40, W42\)/,
  );
});

test("a build writes its files whole, says so, and writes nowhere else", () => {
  const out = join(temporary, "made", "sloop");
  const ran = run(["build", SLOOP, "-o", out]);
  assert.equal(ran.code, run(["check", SLOOP]).code, ran.err);
  const names = [
    "circuit-diagram.pdf",
    "circuit-diagram.svg",
    "design.json",
    "diagnostics.txt",
    "directory-2.svg",
    "directory.pdf",
    "directory.svg",
    "findings.txt",
    "one-line-2.svg",
    "one-line.pdf",
    "one-line.svg",
    "report.html",
    "schedule.csv",
    "schedule.txt",
    "states-2.svg",
    "states.pdf",
    "states.svg",
    "voltages.csv",
  ];
  assert.deepEqual(readdirSync(out).sort(), names);
  for (const name of names) assert.ok(ran.out.includes(join(out, name)), name);
  const text = (name: string): string => readFileSync(join(out, name), "utf8");
  assert.equal(text("design.json"), run(["schedule", SLOOP, "--json"]).out);
  assert.equal(text("schedule.csv"), run(["schedule", SLOOP, "--csv"]).out);
  assert.equal(text("voltages.csv"), run(["schedule", SLOOP, "--csv", "--states"]).out);
  assert.equal(text("schedule.txt"), run(["schedule", SLOOP, "--width", "140"]).out);
  // The same plan gives the same bytes.
  const before = names.map(text);
  run(["build", SLOOP, "-o", out]);
  assert.deepEqual(names.map(text), before);
});

test("a build never writes over the plan or what it did not write, and finds out before it writes anything", () => {
  const own = join(temporary, "own");
  mkdirSync(own);
  const plan = join(own, "schedule.txt");
  writeFileSync(plan, readFileSync(join(folder, SLOOP)));
  const before = readFileSync(plan, "utf8");
  const onItself = run(["build", plan, "-o", own]);
  assert.equal(onItself.code, 3);
  assert.match(onItself.err, /is the plan itself/);
  assert.equal(readFileSync(plan, "utf8"), before);
  assert.deepEqual(readdirSync(own), ["schedule.txt"]);

  const foreign = join(temporary, "foreign");
  mkdirSync(foreign);
  writeFileSync(join(foreign, "voltages.csv"), "mine");
  const onForeign = run(["build", SLOOP, "-o", foreign]);
  assert.equal(onForeign.code, 3);
  assert.match(onForeign.err, /was not written by/);
  assert.deepEqual(readdirSync(foreign), ["voltages.csv"]);

  const blocked = join(temporary, "blocked-by-folder");
  mkdirSync(join(blocked, "schedule.txt"), { recursive: true });
  assert.equal(run(["build", SLOOP, "-o", blocked]).code, 3);
  assert.deepEqual(readdirSync(blocked), ["schedule.txt"]);
});

test.skipIf(!existsSync("/dev/full"))("a full disk is said in one line", () => {
  const ran = spawnSync("sh", ["-c", `"${process.execPath}" bin/wireworthy.js schedule ${SLOOP} > /dev/full`], {
    cwd: folder,
    encoding: "utf8",
  });
  assert.equal(ran.status, 3);
  assert.match(ran.stderr, /^wireworthy: the output cannot be written: ENOSPC\n$/);
});

test("a build replaces a link instead of writing through it, and leaves a bad folder alone", () => {
  const out = join(temporary, "linked");
  const secret = file("secret.txt", "mine");
  const { code } = run(["build", SLOOP, "-o", out]);
  rmSync(join(out, "schedule.txt"));
  symlinkSync(secret, join(out, "schedule.txt"));
  assert.equal(run(["build", SLOOP, "-o", out]).code, code);
  assert.equal(readFileSync(secret, "utf8"), "mine");
  assert.match(readFileSync(join(out, "schedule.txt"), "utf8"), /^Coastal sloop/);

  const notAFolder = run(["build", SLOOP, "-o", secret]);
  assert.equal(notAFolder.code, 3);
  assert.match(notAFolder.err, /cannot be written: it is there already and is not a folder/);

  const blocked = join(temporary, "blocked");
  mkdirSync(join(blocked, "voltages.csv", "full"), { recursive: true });
  const refused = run(["build", SLOOP, "-o", blocked]);
  assert.equal(refused.code, 3);
  assert.deepEqual(
    readdirSync(blocked).filter((name) => name.endsWith(".tmp")),
    [],
  );

  // Names of the plan never become names of files.
  const hostile = join(temporary, "hostile-out");
  run(["build", file("hostile.yaml", hostilePlan), "-o", hostile]);
  const kinds = (folder: string): string[] =>
    [...new Set(readdirSync(folder).map((name) => name.replace(/-\d+\.svg$/, ".svg")))].sort();
  // It has no alternating current, of which the sloop has sheets more.
  const sheets = [
    "circuit-diagram.pdf",
    "circuit-diagram.svg",
    "directory.pdf",
    "directory.svg",
    "states.pdf",
    "states.svg",
  ];
  assert.deepEqual([...kinds(hostile), ...sheets].sort(), kinds(out));
  assert.equal(existsSync(join(temporary, "passwd")), false);
});

test("hostile names cannot run in a spreadsheet or steer a terminal", () => {
  const plan = file("hostile.yaml", hostilePlan);
  for (const args of [["--csv"], ["--csv", "--states"]]) {
    const { out } = run(["schedule", plan, ...args]);
    const [head = "", ...rows] = out.split("\r\n");
    for (const name of head.split(",")) assert.match(name, /^[\p{L}\p{M}\p{N}]+(?:_[\p{L}\p{M}\p{N}]+)*$/u);
    assert.ok(rows.length >= HOSTILE_NAMES.length);
    for (const row of rows) {
      for (const cell of row.split(/,(?=(?:[^"]*"[^"]*")*[^"]*$)/)) {
        const bare = cell.replace(/^"|"$/g, "");
        if (!/^-?\d+(\.\d+)?$/.test(bare)) assert.doesNotMatch(bare, /^\s*[=+\-@]/, cell);
      }
    }
  }
  for (const args of [["check"], ["schedule"], ["schedule", "--json"], ["check", "--json"], ["schedule", "--csv"]]) {
    const [command = "", ...more] = args;
    const { out, err } = run([command, plan, ...more]);
    assert.doesNotMatch(
      out + err,
      /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e]/,
      args.join(" "),
    );
  }
});

test("a pipe gets no colours, and a reader that leaves early gets no complaint", () => {
  assert.equal(run(["check", file("bad.yaml", BAD)]).out.includes("\u001b"), false);
  const bin = `${process.execPath} ${join(folder, "bin", "wireworthy.js")}`;
  const { stdout, stderr } = spawnSync(
    "bash",
    ["-c", `${bin} schedule ${SLOOP} --json | head -1; echo "\${PIPESTATUS[0]}"`],
    {
      cwd: root,
      encoding: "utf8",
    },
  );
  assert.equal(stderr, "");
  assert.equal(stdout, "{\n0\n");
});

test("a size is answered in a sentence, a ladder and reasons, and both lengths are told", () => {
  const { code, out, err } = run(["size", "--load", "4.3A", "--run", "5.2m", "--drop", "3%", "--width", "100"]);
  assert.equal(err, "");
  assert.equal(code, 0);
  const [first = "", second = ""] = linesOf(out);
  assert.match(
    `${first} ${second}`,
    /^4 mm² tinned copper, decided by voltage drop: 4\.3 A over 5\.2 m one way \(10\.4 m there and back\) at 12 V loses 0\.31 V, 2\.6 %; the limit is 3 %\./,
  );
  assert.match(out, /^drop ◀ +4 mm² +met +2\.6 % of 3 % +as asked$/m);
  assert.match(out, /^device +7\.5 A blade fuse: the load asks for at least 5\.3[78] A/m);
  assert.match(out, /^next size down +2\.5 mm² fails drop: it would lose 0\.45 V, 3\.8 %; the limit is 3 %/m);
  assert.match(out, /pin with `--source-volts`/);
  for (const line of linesOf(out)) assert.ok(textWidth(line) <= 100, line);
  const loop = run(["size", "--load", "4.3A", "--loop", "10.4m", "--drop", "3%", "--width", "100"]).out;
  assert.deepEqual(
    linesOf(loop).filter((line, i) => line !== linesOf(out)[i]),
    ["length          5.2 m one way, 10.4 m there and back; the question gave the length there and back"],
  );
});

test("a question that cannot be answered says all that is wrong, by the names of the options", () => {
  const { code, out, err } = run(["size", "--load", "4.3", "--run", "5m", "--loop", "10m", "--starts-above", "11"]);
  assert.equal(code, 3);
  assert.equal(out, "");
  assert.match(err, /--load: a current or a power needs a unit/);
  assert.match(err, /--loop: both the run one way and the length there and back are given/);
  assert.match(err, /--starts-above: a voltage needs a unit/);
  // A figure below nought is a figure, not an option.
  assert.equal(run(["size", "--load", "4A", "--run", "5m", "--ambient", "-10C"]).code, 0);
});

test("a program asks in JSON and gets JSON", () => {
  const question = JSON.stringify({ load: "4.3 A", run: "5.2 m", drop: "3 %" });
  const asked = runAlone(["size", "--json-in", "-", "--json"], { input: question });
  assert.equal(asked.code, 0, asked.err);
  assert.equal(asked.out, run(["size", "--load", "4.3A", "--run", "5.2m", "--drop", "3%", "--json"]).out);
  assert.match(run(["size", "--json-in", "-"], { input: "{ load" }).err, /the question is not JSON/);
  assert.match(
    run(["size", "--json-in", "-"], { input: '{ "load": 4.3, "run": "5 m" }' }).err,
    /load: a text with its unit/,
  );
  assert.match(run(["size", "--json-in", "-", "--load", "4A"], { input: question }).err, /both as options and as JSON/);
});
