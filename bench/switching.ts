import { readFileSync } from "node:fs";
import { join } from "node:path";
import { compile } from "../src/compile.ts";
import { problemOf, studyProblem, studySwitching, type SwitchingProblem } from "../src/switching/index.ts";
import type { Row } from "./bench.ts";
import { timeWork } from "./time.ts";

/** Every position of every switch, beside as many plain passes over the same contacts that only join what they join. */
export function switchingRows(): Row[] {
  const { system } = compile(readFileSync(join(import.meta.dirname, "..", "examples", "van.yaml"), "utf8"));
  const van = problemOf(system).problem;
  const twelve = switchPanel(12);
  const thirty = switchPanel(30);
  return [
    {
      work: "every position of 12 two-position switches",
      ...timeWork(() => void studyProblem(twelve)),
      goalMs: 30,
      beside: { what: "4,096 plain passes of joining", ms: timeWork(joinPlainly(twelve, 4096)).median },
    },
    {
      work: "the same by decision diagram",
      ...timeWork(() => void studyProblem(twelve, { combinations: 0 })),
      goalMs: null,
      beside: { what: "looking at each", ms: timeWork(() => void studyProblem(twelve)).median },
    },
    {
      work: "every position of 30 two-position switches",
      ...timeWork(() => void studyProblem(thirty)),
      goalMs: null,
      beside: null,
    },
    {
      work: "every position of the van",
      ...timeWork(() => void studySwitching(system, {})),
      goalMs: null,
      beside: { what: "1,152 plain passes of joining", ms: timeWork(joinPlainly(van, 1152)).median },
    },
  ];
}

/**
 * Shore with its plug and breakers in series, an inverter with its own, both behind one transfer of two interlocked breakers, and a bar that feeds
 * outlets by two ways each, so that no switch is a dead end.
 */
function switchPanel(count: number): SwitchingProblem {
  const nodes: SwitchingProblem["nodes"][number][] = [];
  const node = (does: "line" | "neutral" | "earth"): number =>
    nodes.push({ name: `${does} ${String(nodes.length)}`, does }) - 1;
  const pair = (): readonly [number, number] => [node("line"), node("neutral")];
  const earth = node("earth");
  const contacts: SwitchingProblem["contacts"][number][] = [];
  const close = (m: number, from: readonly [number, number], to: readonly [number, number]): void => {
    from.forEach((a, i) =>
      contacts.push({ id: `C${String(contacts.length)}`, part: "", a, b: to[i] ?? a, closed: { mover: m, in: [1] } }),
    );
  };
  const [shore, inlet, inverter, bar] = [pair(), pair(), pair(), pair()];
  close(1, shore, inlet);
  close(2, inlet, bar);
  close(4, inverter, bar);
  const takers: SwitchingProblem["takers"][number][] = [];
  for (let m = 5; m < count; m++) {
    // An odd one begins a way of its own, up to four; all others lead to what is there already.
    const there = takers[m % Math.max(1, takers.length)];
    const [line, neutral] =
      there === undefined || (m % 2 === 1 && takers.length < 4) ? pair() : [there.lines[0] ?? 0, there.neutral ?? 0];
    close(m, bar, [line, neutral]);
    const id = `T${String(m)}`;
    takers.push({ id, name: id, part: id, kind: "load", lines: [line], neutral, earth, takes: null, direct: null });
  }
  const source = (id: string, kind: "shore" | "inverter", at: readonly [number, number], mover: number) =>
    ({
      id,
      name: id,
      part: id,
      kind,
      lines: [{ node: at[0], angle: 0 }],
      neutral: at[1],
      earth,
      fedBy: [],
      gives: { mover, in: [1] },
      joined: kind === "shore",
      joinStays: false,
      addsToSupply: false,
      passes: false,
      direct: null,
    }) as const;
  return {
    nodes,
    metal: [],
    movers: Array.from({ length: count }, (_, m) => {
      const id = `M${String(m)}`;
      return {
        id,
        name: id,
        part: id,
        by: m === 0 ? "outside" : "hand",
        positions: ["off", "on"],
        start: 0,
        rules: [],
      } as const;
    }),
    contacts,
    sources: [source("shore", "shore", shore, 0), source("inverter", "inverter", inverter, 3)],
    joins: [{ id: "join", name: "join", part: "inverter", neutral: inverter[1], earth, closed: { mover: 3, in: [1] } }],
    guards: [],
    takers,
    interlocks: [
      {
        id: "slide",
        name: "slide",
        never: [
          { mover: 2, in: [1] },
          { mover: 4, in: [1] },
        ],
      },
    ],
  };
}

function joinPlainly({ nodes, contacts }: SwitchingProblem, passes: number): () => void {
  const parent = new Int32Array(nodes.length);
  const root = (n: number): number => {
    let at = n;
    for (let up = parent[at] ?? at; up !== at; up = parent[at] ?? at) at = up;
    return at;
  };
  return () => {
    for (let pass = 0; pass < passes; pass++) {
      for (let n = 0; n < parent.length; n++) parent[n] = n;
      for (let c = 0; c < contacts.length; c++) {
        const contact = contacts[c];
        if (contact === undefined || ((pass >> (contact.closed?.mover ?? 0)) & 1) === 0) continue;
        const [a, b] = [root(contact.a), root(contact.b)];
        if (a < b) parent[b] = a;
        else if (b < a) parent[a] = b;
      }
    }
  };
}
