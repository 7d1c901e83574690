import type { InternalElement } from "../../system/index.ts";
import { fnOf, isCore, type Block, type ContactElement, type Link } from "./read-blocks.ts";

/** A conductor's place on the side of a box, with the contact that stands between it and the metal inside. */
export interface BoxRow {
  readonly fn: string;
  readonly contact: ContactElement | null;
  /** Metal inside that it leads to. */
  readonly net: string;
  /** Metal of its own terminal. */
  readonly own: string;
}

/** What lands on a box in one place: a circuit, a free way or inlet, or what gives inside it. */
export interface BoxSlot {
  readonly side: "in" | "out";
  readonly is: "link" | "free" | "giver";
  readonly link: Link | null;
  readonly rows: readonly BoxRow[];
  /** Way, or position in which its contacts are closed; empty: neither. */
  readonly label: string;
  readonly giver: InternalElement | null;
  /** Part of the box that it belongs to: metal of different ones meets nowhere but in earth. */
  readonly section: number;
}

/** A box sorted into what lands on it. */
export interface SortedBox {
  readonly block: Block;
  readonly slots: readonly BoxSlot[];
  readonly sections: number;
  readonly joins: readonly {
    readonly element: Extract<InternalElement, { readonly is: "earth join" }>;
    readonly neutral: string;
    readonly earth: string;
    readonly section: number;
  }[];
  /** A transformer stands between what enters and what leaves. */
  readonly transforms: boolean;
}

/** Names of metal: terminals that are joined have one. */
function netsOf(inside: readonly InternalElement[]): (t: string) => string {
  const root = new Map<string, string>();
  const find = (t: string): string => {
    let at = t;
    for (let next = root.get(at); next !== undefined && next !== at; next = root.get(at)) at = next;
    return at;
  };
  for (const e of inside) {
    if (e.is === "join") root.set(find(e.b), find(e.a));
  }
  return find;
}

const portOf = (terminal: string): string => terminal.slice(0, terminal.lastIndexOf(":"));

/** Terminals at which something inside gives alternating current. */
function givesAt(e: InternalElement, also: readonly string[]): string[] {
  if (e.is === "source") return e.from === "transformer" ? [] : Object.values(e.terminals);
  if (e.is !== "converter" || e.outCurrent !== "AC") return [];
  const live = [...new Set([...(e.outLines ?? [e.outPlus]), e.outMinus])];
  // Of two lines in opposite phase the neutral between them comes from it as well.
  const neutral = live.every((t) => fnOf(t) !== "N") ? also.filter((t) => fnOf(t) === "N") : [];
  return [...live, ...neutral, ...also.filter((t) => fnOf(t) === "PE")];
}

