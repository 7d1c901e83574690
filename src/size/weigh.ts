import type { Case } from "./cases.ts";
import { findCurrents } from "./design-currents.ts";
import { findOverload } from "./find-overload.ts";
import { judgeLoads } from "./judge-loads.ts";
import { prepareRows } from "./judged-rows.ts";
import { runOhms } from "./ladder.ts";
import { prepareTrees } from "./lay-trees.ts";
import { prepareLost, type Lost } from "./lost-to-pair.ts";
import { makeLook } from "./look.ts";
import { JOINT_OHMS, type CircuitModel, type Model } from "./model.ts";
import { findPairs } from "./pairs.ts";
import { prepareCore } from "./solve-core.ts";
import { prepareStarts } from "./starts-in-states.ts";
import type { Held as HeldSource, Pair } from "./standing.ts";
import type { Weigher } from "./weigher.ts";

// A tenth of a microvolt is rounding, not a fault.
const SLACK = 1e-7;
/** As good as none beside any wire; with less, rounding in the volts of 230 V would show in the sixth digit of a current. */
const LEAST_OHMS = 1e-6;

/** Prepares a build for being weighed. */
export function makeWeigher(model: Model, cases: readonly Case[]): Weigher {
  const { grid, trees, circuits } = model;
  const base = cases.findIndex((c) => c.kind === "base");
  const pairs = findPairs(model, cases);
  const pairCount = pairs.list.length;
  const rows = prepareRows(model, pairs, cases, base);
  const tree = prepareTrees(model, cases.length, base);
  const { columns, flows, lost } = tree;
  const ohmsColumn = columns - 1;
  const asked = new Uint8Array(pairCount);
  circuits.forEach((_, i) => {
    for (const p of pairs.ofJudged[i] ?? []) asked[p] = pairs.fed[p] ?? 0;
  });
  const startPairs = new Uint8Array(pairCount);
  circuits.forEach((c, i) => {
    c.judged.forEach((judged, k) => {
      const p = pairs.ofJudged[i]?.[k] ?? 0;
      if (!Number.isNaN(judged.startExtra)) startPairs[p] = asked[p] ?? 0;
    });
  });
  const core = prepareCore(model, cases, pairs.list, asked, startPairs, base);
  /** What would have to push more than it can for a pair, with amps drawn there above what a case has. */
  const overload = (j: number, p: number, extra: number): HeldSource | null =>
    (core.alone[j]?.length ?? 0) === 0
      ? null
      : findOverload(core, j, extra, core.starting[j]?.[p], (h) =>
          (sources[j]?.[p] ?? []).some((s) => s.plus === h.plus && s.minus === h.minus),
        );
  const starts = prepareStarts(model, rows, pairs, cases, core, tree, base, overload);

  const circuitOfEdge = Int32Array.from(grid.edges, ({ circuit }) => (circuit < 0 ? -1 : (model.at[circuit] ?? -1)));
  const shareOfEdge = new Float64Array(grid.edges.length);
  for (const c of circuits) c.edges.forEach((e, k) => (shareOfEdge[e] = c.shares[k] ?? 0));
  const plusAt = new Int32Array(rows.count);
  const minusAt = new Int32Array(rows.count);
  circuits.forEach((c, i) => {
    c.judged.forEach((judged, k) => {
      plusAt[(rows.first[i] ?? 0) + k] = judged.plus * columns;
      minusAt[(rows.first[i] ?? 0) + k] = judged.minus * columns;
    });
  });
  // A return that is a circuit of its own has no live one.
  const liveEdge = Int32Array.from(
    circuits,
    (c) => c.edges.find((e) => grid.edges[e]?.live === true) ?? c.edges[0] ?? -1,
  );

  /** Radial circuits, each behind the one that it hangs on. */
  const outwards = [...model.roots];
  for (let k = 0; k < outwards.length; k++) outwards.push(...(circuits[outwards[k] ?? 0]?.children ?? []));

  // What a round holds.
  const fixed = new Float64Array(grid.edges.length);
  const contactOhms = Float64Array.from(grid.edges, ({ contact }) => contact?.ohms.high ?? Number.NaN);
  const runAt = circuits.map((c) => new Float64Array(c.rungs?.ladder.makes.length ?? 1).fill(Number.NaN));
  let steady = new Float64Array(circuits.length);
  let sources: readonly (readonly (readonly Pair[])[])[] = [];
  let taken: readonly Float64Array[] = [];

  // What the core comes to.
  const ohms = new Float64Array(grid.edges.length);
  const pairDrop = new Float64Array(pairCount * (base + 1));
  const pairSource = new Float64Array(pairCount * (base + 1));
  const aloneDrop = new Float64Array(rows.count);
  const aloneSource = new Float64Array(rows.count);
  const startDrop = new Float64Array(rows.count);
  const startSource = new Float64Array(rows.count);

  const hold: Weigher["hold"] = (held) => {
    // What a run has at each size stays while its current does.
    for (let c = 0; c < runAt.length; c++) if (steady[c] !== held.steady[c]) runAt[c]?.fill(Number.NaN);
    steady = Float64Array.from(held.steady);
    taken = held.drawAmps;
    for (let e = 0; e < fixed.length; e++) {
      const contact = contactOhms[e] ?? Number.NaN;
      const device = held.deviceOhms[e] ?? 0;
      fixed[e] = Number.isNaN(contact) ? JOINT_OHMS * (2 + 2 * (held.deviceCount[e] ?? 0)) + device : contact + device;
    }
    tree.update(held.drawAmps);
    rows.update(held.drawAmps, held.scale);
    starts.update(held.drawAmps);
    const demand = cases.map((_, j) => {
      const into = new Float64Array(pairCount);
      const amps = held.drawAmps[j];
      for (let d = 0; d < pairs.ofDraw.length; d++) {
        const p = pairs.ofDraw[d] ?? 0;
        into[p] = (into[p] ?? 0) + (amps?.[d] ?? 0);
      }
      return into;
    });
    core.update(held.standing, demand);
    sources = cases.map((_, j) => pairs.sources(j, held.standing[j] ?? { held: [], pushed: [] }));
  };

  /** One way, without joints and devices; 0 where nothing is known of it. */
  const runOf = (c: number, rung: number): number => {
    const table = runAt[c];
    const run = table?.[rung] ?? Number.NaN;
    if (!Number.isNaN(run)) return run;
    const rungs = circuits[c]?.rungs;
    const found = rungs === undefined || rungs === null ? 0 : runOhms(rungs, rung, steady[c] ?? 0);
    if (table !== undefined) table[rung] = found;
    return found;
  };
  const edgeOhms = (edge: number, rung: number): number => {
    const c = circuitOfEdge[edge] ?? -1;
    return (fixed[edge] ?? 0) + (c < 0 ? 0 : runOf(c, rung) * (shareOfEdge[edge] ?? 0));
  };

  const ohmsOf: Weigher["ohmsOf"] = (edge, rungs) => {
    const c = circuitOfEdge[edge] ?? -1;
    return edgeOhms(edge, c < 0 ? 0 : (rungs[c] ?? 0));
  };

  const { find: findLost, found } = prepareLost(pairs, core, () => sources, overload);
  const lostTo = (j: number, p: number, extra: number): Lost => {
    findLost(j, p, extra);
    return { drop: found.drop, source: found.source };
  };

  const solveCore: Weigher["solveCore"] = (rungs, instead) => {
    for (const e of core.edges) {
      ohms[e] =
        instead !== undefined && circuitOfEdge[e] === instead.circuit
          ? (fixed[e] ?? 0) + instead.ohms * (shareOfEdge[e] ?? 0)
          : ohmsOf(e, rungs);
    }
    core.solve(ohms);
    for (let j = 0; j <= base; j++) {
      for (let p = 0; p < pairCount; p++) {
        findLost(j, p, 0);
        pairDrop[j * pairCount + p] = found.drop;
        pairSource[j * pairCount + p] = found.source;
      }
    }
    for (let q = 0; q < rows.count; q++) {
      const pair = rows.pair[q] ?? 0;
      const alone = rows.alone[q] ?? Number.NaN;
      if (!Number.isNaN(alone)) {
        findLost(base, pair, alone);
        aloneDrop[q] = found.drop;
        aloneSource[q] = found.source;
      }
      const start = rows.start[q] ?? Number.NaN;
      if (!Number.isNaN(start)) {
        findLost(base, pair, start);
        startDrop[q] = found.drop;
        startSource[q] = found.source;
      }
    }
    starts.lay();
    for (const e of model.coreContacts) tree.layEdge(e, fixed[e] ?? 0);
  };

  const treeEdges = circuits.map((c) => Int32Array.from(c.treeEdges));
  const layCircuit: Weigher["layCircuit"] = ({ position }, rung) => {
    const list = treeEdges[position];
    if (list === undefined) return;
    const run = runOf(position, rung);
    for (let k = 0; k < list.length; k++) {
      const e = list[k] ?? 0;
      const own = fixed[e] ?? 0;
      const of = circuitOfEdge[e] ?? -1;
      // Contacts on the way have no share of the run; a return that shares the size is laid with it.
      const along = of === position ? run : of < 0 ? 0 : runOf(of, rung);
      tree.layEdge(e, own + along * (shareOfEdge[e] ?? 0));
    }
  };

  const layAll: Weigher["layAll"] = (rungs) => {
    for (const i of outwards) {
      const c = circuits[i];
      if (c !== undefined) layCircuit(c, rungs[i] ?? 0);
    }
  };

  /** Amps that a feeder's demand adds to what always flows in it; NaN: it states none. */
  const demandExtra = (c: CircuitModel): number =>
    c.demand === null ? Number.NaN : Math.max(0, c.demand - flowIn(c, base));
  const flowIn = (c: CircuitModel, j: number): number => {
    const e = liveEdge[c.position] ?? -1;
    return Math.abs(trees.isTree[e] === 1 ? (flows[j]?.[e] ?? 0) : coreAmps(j, e));
  };

  const fits: Weigher["fits"] = (c) => {
    const first = rows.first[c.position] ?? 0;
    for (let k = 0; k < c.judged.length; k++) {
      const judged = c.judged[k];
      if (judged === undefined) continue;
      const q = first + k;
      const p = plusAt[q] ?? 0;
      const m = minusAt[q] ?? 0;
      const pair = rows.pair[q] ?? 0;
      const most = judged.dropVolts + SLACK;
      const least = judged.runsAbove - SLACK;
      for (let j = 0; j < base; j++) {
        if (rows.on[q * base + j] === 0) continue;
        const at = j * pairCount + pair;
        const drop = (pairDrop[at] ?? 0) + (lost[m + j] ?? 0) - (lost[p + j] ?? 0);
        if (drop > most || (pairSource[at] ?? 0) - drop < least) return false;
      }
      const own = (lost[m + base] ?? 0) - (lost[p + base] ?? 0);
      const loop = (lost[p + ohmsColumn] ?? 0) + (lost[m + ohmsColumn] ?? 0);
      if (judged.draw < 0) {
        const more = demandExtra(c);
        if (!Number.isNaN(more) && lostTo(base, pair, more).drop + own + more * loop > most) return false;
        continue;
      }
      const drop = (aloneDrop[q] ?? 0) + own + (rows.alone[q] ?? 0) * loop;
      if (drop > most || (aloneSource[q] ?? 0) - drop < least) return false;
      const start = rows.start[q] ?? Number.NaN;
      if (Number.isNaN(start)) continue;
      if ((startSource[q] ?? 0) - (startDrop[q] ?? 0) - own - start * loop < judged.startsAbove - SLACK) return false;
      if (!starts.fits(q, judged.startsAbove - SLACK)) return false;
    }
    return true;
  };

  const givenAt = (j: number, q: number, into: Lost): void => {
    const at = j * pairCount + (rows.pair[q] ?? 0);
    const path = (lost[(minusAt[q] ?? 0) + j] ?? 0) - (lost[(plusAt[q] ?? 0) + j] ?? 0);
    into.drop = (pairDrop[at] ?? 0) + path;
    into.source = pairSource[at] ?? 0;
  };
  const aloneAt = (q: number, extra: number, into: Lost): void => {
    findLost(base, rows.pair[q] ?? 0, extra);
    const p = plusAt[q] ?? 0;
    const m = minusAt[q] ?? 0;
    const own = (lost[m + base] ?? 0) - (lost[p + base] ?? 0);
    const loop = (lost[p + ohmsColumn] ?? 0) + (lost[m + ohmsColumn] ?? 0);
    into.drop = found.drop + own + extra * loop;
    into.source = found.source;
  };

  const { worst, countShort, roomFor, startIn, eachStart } = judgeLoads({
    base,
    rows,
    starts,
    givenAt,
    aloneAt,
    demandExtra,
    flowIn,
    overload,
  });

  const aloneVolts: Weigher["aloneVolts"] = (c, k) => {
    const at: Lost = { drop: 0, source: 0 };
    aloneAt((rows.first[c.position] ?? 0) + k, rows.extra(c.position).steady, at);
    return at.source - at.drop;
  };

  const drawVolts: Weigher["drawVolts"] = (j, d) => {
    const draw = grid.draws[d];
    const p = pairs.ofDraw[d] ?? 0;
    const pair = pairs.list[p];
    const v = core.volts[j];
    if (draw === undefined || pair === undefined || v === undefined) return null;
    if ((sources[j]?.[p] ?? []).length === 0 || !pairs.isJoined(j, d)) return null;
    const up = (v[pair.plus] ?? 0) + (lost[draw.plus * columns + j] ?? 0);
    return up - (v[pair.minus] ?? 0) - (lost[draw.minus * columns + j] ?? 0);
  };

  const chargingDrop: Weigher["chargingDrop"] = ({ charging }) => {
    let volts = 0;
    let at = base;
    if (charging === null) return { volts, case: at };
    const lostIn = (j: number): number => {
      const v = core.volts[j];
      if (v === undefined) return 0;
      const there = (v[charging.fromPlus] ?? 0) - (v[charging.toPlus] ?? 0);
      return there + (v[charging.toMinus] ?? 0) - (v[charging.fromMinus] ?? 0);
    };
    let rated = 0;
    cases.forEach(({ kind }, j) => (rated = kind === "rating" ? Math.max(rated, lostIn(j)) : rated));
    cases.forEach((one, j) => {
      // A source that held its volts when the sizes were thinner seems to push what it cannot; no more than its rating comes through here.
      const here = one.kind === "given" && rated > 0 ? Math.min(lostIn(j), rated) : lostIn(j);
      if (here > volts + 1e-9) {
        volts = here;
        at = j;
      }
    });
    return { volts, case: at };
  };

  const coreSees: Weigher["coreSees"] = (c, seen) => {
    for (let q = rows.first[c.position] ?? 0; q < (rows.first[c.position + 1] ?? 0); q++) {
      const pair = rows.pair[q] ?? 0;
      for (let j = 0; j <= base; j++)
        seen.push(pairDrop[j * pairCount + pair] ?? 0, pairSource[j * pairCount + pair] ?? 0);
      seen.push(aloneDrop[q] ?? 0, aloneSource[q] ?? 0, startDrop[q] ?? 0, startSource[q] ?? 0);
      starts.each(q, (volts) => seen.push(volts));
      if (c.demand === null) continue;
      const { drop, source } = lostTo(base, pair, c.demand);
      seen.push(drop, source);
    }
    if (c.charging !== null) seen.push(chargingDrop(c).volts);
  };

  const coreAmps = (j: number, e: number): number => {
    const edge = grid.edges[e];
    const v = core.volts[j];
    if (edge === undefined || v === undefined || cases[j]?.edgeOn[e] === 0) return 0;
    return ((v[edge.a] ?? 0) - (v[edge.b] ?? 0)) / Math.max(ohms[e] ?? 0, LEAST_OHMS);
  };
  const coreAmpsPerAmp = (p: number, e: number, j: number): number => {
    const edge = grid.edges[e];
    const x = core.starting[j]?.[p];
    if (edge === undefined || x === undefined || asked[p] === 0) return 0;
    return ((x[edge.a] ?? 0) - (x[edge.b] ?? 0)) / Math.max(ohms[e] ?? 0, LEAST_OHMS);
  };

  return {
    model,
    cases,
    base,
    pairs,
    drawVolts,
    hold,
    solveCore,
    ohmsOf,
    layCircuit,
    layAll,
    fits,
    worst,
    countShort,
    roomFor,
    aloneVolts,
    coreSees,
    chargingDrop,
    look: makeLook({
      model,
      base,
      rows,
      pairs,
      core,
      tree,
      demandExtra,
      startIn,
      eachStart,
      sources: () => sources,
      drawAmps: () => taken,
    }),
    currents: () =>
      findCurrents({
        model,
        rows,
        pairs,
        starts,
        caseCount: cases.length,
        given: base,
        flows,
        coreAmps,
        coreAmpsPerAmp,
        liveEdge,
        outwards,
      }),
  };
}
