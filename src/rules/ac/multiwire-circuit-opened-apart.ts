import { cite } from "../../explain/index.ts";
import type { Contact, InternalElement } from "../../system/index.ts";
import { nameSome } from "../battery/name-some.ts";
import type { Build, CircuitView } from "../build.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { oneSource } from "./example-plans.ts";
import { isBoard } from "./guard-place.ts";
import { alternates } from "./tell-states.ts";

const box = (ways: string, lines: Readonly<Record<string, string>>): string =>
  oneSource({
    set: "us-cabin NEC 2023",
    system: "kind: AC, nominal: 240 V, phases: split, frequency: 60 Hz, cores: [L1, L2, N, PE]",
    parts: {
      GEN: "kind: generator, rated: 6 kVA, neutral: joined to earth",
      CU: `kind: load centre, main: breaker 30 A 2-pole, ways: { ${ways} }`,
      J: "kind: junction box",
      sockets: null,
      left: "kind: load, running: 5 A, class: I",
      right: "kind: load, running: 5 A, class: I",
    },
    circuits: {
      W20: "path: GEN → CU:in, length: 1 m",
      W23: null,
      W27: "path: J → left, length: 1 m, cores: [L1, N, PE]",
      W28: "path: J → right, length: 1 m, cores: [L2, N, PE]",
      ...lines,
    },
  });
const TWO_WAYS = "1: breaker 15 A 1-pole, 2: breaker 15 A 1-pole";
const COMMON = {
  W25: "path: CU:1 → J, length: 4 m, cores: [L1, N, PE]",
  W26: "path: CU:2 → J, length: 4 m, cores: [L2], return: none",
};