/** Sorts what a part holds and what lands on it into places on the left and on the right of a box. */
export function sortBox(block: Block): SortedBox {
  const { inside, inputs, outputs } = block;
  const find = netsOf(inside);
  const contacts = inside.filter((e): e is ContactElement => e.is === "contact" && isCore(e.a));
  const placed = new Set<string>();
  const landsIn = new Set(inputs.flatMap(({ lines }) => lines.map(({ to }) => find(to))));

  // A pole of no way stands where it alone ends; between two such ends on the side that current comes from.
  const loose = contacts.filter(({ way }) => way === undefined);
  const isEnd = (net: string): boolean => loose.filter((c) => find(c.a) === net || find(c.b) === net).length === 1;
  const contactOf = (own: string, side: "in" | "out"): ContactElement | null => {
    const way = contacts.find((c) => c.way !== undefined && find(c.b) === own);
    if (way !== undefined) return way;
    const one = loose.find((c) => find(c.a) === own || find(c.b) === own);
    if (one === undefined || !isEnd(own)) return null;
    const other = find(one.a) === own ? find(one.b) : find(one.a);
    return side === "out" && isEnd(other) && landsIn.has(other) ? null : one;
  };
  const rowOf = (terminal: string, fn: string, side: "in" | "out"): BoxRow => {
    const own = find(terminal);
    const contact = contactOf(own, side);
    // Of circuits that share a way the first has its poles, the others hang on what they lead to.
    if (contact === null || placed.has(contact.id)) return { fn, contact: null, net: own, own };
    placed.add(contact.id);
    return { fn, contact, net: find(contact.a) === own ? find(contact.b) : find(contact.a), own };
  };
  const labelOf = (rows: readonly BoxRow[]): string => {
    const c = rows.find(({ contact }) => contact !== null)?.contact;
    if (c === undefined || c === null) return "";
    return c.way ?? (c.closedIn?.join() === "on" ? "" : (c.closedIn ?? []).join(" or "));
  };

  // As the plan has them: ways stay in their order, whether something is wired to them or not.
  const rank = ({ side, rows }: BoxSlot): number =>
    side === "in"
      ? -1
      : inside.findIndex(
          (e) => e.is === "contact" && e.way !== undefined && rows.some((r) => r.contact === e || r.own === find(e.b)),
        );
  const found: Omit<BoxSlot, "section">[] = [];
  const add = (slot: Omit<BoxSlot, "section" | "label">): void => {
    found.push({ ...slot, label: labelOf(slot.rows) });
  };
  for (const link of inputs)
    add({ side: "in", is: "link", link, giver: null, rows: link.lines.map((l) => rowOf(l.to, l.fn, "in")) });
  // An inverter leaves its neutral and its case on what leaves it.
  const leaving = [...new Set(outputs.slice(0, 1).flatMap(({ lines }) => lines.map(({ from }) => from)))];
  for (const giver of inside) {
    const at = givesAt(giver, leaving);
    if (at.length > 0) add({ side: "in", is: "giver", link: null, giver, rows: at.map((t) => ({ fn: fnOf(t), contact: null, net: find(t), own: find(t) })) }); // prettier-ignore
  }
  for (const link of outputs)
    add({ side: "out", is: "link", link, giver: null, rows: link.lines.map((l) => rowOf(l.from, l.fn, "out")) });
  // Ways and inlets that nothing is wired to are there all the same.
  const wired = new Set(outputs.flatMap(({ lines }) => lines.map(({ from }) => portOf(from))));
  const free = new Map<string, ContactElement[]>();
  for (const c of contacts) {
    if (placed.has(c.id)) continue;
    const port = portOf(c.way === undefined ? c.a : c.b);
    // Of a way that feeds one line the other pole is not there.
    if (c.way !== undefined && wired.has(port)) continue;
    free.set(port, [...(free.get(port) ?? []), c]);
  }
  for (const list of free.values()) {
    const side = list[0]?.way === undefined ? "in" : "out";
    add({
      side,
      is: "free",
      link: null,
      giver: null,
      rows: list.map((c) => {
        const [own, net] = side === "in" ? [c.a, c.b] : [c.b, c.a];
        return { fn: fnOf(own), contact: c, net: find(net), own: find(own) };
      }),
    });
  }
  const transforms = inside.some((e) => e.is === "source" && e.from === "transformer");
  const { sectionOf, count } = transforms
    ? { sectionOf: () => 0, count: 1 }
    : sectionsOf(found.map(({ rows }) => rows));
  const slots = found.map((slot, i): BoxSlot => ({ ...slot, section: sectionOf(i) }));
  const last = inside.length;
  const order = (slot: BoxSlot): number => (slot.side === "out" && rank(slot) < 0 ? last : rank(slot));
  return {
    block,
    slots: slots.map((slot, i) => ({ slot, i })).sort((a, b) => order(a.slot) - order(b.slot) || a.i - b.i).map(({ slot }) => slot), // prettier-ignore
    sections: count,
    joins: inside.flatMap((element) => {
      if (element.is !== "earth join") return [];
      const neutral = find(element.neutral);
      const section = slots.find((s) => s.rows.some((r) => r.net === neutral))?.section ?? 0;
      return [{ element, neutral, earth: find(element.earth), section }];
    }),
    transforms,
  };
}

/** Places on one side whose contacts are moved by one thing and never stand closed together: the inputs of a changeover, in their order. */
export function changeoversIn(slots: readonly BoxSlot[]): BoxSlot[][] {
  const groups = new Map<string, BoxSlot[]>();
  for (const slot of slots) {
    const contact = slot.rows.find((r) => r.contact?.closedIn !== undefined)?.contact;
    if (slot.side !== "in" || contact == null || contact.way !== undefined) continue;
    // What names no mover is moved with its part.
    const mover = contact.mover ?? "";
    groups.set(mover, [...(groups.get(mover) ?? []), slot]);
  }
  return [...groups.values()].filter((group) => {
    const positions = group.flatMap(({ rows }) => [...new Set(rows.flatMap(({ contact }) => contact?.closedIn ?? []))]);
    return group.length > 1 && new Set(positions).size === positions.length;
  });
}

/** What shares metal other than earth is one section; what has nothing else belongs to the first. */
function sectionsOf(rows: readonly (readonly BoxRow[])[]): { sectionOf: (slot: number) => number; count: number } {
  const live = rows.map((list) => list.flatMap(({ fn, net, own }) => (fn === "PE" || fn === "pole" ? [] : [net, own])));
  const groups: { nets: Set<string>; members: number[] }[] = [];
  live.forEach((nets, i) => {
    if (nets.length === 0) return;
    const met = groups.filter((g) => nets.some((net) => g.nets.has(net)));
    const one = { nets: new Set([...nets, ...met.flatMap((g) => [...g.nets])]), members: [...met.flatMap((g) => g.members), i] }; // prettier-ignore
    for (const g of met) groups.splice(groups.indexOf(g), 1);
    groups.push(one);
  });
  groups.sort((a, b) => Math.min(...a.members) - Math.min(...b.members));
  return { sectionOf: (slot) => Math.max(0, groups.findIndex((g) => g.members.includes(slot))), count: Math.max(1, groups.length) }; // prettier-ignore
}
