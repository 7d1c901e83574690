import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { DcNetwork } from "../src/network/index.ts";
import { sorted } from "./time.ts";

/**
 * Median time that a general-purpose circuit simulator (ngspice, Debian's package) takes for the operating point of a network of
 * resistors, batteries, constant currents and limited feeds, without its start; null where it is not installed.
 */
export function timeSimulator(network: DcNetwork): number | null {
  const folder = mkdtempSync(join(tmpdir(), "bench-"));
  try {
    const time = (deck: string): number | null => {
      const file = join(folder, "deck.cir");
      writeFileSync(file, deck);
      const times: number[] = [];
      for (let k = 0; k < 7; k++) {
        const from = performance.now();
        const { error, status } = spawnSync("ngspice", ["-b", file], { stdio: "ignore" });
        if (error !== undefined || status !== 0) return null;
        times.push(performance.now() - from);
      }
      return sorted(times).median;
    };
    const whole = time(writeDeck(network));
    const empty = time("nothing\nV1 a 0 1\nR1 a 0 1\n.op\n.print op v(a)\n.end\n");
    return whole === null || empty === null ? null : whole - empty;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function writeDeck({ elements, ground }: DcNetwork): string {
  const numbers = new Map<string, number>(ground === undefined ? [] : [[ground, 0]]);
  const node = (name: string): number => {
    let n = numbers.get(name);
    if (n === undefined) numbers.set(name, (n = numbers.size));
    return n;
  };
  const lines = elements.flatMap((e, k): string[] => {
    if (e.kind === "resistor") return [`R${k} ${node(e.a)} ${node(e.b)} ${e.ohms}`];
    if (e.kind === "store") return [`V${k} x${k} ${node(e.minus)} ${e.volts}`, `R${k} x${k} ${node(e.plus)} ${e.ohms}`];
    if (e.kind === "draw" && "amps" in e.law) return [`I${k} ${node(e.plus)} ${node(e.minus)} ${e.law.amps}`];
    // The feed holds no more volts than the bank has here, so that it gives its amps.
    if (e.kind === "feed") return [`I${k} ${node(e.minus)} ${node(e.plus)} ${e.amps}`];
    throw new Error(`${e.kind} is not written for the simulator`);
  });
  return ["network", ...lines, ".op", ".print op v(1)", ".end", ""].join("\n");
}