export const multiwireCircuitOpenedApart = defineRule({
  id: "ac/multiwire-circuit-opened-apart",
  title: "Multiwire circuit opened apart",
  severity: "must",
  danger:
    "whoever switches one breaker off to work on the neutral has a live wire in hand: what the other line feeds lifts the opened neutral to its volts",
  why: `Lines that share a neutral behind their breakers are one multiwire circuit, and one movement opens all of them where it begins: a breaker of two poles, or two whose handles are tied. Neutrals are followed from the
    loads back to the boards, through boxes and switches; of a load each line is followed to the breaker that opens it.`,
  silent: [
    "neutrals that meet in a board alone",
    "neutrals that serve one line: they are no multiwire circuit, whichever ways share them",
    "loads on two lines without a neutral: half-opened-circuit tells of them",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "210.4(B)", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("trade-practice", "all lines that share a neutral opened together", "practice") },
  ],
  messages: {
    apart:
      "{place}: its neutral serves lines that {devices} open one by one; lead them from one breaker that opens both, or each with a neutral of its own",
  },
  cures: [],
  examples: {
    good: [
      {
        says: "both lines and their neutral from one breaker of two poles",
        plan: box("1: breaker 15 A 2-pole", { W25: "path: CU:1 → J, length: 4 m, cores: [L1, L2, N, PE]" }),
      },
      {
        says: "a neutral for each line",
        plan: box(TWO_WAYS, {
          W27: "path: CU:1 → left, length: 5 m, cores: [L1, N, PE]",
          W28: "path: CU:2 → right, length: 5 m, cores: [L2, N, PE]",
        }),
      },
    ],
    bad: [
      {
        says: "two breakers of one pole and one neutral",
        plan: box(TWO_WAYS, COMMON),
        fails: "apart",
        about: "circuits.W25",
      },
      {
        says: "one breaker of one pole, and nobody knows what opens the other line",
        plan: box("1: breaker 15 A 1-pole", {
          ...COMMON,
          W26: "path: CU:in → J, length: 4 m, cores: [L2], return: none, breaker: unknown",
        }),
        fails: "cannot tell",
        about: "circuits.W25",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const metal = metalBehindBreakers(build);
    const serves = new Map<number, Served[]>();
    for (const { lines, neutral } of takersIn(build)) {
      const list = serves.get(metal.pieceOf(neutral)) ?? [];
      serves.set(metal.pieceOf(neutral), list);
      for (const line of lines) if (metal.isWired(line)) list.push({ fn: fnOf(line), piece: metal.pieceOf(line) });
    }
    const told = new Set<number>();
    for (const view of inOrder(build)) {
      const neutral = view.circuit.conductors.find((c) => c.fn === "N");
      if (view.circuit.current !== "AC") continue;
      const piece = neutral === undefined ? -1 : metal.pieceOf(neutral.to);
      const lines = serves.get(piece) ?? [];
      const isFirst = !told.has(piece);
      told.add(piece);
      if (new Set(lines.map((l) => l.fn)).size < 2)
        report.notApplicable(view.subject, "its neutral serves one line, or it has none");
      else if (!isFirst) report.notApplicable(view.subject, "its neutral is told of where it begins");
      else {
        const each = lines.map((l) => ({ ...l, by: metal.openers.get(l.piece) ?? new Set<string>() }));
        const pair = each.flatMap((a) => each.flatMap((b) => (a.fn < b.fn && ![...a.by].some((m) => b.by.has(m)) ? [[a, b] as const] : []))); // prettier-ignore
        const sure = pair.find(([a, b]) => a.by.size > 0 && b.by.size > 0);
        const open = pair.find((two) => two.some(({ by, piece: at }) => by.size === 0 && metal.isUnknown(at)));
        if (sure !== undefined)
          report.fail(view.subject, "apart", {
            words: { devices: nameSome(sure.flatMap(({ by }) => [...by].map((m) => deviceInWords(build, m)))) },
          });
        else if (open !== undefined)
          report.cannotTell(view.subject, [needed("what opens each line that its neutral serves", view.subject)]);
        else if (pair.length > 0) report.notApplicable(view.subject, "no breaker of its own opens one of its lines");
        else report.pass(view.subject);
      }
    }
  },
});

interface Served {
  readonly fn: string;
  readonly piece: number;
}

/** The way of a board, whether its breaker is written there or in the line; else the breaker of its circuit. */
function deviceInWords(build: Build, mover: string): string {
  const id = /^(.*):breaker(?::to)?$/.exec(mover)?.[1];
  const from = id === undefined ? undefined : build.circuit(id)?.circuit.from;
  if (id === undefined || from === undefined) return mover;
  const isWay = isBoard(build, from.part) && from.port !== "" && from.port !== "in";
  return isWay ? `${from.part}:${from.port}` : `the breaker of ${id}`;
}

const fnOf = (terminal: string): string => terminal.slice(terminal.lastIndexOf(":") + 1);

/** Circuits that leave a board first: a neutral is told of where it begins. */
const inOrder = (build: Build): readonly CircuitView[] => [
  ...build.circuits.filter((c) => isBoard(build, c.circuit.from.part)),
  ...build.circuits.filter((c) => !isBoard(build, c.circuit.from.part)),
];

/** What takes alternating current by way of a neutral. */
function takersIn({ system }: Build): readonly { readonly lines: readonly string[]; readonly neutral: string }[] {
  return system.elements.flatMap((e) => {
    if (e.is === "draw" && e.alternating?.neutral !== undefined)
      return [{ lines: e.alternating.lines, neutral: e.alternating.neutral }];
    if (e.is === "converter" && e.inCurrent === "AC" && fnOf(e.inMinus) === "N")
      return [{ lines: [e.inPlus], neutral: e.inMinus }];
    return [];
  });
}

/** Metal with all breakers and all boards cut out, and which breakers open each piece of it from its side of the source. */
function metalBehindBreakers(build: Build) {
  const parent = new Map<string, string>();
  const wired = new Set<string>();
  const rootOf = (terminal: string): string => {
    let at = terminal;
    for (let up = parent.get(at); up !== undefined; up = parent.get(at)) at = up;
    return at;
  };
  const unite = (a: string, b: string): void => {
    const [x, y] = [rootOf(a), rootOf(b)];
    if (x !== y) parent.set(x, y);
  };
  const unknown: string[] = [];
  for (const { circuit } of build.circuits) {
    if (circuit.current !== "AC") continue;
    for (const { from, to } of circuit.conductors) {
      unite(from, to);
      wired.add(from).add(to);
      if (circuit.devices === "unknown") unknown.push(from);
    }
  }
  const opening: Contact[] = [];
  for (const e of build.system.elements) {
    if (e.is === "contact" && isBreaker(build, e)) opening.push(e);
    else if ((e.is === "join" || e.is === "contact") && !isBoard(build, e.part)) unite(e.a, e.b);
  }
  const ids = new Map<string, number>();
  const pieceOf = (terminal: string): number => {
    const root = rootOf(terminal);
    const known = ids.get(root) ?? ids.size;
    ids.set(root, known);
    return known;
  };
  const openers = new Map<number, Set<string>>();
  for (const e of opening) {
    // One at the far end of a line has its load beyond the terminal.
    const piece = pieceOf(e.mover?.endsWith(":to") === true ? e.a : e.b);
    openers.set(piece, (openers.get(piece) ?? new Set()).add(e.mover ?? e.part));
  }
  const unknowns = new Set(unknown.map(pieceOf));
  return {
    pieceOf,
    openers,
    isWired: (terminal: string) => wired.has(terminal),
    isUnknown: (piece: number) => unknowns.has(piece),
  };
}

const isBreaker = (build: Build, e: Extract<InternalElement, { is: "contact" }>): boolean =>
  e.way !== undefined || e.mover?.includes(":breaker") === true || build.part(e.part)?.part.traits.guards !== undefined;
