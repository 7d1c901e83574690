/**
 * The network solver beside a general-purpose circuit simulator (ngspice, Debian's package) on builds by chance.
 *
 * Loads of constant power, feeds and converters are written for the simulator as current sources whose current is an
 * expression of volts: none of the solver's own ways of getting there is used.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "vitest";
import assert from "node:assert/strict";
import type { DcElement, DcNetwork } from "../../src/network/dc-network.ts";
import { solveDc } from "../../src/network/solve-dc.ts";
import { makeRandomNetwork } from "../properties/random-network.ts";

/** One circuit for the simulator. Nodes get numbers, the ground is 0. */
function writeDeck(title: string, network: DcNetwork): { readonly deck: string; readonly nodes: readonly string[] } {
  const point = solveDc(network);
  const nodes: string[] = [];
  const node = (name: string): string => {
    if (name === network.ground) return "0";
    let i = nodes.indexOf(name);
    if (i < 0) i = nodes.push(name) - 1;
    return `n${i}`;
  };
  const across = (plus: string, minus: string) => `v(${node(plus)},${node(minus)})`;
  const lines: string[] = [];
  const write = (e: DcElement, k: number): void => {
    if (e.kind === "resistor") lines.push(`R${k} ${node(e.a)} ${node(e.b)} ${e.ohms}`);
    else if (e.kind === "store") {
      lines.push(`V${k} x${k} ${node(e.minus)} ${e.volts}`, `R${k} x${k} ${node(e.plus)} ${e.ohms}`);
    } else if (e.kind === "feed") {
      const held = `(${e.volts} - ${across(e.plus, e.minus)}) / ${e.ohms ?? 0}`;
      lines.push(`B${k} ${node(e.minus)} ${node(e.plus)} I = max(0, min(${e.amps}, ${held}))`);
    } else if (e.kind === "draw") {
      const { law } = e;
      if ("ohms" in law) lines.push(`R${k} ${node(e.plus)} ${node(e.minus)} ${law.ohms}`);
      else {
        // Below 1 V, where no solution lies, the power fades, so that the simulator may pass through on its way.
        const amps = "amps" in law ? `${law.amps}` : `${law.watts} / max(${across(e.plus, e.minus)}, 1)`;
        lines.push(`B${k} ${node(e.plus)} ${node(e.minus)} I = ${amps}`);
      }
    } else {
      // What the solver says of its condition decides which ideal source stands for each side; the corners themselves are
      // tested in test/properties, the simulator's search would not get past them.
      const condition = point.elements.find((p) => p.id === e.id)?.condition;
      const [vIn, vOut] = [`max(${across(e.in.plus, e.in.minus)}, 1)`, `max(${across(e.out.plus, e.out.minus)}, 1)`];
      const [outPlus, outMinus, inPlus, inMinus] = [e.out.plus, e.out.minus, e.in.plus, e.in.minus].map(node);
      const idle = e.idleWatts ?? 0;
      // A millionth of its volts is lost over the whole range, as documented: tens of µV, but across a lead of 1 mΩ that tells.
      const stiff = (1e-6 * e.volts) / e.amps;
      if (condition === "holding")
        lines.push(`V${k}o y${k} ${outMinus} ${e.volts}`, `R${k}o y${k} ${outPlus} ${stiff}`);
      else if (condition === "limited") lines.push(`V${k}o y${k} ${outMinus} 0`, `I${k}o y${k} ${outPlus} ${e.amps}`);
      else if (condition === "blocked") lines.push(`V${k}o y${k} ${outMinus} 0`);
      if (condition === "passing" || condition === "input limited") {
        const amps = condition === "passing" ? `i(V${k}i)` : `${e.inputAmps ?? 0}`;
        const track = e.trackVolts ?? 0;
        const give = (1e-6 * track ** 2 * e.efficiency) / (e.volts * e.amps);
        if (condition === "passing") lines.push(`V${k}i z${k} ${inMinus} ${track}`, `R${k}i z${k} ${inPlus} ${give}`);
        else lines.push(`I${k}i ${inPlus} ${inMinus} ${amps}`);
        lines.push(`B${k}o ${outMinus} ${outPlus} I = ${e.efficiency} * (${vIn} * ${amps} - ${idle}) / ${vOut}`);
      } else lines.push(`B${k}i ${inPlus} ${inMinus} I = (-${vOut} * i(V${k}o) / ${e.efficiency} + ${idle}) / ${vIn}`);
    }
  };
  network.elements.forEach(write);
  // The simulator wants every node tied to the one ground: one joint an island, in which nothing can flow.
  point.islands.forEach(({ reference }, i) => {
    if (reference !== network.ground) lines.push(`Rg${i} ${node(reference)} 0 1`);
  });
  // A start to a twentieth of a volt: from anywhere the simulator's own search does not get past every corner of a limited feed.
  const start = nodes.map((name, i) => {
    const volts = point.nodes.find((n) => n.id === name)?.volts ?? 0;
    return `v(n${i})=${volts.toFixed(3)}`;
  });
  const options = ".options reltol=1e-9 abstol=1e-12 vntol=1e-11 gmin=1e-15 itl1=1000";
  return { deck: [`* ${title}`, ...lines, options, `.nodeset ${start.join(" ")}`, ".end", ""].join("\n"), nodes };
}

