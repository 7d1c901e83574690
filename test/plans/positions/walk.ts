import type { System } from "../../../src/system/index.ts";
import { giversOf, piecesOf, rootOf, wheelsOf, type Giver } from "./walked.ts";

/**
 * Walks a build by brute force: from everything off, one action after another, breadth first, and what moves by itself settles after each. What is true of a
 * position is asked of its metal directly. Written apart from the study of positions, to be held against it: it shares no line with it, and takes no short cut.
 * Lines, neutrals and earths of single-phase plans; conductors and boards of direct current count as far as they feed what makes alternating current.
 */

/** What can be true of a position. */
export type Holds =
  | "doubled"
  | "missing"
  | "may be doubled"
  | "may be missing"
  | "doubled and feeding"
  | "missing and feeding"
  | "parallel"
  | "may add"
  | "live pins"
  | "common neutral"
  | "own charge"
  | "skipped"
  | "overlap";

/** What is asked, and of which part; null: of any. */
export interface Question {
  readonly holds: Holds;
  readonly part: string | null;
}

/** An action of hand or outside and what followed by itself. */
interface Move {
  readonly wheel: number;
  readonly before: Standing;
  readonly to: string;
}

interface Settled {
  readonly standing: Standing;
  readonly moves: readonly Move[];
}

interface Edge {
  readonly a: number;
  readonly b: number;
  /** Mover by its place in the list, −1: always closed. */
  readonly mover: number;
  readonly closedIn: readonly string[];
  readonly contact: string;
}

export interface Walk {
  /** For each question the shortest way from everything off to where it holds; null: nowhere. */
  readonly shortest: (questions: readonly Question[]) => readonly (readonly string[] | null)[];
  /** Whether it holds after actions in this order. */
  readonly after: (way: readonly string[], question: Question) => boolean;
  /** Every position that is reached. */
  readonly count: () => number;
}

type Standing = readonly string[];

