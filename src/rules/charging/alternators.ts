import type { Feed, Store, Value } from "../../system/index.ts";
import type { Case } from "../../size/index.ts";
import { piecesOf } from "../battery/pieces.ts";
import type { Build, PartView } from "../build.ts";
import { factsOf, saysFigure } from "../stated.ts";

/** Of what it gives cold an alternator gives so much when it is hot, where its maker does not say: from memory. */
const HOT = 0.75;

/** An alternator as rules read it. */
export interface Alternator {
  readonly view: PartView;
  readonly feed: Feed;
  readonly plus: number;
  readonly minus: number;
  /** What it gives for long when hot; `unknown` as the plan says. */
  readonly hot: Value | "unknown";
  readonly isHotStated: boolean;
}

export const alternatorsOf = (build: Build): readonly Alternator[] =>
  build.settled.model.grid.feeds.flatMap(({ element, plus, minus }): Alternator[] => {
    const view = build.part(element.part);
    if (view === undefined || element.runsWith !== "engine") return [];
    const facts = factsOf(view);
    const stated = saysFigure(facts, "hot");
    const rated = saysFigure(facts, "rated");
    const usual: Value | "unknown" =
      rated === undefined || rated === "unknown"
        ? "unknown"
        : { low: HOT * rated.low, high: HOT * rated.high, origin: "default" };
    return [{ view, feed: element, plus, minus, hot: stated ?? usual, isHotStated: stated !== undefined }];
  });

/** The states of the plan in which the engine runs; where there is none, that in which nothing is on but what always is. */
export function enginesRun(build: Build): readonly Case[] {
  const { cases, base } = build.settled.weigher;
  const running = new Set(build.system.states.filter((s) => s.engine).map((s) => s.id));
  const own = cases.filter((c) => c.kind === "given" && running.has(c.name));
  const other = cases[base];
  return own.length > 0 || other === undefined ? own : [other];
}

/** How the metal hangs together in a case, with some contacts opened beside those that are open in it. */
export const piecesIn = (build: Build, one: Case, isOpened: (edge: number) => boolean = () => false): Int32Array =>
  piecesOf(build.settled, (e) => one.edgeOn[e] !== 0 && !isOpened(e));

/** Stores whose plus and minus are metal with those of a source. */
export function storesBeside(
  build: Build,
  at: { readonly plus: number; readonly minus: number },
  pieces: Int32Array,
): readonly Store[] {
  return build.settled.model.grid.stores.filter((s) => pieces[s.plus] === pieces[at.plus]).map((s) => s.element);
}

/** Contacts that open by themselves: those of relays. */
export function coilContacts(build: Build): ReadonlySet<number> {
  const edges = new Set<number>();
  build.settled.model.grid.edges.forEach(({ contact }, e) => {
    if (contact !== null && build.part(contact.part)?.part.traits.coil === true) edges.add(e);
  });
  return edges;
}

/** In words: the state, or that nothing but what is always on runs. */
export const stateName = (one: Case): string => (one.kind === "given" ? one.name : "the engine running");