/** Volts by node name of each network, all from one run of the simulator. */
function simulate(networks: readonly DcNetwork[]): readonly ReadonlyMap<string, number>[] {
  const folder = mkdtempSync(join(tmpdir(), "network-"));
  try {
    const decks = networks.map((network, i) => writeDeck(`network ${i}`, network));
    const script = ["* all networks", ".control", "set numdgt=14"];
    decks.forEach(({ deck, nodes }, i) => {
      writeFileSync(join(folder, `${i}.cir`), deck);
      script.push(
        `source ${i}.cir`,
        "op",
        `echo network ${i}`,
        ...nodes.map((_, n) => `print v(n${n})`),
        "destroy all",
        "remcirc",
      );
    });
    script.push("quit 0", ".endc", ".end", "");
    writeFileSync(join(folder, "all.cir"), script.join("\n"));
    const run = spawnSync("ngspice", ["-b", "all.cir"], { cwd: folder, encoding: "utf8", maxBuffer: 1 << 28 });
    assert.equal(run.error, undefined, "ngspice runs");
    const found = networks.map(() => new Map<string, number>());
    let at = -1;
    for (const line of run.stdout.split("\n")) {
      const next = /^network (\d+)/.exec(line);
      if (next) at = Number(next[1]);
      const volts = /^v\(n(\d+)\) = (\S+)/.exec(line);
      const name = volts ? decks[at]?.nodes[Number(volts[1])] : undefined;
      if (volts && name !== undefined) found[at]?.set(name, Number(volts[2]));
    }
    return found;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const range = (count: number) => Array.from({ length: count }, (_, i) => i);

function compare(networks: readonly DcNetwork[], tolerance: number): void {
  const simulated = simulate(networks);
  networks.forEach((network, i) => {
    const point = solveDc(network);
    assert.deepEqual([point.converged, point.collapses.length], [true, 0], `network ${i}: an operating point`);
    for (const node of point.nodes) {
      if (node.id === network.ground) continue;
      const volts = simulated[i]?.get(node.id);
      assert.ok(volts !== undefined, `network ${i}: the simulator knows ${node.id}`);
      const off = Math.abs(volts - node.volts);
      assert.ok(off <= tolerance, `network ${i}, ${node.id}: ${node.volts} V, simulator ${volts} V`);
    }
  });
}

// The simulator stops when volts move by less than 1e-9 of themselves between two of its rounds: 13 nV here.
const SIMULATED = 2e-8;

test("agrees with a circuit simulator on 80 builds: stores in parallel, limited feeds, constant power, meshed returns", () => {
  compare(
    range(80).map((seed) => makeRandomNetwork({ seed, feeds: seed % 3 })),
    SIMULATED,
  );
});

test("agrees with a circuit simulator on builds loaded up to what they bear with constant power", () => {
  const loaded = range(60).map((seed) => makeRandomNetwork({ seed, demand: 4, laws: ["watts"] }));
  const standing = loaded.filter((network) => solveDc(network).collapses.length === 0);
  assert.ok(standing.length > 40, `${standing.length} stand`);
  compare(standing, SIMULATED);
});

test("agrees with a circuit simulator on builds with DC-DC chargers, inverters in a loop and solar controllers", () => {
  const networks = range(60).map((seed) => makeRandomNetwork({ seed, converters: 1 + (seed % 2) }));
  // Behind a held input of a few µΩ the simulator's volts come in steps of 2^-16 V = 15 µV.
  compare(networks, 2e-5);
});
