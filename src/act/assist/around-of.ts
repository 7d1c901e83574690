import type { Around, Offered, PartEnd } from "../../plan/assist/index.ts";
import type { Plan, PlanPart } from "../../plan/index.ts";
import type { Finding } from "../../rules/index.ts";
import type { Design } from "../../size/index.ts";
import { kinds, type Kind, type System } from "../../system/index.ts";

/** A compiled plan, as far as help with its text needs it. */
export interface Assisted {
  readonly plan: Plan;
  readonly system: System;
  readonly design: Design;
  readonly judgement: { readonly findings: readonly Finding[] };
}

const known = new WeakMap<Assisted, Around>();

/** What there is to write about in a compiled plan. Worked out once, and of each part when it is asked for. */
export function aroundOf(compiled: Assisted): Around {
  let around = known.get(compiled);
  if (around === undefined) known.set(compiled, (around = make(compiled)));
  return around;
}

function make(compiled: Assisted): Around {
  const { plan, system, design, judgement } = compiled;
  const standing = whatStands(system);
  const facts = (part: PlanPart): { kind: Kind; facts: never } | null => {
    const kind = kinds.find((k) => k.name === part.kind);
    return kind === undefined ? null : { kind, facts: part.kindFacts as never }; // read by the rules of that kind
  };
  return {
    plan,
    kinds,
    isLoad: (part) => {
      const at = facts(part);
      return at !== null && at.kind.traits(at).load === true;
    },
    positionsOf: (part) => {
      const at = facts(part);
      return at?.kind.positions?.(at) ?? [];
    },
    endsOf: (part) => {
      const at = facts(part);
      if (at === null) return [];
      const ends = endsOf(part.key, at.kind.ports(at), standing);
      // The path through a switch or a fuse needs no terminal.
      return at.kind.traits(at).passes === true ? [{ name: "", says: "", free: true }, ...ends] : ends;
    },
    propose: (path) => propose(path, design, judgement.findings),
  };
}

/** Circuits by the port that they stand at. */
function whatStands(system: System): ReadonlyMap<string, readonly string[]> {
  const standing = new Map<string, string[]>();
  const put = (part: string, port: string, says: string): void => {
    const key = `${part}\n${port}`;
    const there = standing.get(key);
    if (there === undefined) standing.set(key, [says]);
    else there.push(says);
  };
  for (const { id, from, to, fromText, toText } of system.circuits) {
    put(from.part, from.port, `${id} to ${toText}`);
    put(to.part, to.port, `${id} from ${fromText}`);
  }
  return standing;
}

function endsOf(
  part: string,
  ports: ReturnType<Kind["ports"]>,
  standing: ReadonlyMap<string, readonly string[]>,
): PartEnd[] {
  return ports.flatMap(({ name, current, shape }): PartEnd[] => {
    const there = standing.get(`${part}\n${name}`) ?? [];
    const end = { name, says: there.length === 0 ? "free" : listed(there), free: there.length === 0 };
    if (name !== "" || shape !== "pair" || current === "AC") return [end];
    return [end, { name: "+", says: "plus", free: true }, { name: "−", says: "minus", free: true }];
  });
}

const listed = (circuits: readonly string[]): string =>
  circuits.length > 2 ? `${circuits.slice(0, 2).join(", ")} and ${circuits.length - 2} more` : circuits.join(", ");

function propose(path: readonly string[], design: Design, findings: readonly Finding[]): Offered[] {
  const [section, id, key] = path;
  if (section === "waivers" && id === undefined) {
    return findings
      .filter((f) => f.waived === null)
      .map((f) => ({
        text: `${f.rule} ${f.about.replace(/\.(?:from|to)$/, "").replace(/^[a-z]+\./, "")}`,
        says: f.title,
      }));
  }
  const circuit = section === "circuits" ? design.circuits.find((c) => c.id === id) : undefined;
  if (circuit === undefined) return [];
  if (key === "wire" && circuit.size !== null && circuit.outcome === "chosen") {
    return [{ text: circuit.size.label, says: "what is chosen now; written down it stays" }];
  }
  if (key !== "fuse" && key !== "breaker") return [];
  return circuit.devices
    .filter((d) => d.kind === key && d.by === "proposed" && d.ratingA !== null)
    .map((d) => ({
      text: `${d.ratingA ?? ""} A at ${d.at.replace(/:[^:]*$/, "")}`,
      says: "what is proposed now; written down it stays",
    }));
}
