/**
 * The alternating-current solver beside a general-purpose circuit simulator (ngspice, Debian's package, `.ac`), beside a dense solution by Gauss with pivots, and
 * against the laws that hold in every network, on builds by chance.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "vitest";
import assert from "node:assert/strict";
import type { AcElement, AcLaw, AcNetwork } from "./ac-network.ts";
import type { AcSolution } from "./ac-solution.ts";
import type { Phasor } from "./phasor.ts";
import { solveAc } from "./solve-ac.ts";

/** Numbers by chance, the same every time: 0 … 1. */
function chance(seed: number): () => number {
  let state = (seed * 2654435761 + 12345) >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

interface Made {
  readonly network: AcNetwork;
  readonly linear: boolean;
}

/**
 * A build: a source of one, two or three lines, a main, bars, and branch circuits with line, neutral and protective conductor, some neutrals shared,
 * some rings closed, a second source behind a wire now and then.
 */
function make(seed: number, linear: boolean): Made {
  const next = chance(seed);
  const between = (low: number, high: number): number => low + (high - low) * next();
  const phases = 1 + (seed % 3);
  const turns = phases === 1 ? [0] : phases === 2 ? [0, seed % 2 === 0 ? 180 : 0] : [0, -120, 120];
  const volts = phases === 3 ? 230 : 120;
  const elements: AcElement[] = [];
  const put = (id: string, a: string, b: string, most: number): void => {
    elements.push({ kind: "branch", id, a, b, ohms: between(0.002, most), reactance: between(0, most / 2) });
  };
  const lines = turns.map((degrees, i) => ({ node: `S${i}`, volts: volts * between(0.97, 1.03), degrees }));
  const inside = { ohms: between(0.005, 0.2), reactance: between(0, 0.1) };
  elements.push({ kind: "source", id: "first", neutral: "SN", lines, ...inside });
  turns.forEach((_, i) => {
    put(`main ${i}`, `S${i}`, `B${i}`, 0.05);
  });
  put("main N", "SN", "BN", 0.05);
  put("main PE", "SN", "PE", 0.05);
  if (seed % 4 === 3) {
    elements.push({ kind: "source", id: "second", neutral: "TN", lines: lines.map(({ volts: v, degrees }, i) => ({ node: `T${i}`, volts: v * 0.995, degrees })), ohms: 0.3, reactance: 0.1 }); // prettier-ignore
    turns.forEach((_, i) => {
      put(`link ${i}`, `T${i}`, `B${i}`, 0.1);
    });
    put("link N", "TN", "BN", 0.1);
  }
  const circuits = 4 + (seed % 5);
  for (let c = 0; c < circuits; c++) {
    const i = c % phases;
    const own = c % 3 !== 2 || phases === 1;
    put(`W${c} L`, `B${i}`, `${c} L`, 0.3);
    put(`W${c} N`, own ? "BN" : `${c - 1} N`, `${c} N`, 0.3);
    put(`W${c} PE`, "PE", `${c} case`, 0.3);
    if (c % 4 === 1) put(`ring ${c} L`, `${c} L`, `B${i}`, 0.3);
    const powerFactor = between(0.5, 1);
    const kind = linear ? 2 : Math.floor(next() * 3);
    const law: AcLaw =
      kind === 0
        ? { va: between(50, 900), powerFactor }
        : kind === 1
          ? { amps: between(0.5, 8), powerFactor }
          : { ohms: between(8, 200), reactance: between(-5, 60) };
    elements.push({ kind: "load", id: `load ${c}`, a: `${c} L`, b: `${c} N`, law });
  }
  if (phases > 1) elements.push({ kind: "load", id: "across", a: "0 L", b: "1 L", law: linear ? { ohms: 40, reactance: 5 } : { va: 800, powerFactor: 0.8, volts: phases === 2 ? 240 : 400 } }); // prettier-ignore
  return { network: { elements, earth: "PE" }, linear };
}

const range = (count: number): number[] => Array.from({ length: count }, (_, i) => i);

type Pair = readonly [re: number, im: number];
const of = ({ re, im }: Phasor): Pair => [re, im];

/** The same network for others: loads that are no impedances stand as the impedance that they are at the volts found. */
function resistive(network: AcNetwork, point: AcSolution): { a: string; b: string; ohms: number; reactance: number }[] {
  return network.elements.flatMap((e) => {
    if (e.kind === "source") return [];
    if (e.kind === "branch") return [e];
    if ("ohms" in e.law) return [{ a: e.a, b: e.b, ...e.law }];
    const { law } = e;
    const found = point.loads.find(({ id }) => id === e.id);
    const v = (found?.condition === "as impedance" ? law.volts : found?.volts.size) ?? NaN;
    const size = "va" in law ? v ** 2 / law.va : v / law.amps;
    return [{ a: e.a, b: e.b, ohms: size * law.powerFactor, reactance: size * Math.sqrt(1 - law.powerFactor ** 2) }];
  });
}

const sourcesOf = (network: AcNetwork) =>
  network.elements.flatMap(
    (e) =>
    e.kind === "source" ? e.lines.map((line) => ({ ...line, neutral: e.neutral, ohms: e.ohms, reactance: e.reactance })) : [], // prettier-ignore
  );

/** Volts by node of each network from one run of the simulator. */
function simulate(all: readonly { network: AcNetwork; point: AcSolution }[]): Map<string, Pair>[] {
  const folder = mkdtempSync(join(tmpdir(), "alternating-"));
  try {
    // At 1 rad/s an inductance in H is a reactance in Ω, and a capacitor of 1/X F one of −X.
    const hertz = 1 / (2 * Math.PI);
    const script = ["* all networks", ".control", "set numdgt=14"];
    const named: string[][] = [];
    all.forEach(({ network, point }, k) => {
      const nodes: string[] = [];
      const node = (name: string): string => {
        if (name === network.earth) return "0";
        let i = nodes.indexOf(name);
        if (i < 0) i = nodes.push(name) - 1;
        return `n${i}`;
      };
      const lines: string[] = [];
      const put = (id: string, a: string, b: string, ohms: number, reactance: number): void => {
        if (reactance === 0) lines.push(`R${id} ${a} ${b} ${ohms}`);
        else {
          lines.push(`R${id} ${a} m${id} ${ohms}`);
          lines.push(reactance > 0 ? `L${id} m${id} ${b} ${reactance}` : `C${id} m${id} ${b} ${-1 / reactance}`);
        }
      };
      resistive(network, point).forEach((e, i) => {
        put(`${i}`, node(e.a), node(e.b), e.ohms, e.reactance);
      });
      sourcesOf(network).forEach(({ node: at, neutral, volts, degrees, ohms, reactance }, i) => {
        lines.push(`V${i} v${i} ${node(neutral)} DC 0 AC ${volts} ${degrees}`);
        put(`s${i}`, `v${i}`, node(at), ohms, reactance);
      });
      writeFileSync(join(folder, `${k}.cir`), [`* network ${k}`, ...lines, ".options gmin=1e-18 reltol=1e-12", ".end", ""].join("\n")); // prettier-ignore
      named.push(nodes);
      script.push(`source ${k}.cir`, `ac lin 1 ${hertz} ${hertz}`, `echo network ${k}`);
      nodes.forEach((_, n) => script.push(`print v(n${n})`));
      script.push("destroy all", "remcirc");
    });
    script.push("quit 0", ".endc", ".end", "");
    writeFileSync(join(folder, "all.cir"), script.join("\n"));
    const run = spawnSync("ngspice", ["-b", "all.cir"], { cwd: folder, encoding: "utf8", maxBuffer: 1 << 28 });
    assert.equal(run.error, undefined, "ngspice runs");
    const found = all.map(() => new Map<string, Pair>());
    let at = -1;
    for (const text of run.stdout.split("\n")) {
      const network = /^network (\d+)/.exec(text);
      if (network) at = Number(network[1]);
      const volts = /^v\(n(\d+)\) = ([^,\s]+),\s*(\S+)/.exec(text);
      const name = volts ? named[at]?.[Number(volts[1])] : undefined;
      if (volts && name !== undefined) found[at]?.set(name, [Number(volts[2]), Number(volts[3])]);
    }
    return found;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

test("agrees with a circuit simulator on 60 networks: one, two and three lines, shared neutrals, rings, two sources, every law", () => {
  const all = range(60).map((seed) => {
    const { network } = make(seed, seed % 3 === 0);
    return { network, point: solveAc(network) };
  });
  const simulated = simulate(all);
  all.forEach(({ network, point }, k) => {
    assert.ok(point.converged, `network ${k} stands`);
    for (const { id, volts } of point.nodes) {
      if (id === network.earth) continue;
      const other = simulated[k]?.get(id);
      assert.ok(other !== undefined, `network ${k}: the simulator knows ${id}`);
      const off = Math.hypot(other[0] - volts.re, other[1] - volts.im);
      // 230 V in sixteen digits through matrices of up to 500 S beside 0.005 S: five of them are lost.
      assert.ok(off < 1e-8, `network ${k}, ${id}: ${off} V off`);
    }
  });
});

/** Volts by node: modified nodal analysis, a full matrix of complex numbers, Gauss with partial pivots. */
function dense(network: AcNetwork, point: AcSolution): Map<string, Pair> {
  const names = [...new Set(point.nodes.map(({ id }) => id))].filter((id) => id !== network.earth);
  const n = names.length;
  const a = range(n).map(() => range(n + 1).map((): [number, number] => [0, 0]));
  const plus = (i: number, j: number, re: number, im: number): void => {
    const cell = i < 0 || j < 0 ? undefined : a[i]?.[j];
    if (cell === undefined) return;
    cell[0] += re;
    cell[1] += im;
  };
  const tie = (from: string, to: string, r: number, x: number, er = 0, ei = 0): void => {
    const [i, j] = [names.indexOf(from), names.indexOf(to)];
    const [yr, yi] = [r / (r * r + x * x), -x / (r * r + x * x)];
    plus(i, i, yr, yi);
    plus(j, j, yr, yi);
    plus(i, j, -yr, -yi);
    plus(j, i, -yr, -yi);
    const [cr, ci] = [er * yr - ei * yi, er * yi + ei * yr];
    plus(i, n, cr, ci);
    if (j >= 0) plus(j, n, -cr, -ci);
  };
  for (const e of resistive(network, point)) tie(e.a, e.b, e.ohms, e.reactance);
  for (const { node, neutral, volts, degrees, ohms, reactance } of sourcesOf(network)) {
    const angle = (degrees / 180) * Math.PI;
    tie(node, neutral, ohms, reactance, volts * Math.cos(angle), volts * Math.sin(angle));
  }
  const at = (i: number, j: number): [number, number] => a[i]?.[j] ?? [0, 0];
  for (let k = 0; k < n; k++) {
    const best = range(n).filter((i) => i >= k).sort((i, j) => Math.hypot(...at(j, k)) - Math.hypot(...at(i, k)))[0] ?? k; // prettier-ignore
    [a[k], a[best]] = [a[best] ?? [], a[k] ?? []];
    const [pr, pi] = at(k, k);
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const [br, bi] = at(i, k);
      const s = pr * pr + pi * pi;
      const [fr, fi] = [(br * pr + bi * pi) / s, (bi * pr - br * pi) / s];
      for (let j = k; j <= n; j++) {
        const [cr, ci] = at(k, j);
        plus(i, j, -(fr * cr - fi * ci), -(fr * ci + fi * cr));
      }
    }
  }
  return new Map(
    names.map((name, i): [string, Pair] => {
      const [[br, bi], [pr, pi]] = [at(i, n), at(i, i)];
      const s = pr * pr + pi * pi;
      return [name, [(br * pr + bi * pi) / s, (bi * pr - br * pi) / s]];
    }),
  );
}

test("agrees with a dense solution with pivots on 60 networks", () => {
  for (const seed of range(60)) {
    const { network } = make(seed + 100, seed % 2 === 0);
    const point = solveAc(network);
    const other = dense(network, point);
    for (const { id, volts } of point.nodes) {
      if (id === network.earth) continue;
      const [re, im] = other.get(id) ?? [NaN, NaN];
      assert.ok(Math.hypot(re - volts.re, im - volts.im) < 1e-8, `network ${seed}, ${id}`);
    }
  }
});

test("Kirchhoff's law holds at every node, and what sources give is what loads and wires take", () => {
  for (const seed of range(120)) {
    const { network } = make(seed + 300, false);
    const point = solveAc(network);
    const sums = new Map<string, [number, number]>();
    const take = (node: string, [re, im]: Pair, sign: number): void => {
      const sum = sums.get(node) ?? [0, 0];
      sums.set(node, [sum[0] + sign * re, sum[1] + sign * im]);
    };
    let greatest = 0;
    let [watts, vars] = [0, 0];
    const branches = new Map(point.branches.map((b) => [b.id, b]));
    const loads = new Map(point.loads.map((l) => [l.id, l]));
    const sources = new Map(point.sources.map((s) => [s.id, s]));
    for (const e of network.elements) {
      if (e.kind === "source") {
        const s = sources.get(e.id);
        s?.lines.forEach(({ node, amps }) => {
          take(node, of(amps), -1);
        });
        if (s !== undefined) take(e.neutral, of(s.neutralAmps), 1);
        watts += s?.watts ?? NaN;
        vars += s?.vars ?? NaN;
        continue;
      }
      const found = e.kind === "branch" ? branches.get(e.id) : loads.get(e.id);
      const amps = found?.amps;
      assert.ok(found !== undefined && amps != null);
      greatest = Math.max(greatest, amps.size);
      take(e.a, of(amps), 1);
      take(e.b, of(amps), -1);
      watts -= found.watts;
      vars -= found.vars;
    }
    for (const [node, [re, im]] of sums)
      assert.ok(Math.hypot(re, im) < 1e-9 * greatest, `network ${seed}, ${node}: ${Math.hypot(re, im)} A`);
    const given = point.sources.reduce((sum, { va }) => sum + va, 0);
    assert.ok(Math.hypot(watts, vars) < 1e-9 * given, `network ${seed}: ${watts} W, ${vars} var of ${given} VA`);
  }
});

test("what two sources do together is what they do one by one, added up, where loads are impedances", () => {
  for (const seed of [3, 7, 11, 15, 19, 23]) {
    const { network } = make(seed, true);
    const alone = (keep: string) =>
      solveAc({
        ...network,
        elements: network.elements.map((e) =>
          e.kind === "source" && e.id !== keep ? { ...e, lines: e.lines.map((l) => ({ ...l, volts: 0 })) } : e,
        ),
      });
    const [both, first, second] = [solveAc(network), alone("first"), alone("second")];
    both.branches.forEach(({ id, amps }, i) => {
      const [a, b] = [first.branches[i]?.amps, second.branches[i]?.amps];
      assert.ok(amps !== null && a != null && b != null);
      const off = Math.hypot(amps.re - a.re - b.re, amps.im - a.im - b.im);
      assert.ok(off < 1e-9 * Math.max(1, amps.size, a.size), `network ${seed}, ${id}: ${off} A`);
    });
  }
});

test("turning every source by an angle turns everything by it, and the order of elements does not matter", () => {
  for (const seed of range(30)) {
    const { network } = make(seed + 500, false);
    const turned = network.elements.map((e) =>
      e.kind === "source" ? { ...e, lines: e.lines.map((l) => ({ ...l, degrees: l.degrees + 37 })) } : e,
    );
    const [one, other] = [solveAc(network), solveAc({ ...network, elements: turned.toReversed() })];
    for (const load of one.loads) {
      const same = other.loads.find(({ id }) => id === load.id);
      assert.ok(same !== undefined && Math.abs(same.volts.size - load.volts.size) < 1e-7, `network ${seed}, ${load.id}`); // prettier-ignore
    }
  }
});

test("two equal circuits on two equal lines are each other's mirror, and nothing is left for their neutral", () => {
  const half = (i: number): AcElement[] => [
    { kind: "branch", id: `L${i}`, a: `S${i}`, b: `a${i}`, ohms: 0.1, reactance: 0.02 },
    { kind: "load", id: `load ${i}`, a: `a${i}`, b: "n", law: { va: 700, powerFactor: 0.7 } },
  ];
  const lines = [0, 1].map((i) => ({ node: `S${i}`, volts: 120, degrees: 180 * i }));
  const point = solveAc({
    elements: [
      { kind: "source", id: "s", neutral: "N", lines, ohms: 0.02, reactance: 0.01 },
      { kind: "branch", id: "N", a: "n", b: "N", ohms: 0.1, reactance: 0.02 },
      ...half(0),
      ...half(1),
    ],
  });
  assert.ok((point.branches.find(({ id }) => id === "N")?.amps?.size ?? 1) < 1e-9);
  assert.ok(Math.abs((point.loads[0]?.volts.size ?? 0) - (point.loads[1]?.volts.size ?? 1)) < 1e-9);
});
