import { isAllowed, type MomentJudge } from "./judge-moment.ts";
import type { Core } from "./lay-core.ts";
import { moved, settle } from "./settle.ts";
import type { SwitchingGroup } from "./study.ts";
import { rootOf } from "./union-find.ts";

/** Live lines of a state that no single move of a hand, and whatever follows, makes dead. */
export function undisconnected(core: Core, judge: MomentJudge, values: Uint8Array): SwitchingGroup["undisconnected"] {
  const alternating = core.sources.reduce((mask, s, i) => (s.alternating ? mask | (1 << i) : mask), 0);
  const liveAt = (at: Uint8Array): Uint8Array => {
    const { joined, lineOf } = judge.look(at);
    return Uint8Array.from({ length: core.nodeCount }, (_, n) =>
      ((lineOf[rootOf(joined, n)] ?? 0) & alternating) !== 0 ? 1 : 0,
    );
  };
  const live = liveAt(values);
  if (!live.includes(1)) return [];
  const stays = { hand: live.slice(), outside: live.slice() };
  core.movers.forEach((mover, m) => {
    const by = core.problem.movers[mover.mover]?.by;
    if (by !== "hand" && by !== "outside") return;
    for (let to = 0; to < mover.real; to++) {
      const acted = moved(values, [{ mover: m, to }]);
      if (to === values[m] || !isAllowed(core, acted)) continue;
      const { path, rests } = settle(core, judge, acted);
      if (!rests) continue;
      const after = liveAt(path.at(-1)?.values ?? acted);
      after.forEach((is, n) => {
        if (is === 0) stays[by][n] = 0;
      });
    }
  });
  const behindLeaf = new Set(
    core.sorted.leaves.filter((l) => core.problem.movers[l.mover]?.by === "hand").flatMap((l) => l.nodes),
  );
  return [...core.problem.nodes.keys()].flatMap((node) => {
    const at = core.nodeOf[node] ?? -1;
    if (stays.hand[at] !== 1 || behindLeaf.has(node)) return [];
    return [{ node, outside: stays.outside[at] === 0 }];
  });
}