/** @param still movers that are left off, such as branches with one load each */
export function walkOf(system: System, still: readonly string[] = []): Walk {
  const node = piecesOf(system);
  const wheels = wheelsOf(system);
  const wheelAt = new Map(wheels.map((w, i) => [w.id, i]));
  const edges = system.elements.flatMap((e): Edge[] =>
    e.is === "contact" && e.closedIn !== undefined
      ? [
          {
            a: node(e.a),
            b: node(e.b),
            mover: wheelAt.get(e.mover ?? e.part) ?? -1,
            closedIn: e.closedIn,
            contact: e.id,
          },
        ]
      : [],
  );
  const givers = giversOf(system.elements, node, wheelAt);
  const guardContacts = new Set(system.elements.flatMap((e) => (e.is === "residual guard" ? e.contacts : [])));
  const ownGuard = new Set(
    system.elements.flatMap((e) => (e.is === "residual guard" && e.contacts.length === 0 ? [e.part] : [])),
  );
  const earthJoins = system.elements.flatMap((e) =>
    e.is === "earth join"
      ? [{ ...e, n: node(e.neutral), wheel: e.mover === undefined ? -1 : (wheelAt.get(e.mover) ?? -1) }]
      : [],
  );
  const direct = system.elements.flatMap((e) =>
    e.is === "store" || (e.is === "feed" && e.runsWith === "nothing") ? [{ part: e.part, plus: node(e.plus) }] : [],
  );
  const draws = system.elements.flatMap((e) =>
    e.is === "draw" && e.alternating !== undefined ? [{ part: e.part, lines: e.alternating.lines.map(node) }] : [],
  );
  const loaded = new Set(draws.flatMap(({ lines }) => lines));
  const chargers = system.elements.flatMap((e) =>
    e.is === "converter" && e.inCurrent === "AC" && e.outCurrent === "DC"
      ? [{ ...e, line: node(e.inPlus), to: node(e.outPlus) }]
      : [],
  );
  const isGuardedAlwaysClosed = system.elements.some(
    (e) => e.is === "contact" && e.closedIn === undefined && guardContacts.has(e.id),
  );
  if (isGuardedAlwaysClosed) throw new Error("a guard opens what counts as closed for ever here");

  const isIn = (s: Standing, wheel: number, positions: readonly string[] | undefined): boolean =>
    wheel < 0 || positions === undefined || positions.includes(s[wheel] ?? "");

  /** Of standings that are asked for several times. */
  const metals = new WeakMap<Standing, Int32Array>();

  /** Roots of the metal; `also`: one mover counts as standing in two positions at once. */
  function metal(
    s: Standing,
    open: ReadonlySet<string> = none,
    also?: { wheel: number; at: string },
    branches = false,
  ): Int32Array {
    const isPlain = open === none && also === undefined && !branches;
    const known = isPlain ? metals.get(s) : undefined;
    if (known !== undefined) return known;
    const up = Int32Array.from({ length: node.count() }, (_, i) => i);
    for (const e of edges) {
      if (open.has(e.contact)) continue;
      const isBranch = branches && loaded.has(e.b);
      if (!isBranch && !isIn(s, e.mover, e.closedIn) && !(also?.wheel === e.mover && e.closedIn.includes(also.at)))
        continue;
      up[rootOf(up, e.a)] = rootOf(up, e.b);
    }
    const roots = up.map((_, i) => rootOf(up, i));
    if (isPlain) metals.set(s, roots);
    return roots;
  }

  /** Which givers give: a transformer or an inverter asks for what feeds it. */
  function giving(s: Standing, m: Int32Array): Giver[] {
    const on = new Set<Giver>();
    for (let changed = true; changed;) {
      changed = false;
      for (const g of givers) {
        if (on.has(g) || !isIn(s, g.mover, g.in)) continue;
        const fed =
          g.converter === undefined
            ? (g.source?.fedBy ?? []).every((t) => isLive(node(t), m, [...on], g.part))
            : hasBank(node(g.converter.inPlus), m, g.part);
        if (!fed) continue;
        on.add(g);
        changed = true;
      }
    }
    return [...on];
  }
  const hasBank = (n: number, m: Int32Array, but: string): boolean =>
    direct.some((d) => d.part !== but && m[d.plus] === m[n]);
  const isLive = (n: number, m: Int32Array, on: readonly Giver[], but: string): boolean =>
    on.some((g) => g.part !== but && g.lines.some((l) => m[l] === m[n]));

  /** Lets what moves by itself come to rest, and tells each move that it made. */
  function settle(s: Standing): Settled {
    const moves: Move[] = [];
    let now = s;
    for (let round = 0; round < 20; round++) {
      const m = metal(now);
      const on = giving(now, m);
      const next = [...now];
      wheels.forEach((w, i) => {
        const rule = w.from?.rules?.find(
          (r) =>
            (r.live ?? []).every(
              (t) => isLive(node(t), m, on, w.from?.part ?? "") || hasBank(node(t), m, w.from?.part ?? ""),
            ) && (r.when ?? []).every((c) => isIn(now, wheelAt.get(c.mover) ?? -1, c.in)),
        );
        if (rule === undefined || rule.to === now[i]) return;
        moves.push({ wheel: i, before: now, to: rule.to });
        next[i] = rule.to;
      });
      if (next.every((p, i) => p === now[i])) return { standing: now, moves };
      now = next;
    }
    return { standing: now, moves };
  }

  const forbidden = (s: Standing): boolean =>
    (system.interlocks ?? []).some(({ never }) => never.every((n) => isIn(s, wheelAt.get(n.mover) ?? -1, n.in)));

  /** Groups of givers that are joined by a line or a neutral, with how many joins to earth each has at least and at most. */
  function islands(s: Standing): { givers: Giver[]; low: number; high: number; parts: string[] }[] {
    const m = metal(s);
    const groups: Giver[][] = [];
    for (const g of giving(s, m)) {
      const meets = groups.filter((group) => group.some((o) => meet(o, g, m) || sharesNeutral(o, g, m)));
      for (const group of meets) groups.splice(groups.indexOf(group), 1);
      groups.push([g, ...meets.flat()]);
    }
    return groups.map((group) => {
      const touches = (n: number): boolean => n >= 0 && group.some((g) => g.neutral >= 0 && m[g.neutral] === m[n]);
      let [low, high] = [0, 0];
      const parts = group.map((g) => g.part);
      const count = (certain: boolean, part: string): void => {
        high++;
        if (certain) low++;
        parts.push(part);
      };
      for (const j of earthJoins)
        if (touches(j.n) && (j.closedIn === "unknown" || isIn(s, j.wheel, j.closedIn)))
          count(j.closedIn !== "unknown", j.part);
      // A join in a machine is there whether it runs or not; that of the shore is there while it is plugged in.
      for (const g of givers) {
        if (g.source === undefined || g.source.joined === false || !touches(g.neutral)) continue;
        if (g.source.from === "shore" && !group.includes(g)) continue;
        count(g.source.joined === true, g.part);
      }
      return { givers: group, low, high, parts };
    });
  }
  const meet = (a: Giver, b: Giver, m: Int32Array): boolean => a.lines.some((l) => b.lines.some((k) => m[l] === m[k]));
  const sharesNeutral = (a: Giver, b: Giver, m: Int32Array): boolean =>
    a.neutral >= 0 && b.neutral >= 0 && m[a.neutral] === m[b.neutral];

  const pairs = (on: readonly Giver[]): [Giver, Giver][] =>
    on.flatMap((a, i) => on.slice(i + 1).map((b): [Giver, Giver] => [a, b]));

  function holdsAt({ holds, part }: Question, { standing: s, moves }: Settled): boolean {
    const isOf = (...parts: string[]): boolean => part === null || parts.includes(part);
    if (holds === "overlap")
      return moves.some(({ wheel, before, to }) => {
        const w = wheels[wheel];
        if (w?.from === undefined || w.from.breaksFirst === true || !isOf(w.from.part)) return false;
        const after = before.map((p, i) => (i === wheel ? to : p));
        const [left, between, reached] = [metal(before), metal(before, none, { wheel, at: to }), metal(after)];
        // Only for the moment: sources that meet before or after it are parallel.
        return pairs(giving(before, between)).some(
          ([a, b]) => meet(a, b, between) && !meet(a, b, left) && !meet(a, b, reached),
        );
      });
    if (holds === "doubled") return islands(s).some((i) => i.low >= 2 && isOf(...i.parts));
    if (holds === "missing") return islands(s).some((i) => i.high === 0 && isOf(...i.parts));
    if (holds === "doubled and feeding" || holds === "missing and feeding") {
      // A load counts as on where nothing but its own switch is open.
      const fed = metal(s, none, undefined, true);
      return islands(s).some(
        (i) =>
          (holds === "missing and feeding" ? i.high === 0 : i.low >= 2) &&
          isOf(...i.parts) &&
          [...loaded].some((line) => i.givers.some((g) => g.lines.some((l) => fed[l] === fed[line]))),
      );
    }
    if (holds === "may be doubled") return islands(s).some((i) => i.high >= 2 && isOf(...i.parts));
    if (holds === "may be missing") return islands(s).some((i) => i.low === 0 && isOf(...i.parts));
    const m = metal(s);
    const on = giving(s, m);
    if (holds === "parallel") return pairs(on).some(([a, b]) => meet(a, b, m) && isOf(a.part, b.part));
    if (holds === "common neutral") return pairs(on).some(([a, b]) => sharesNeutral(a, b, m) && !meet(a, b, m));
    if (holds === "live pins")
      return givers.some(
        (g) =>
          g.source?.from === "shore" &&
          !on.includes(g) &&
          isOf(g.part) &&
          g.lines.some((l) => isLive(l, m, on, g.part)),
      );
    if (holds === "may add")
      return givers.some(
        (g) =>
          g.converter?.addsToSupply !== undefined &&
          !on.includes(g) &&
          isOf(g.part) &&
          hasBank(node(g.converter.inPlus), m, g.part) &&
          g.lines.some((l) => isLive(l, m, on, g.part)),
      );
    if (holds === "own charge")
      return chargers.some(
        (c) =>
          isOf(c.part) &&
          isIn(s, c.mover === undefined ? -1 : (wheelAt.get(c.mover) ?? -1), c.worksIn) &&
          on.some(
            (g) =>
              g.converter !== undefined &&
              g.lines.some((l) => m[l] === m[c.line]) &&
              m[node(g.converter.inPlus)] === m[c.to],
          ),
      );
    // Skipped: with every guard against leakage open there is still a line that feeds it.
    const bare = metal(s, guardContacts);
    return draws.some(
      (d) =>
        isOf(d.part) &&
        !ownGuard.has(d.part) &&
        d.lines.some((l) => on.some((g) => g.lines.some((k) => bare[k] === bare[l]))),
    );
  }

  const first = settle(wheels.map((w) => w.positions[w.start] ?? ""));

  /** Every action from every position, nearest first; `isNew`: it leads to a position that no other led to before. */
  function* everyAction(): Generator<{ settled: Settled; way: readonly string[]; isNew: boolean }> {
    const seen = new Set([first.standing.join("|")]);
    let edge: { standing: Standing; way: readonly string[] }[] = [{ standing: first.standing, way: [] }];
    yield { settled: first, way: [], isNew: true };
    while (edge.length > 0) {
      const next: typeof edge = [];
      for (const { standing, way } of edge) {
        for (const [i, w] of wheels.entries()) {
          if (w.by === "itself" || still.includes(w.id)) continue;
          for (const to of w.positions) {
            if (to === standing[i]) continue;
            const settled = act(standing, i, to);
            if (settled === null) continue;
            const key = settled.standing.join("|");
            const here = { settled, way: [...way, `${w.id} ${to}`], isNew: !seen.has(key) };
            yield here;
            if (!here.isNew) continue;
            seen.add(key);
            next.push({ standing: settled.standing, way: here.way });
          }
        }
      }
      edge = next;
    }
  }

  function act(s: Standing, wheel: number, to: string): Settled | null {
    const moved = s.map((p, i) => (i === wheel ? to : p));
    if (forbidden(moved)) return null;
    const settled = settle(moved);
    return forbidden(settled.standing) ? null : { ...settled, moves: [{ wheel, before: s, to }, ...settled.moves] };
  }

  return {
    shortest(questions) {
      const found: (readonly string[] | null)[] = questions.map(() => null);
      let open = questions.length;
      for (const { settled, way, isNew } of everyAction()) {
        questions.forEach((question, i) => {
          // Only what happens on the way asks for actions that lead to where others led before.
          if (found[i] !== null || (!isNew && question.holds !== "overlap") || !holdsAt(question, settled)) return;
          found[i] = way;
          open--;
        });
        if (open === 0) break;
      }
      return found;
    },
    after(way, question) {
      let now = first;
      for (const action of way) {
        const wheel = wheels.findIndex((w) => w.positions.some((p) => `${w.id} ${p}` === action));
        const done = wheel < 0 ? null : act(now.standing, wheel, action.slice((wheels[wheel]?.id.length ?? 0) + 1));
        if (done === null) throw new Error(`no such action, or forbidden: ${action}`);
        now = done;
      }
      return holdsAt(question, now);
    },
    count: () => [...everyAction()].filter(({ isNew }) => isNew).length,
  };
}

const none: ReadonlySet<string> = new Set();
