import type { InternalElement, System } from "../../system/index.ts";
import { cleanText } from "../clean-text.ts";
import type { BoardDirectory, WayRow } from "../directory/read-boards.ts";
import { milliamps } from "../directory/residual-text.ts";
import type { PartView } from "../one-line/part-view.ts";
import type { WireView } from "../one-line/wire-view.ts";
import { fitText, wrapText } from "../sheet/fit-text.ts";
import { textWidth } from "../text-width.ts";
import type { ContactIs } from "./contact-art.ts";
import { CAP } from "./look.ts";
import type { Block, Link } from "./read-blocks.ts";

/** What stands beside the end of a circuit. */
export interface LeafText {
  readonly lines: readonly string[];
  /** How many of them, from the first, are its designation. */
  readonly named: number;
}

/** What stands beside symbols and lines. */
export interface Wording {
  /** Name of a box and what it is, in lines no wider than there is room for. */
  readonly head: (block: Block, room: number) => string[];
  /** With how many of its lines are its name. */
  readonly leaf: (block: Block, room: number) => LeafText;
  /** Of a circuit, without its number: `3 × 1 mm² · 5.2 m`, and as what it was bought. */
  readonly caption: (link: Link, room: number) => string[];
  readonly view: (part: string) => PartView | undefined;
  readonly way: (part: string, way: string, circuit: string) => WayRow | undefined;
  /** Leakage at which the device of some contacts opens; empty: it watches none. */
  readonly residual: (contacts: readonly string[]) => string;
  readonly inside: readonly InternalElement[];
  /** Designation of a part, with what people call it or what it is. */
  readonly called: (part: string) => string;
  /** How a part in a line opens. */
  readonly device: (part: string) => ContactIs;
}

/** Reads words from what the one-line and the directories say. */
export function makeWording(
  parts: ReadonlyMap<string, PartView>,
  wires: readonly WireView[],
  boards: readonly BoardDirectory[],
  { elements, parts: all }: Pick<System, "elements" | "parts">,
): Wording {
  const wireOf = new Map(wires.map((w) => [w.id, w]));
  const lines = (texts: readonly string[], room: number, most: number): string[] => {
    const all = texts
      .filter((t) => t !== "")
      .flatMap((t) => {
        const wrapped = wrapText(t, CAP, "semibold", room);
        return wrapped.length <= 2 ? wrapped : [wrapped[0] ?? "", fitText(wrapped.slice(1).join(" "), CAP, "semibold", room)]; // prettier-ignore
      });
    return all.slice(0, most);
  };
  const facts = (part: string): string =>
    (parts.get(part)?.values ?? [])
      .filter((t) => t !== "?")
      .slice(0, 2)
      .join(", ");
  const named = (part: string, kind: string): string[] => {
    const view = parts.get(part);
    const name = view?.called ?? null;
    // Who reads a name like `CU` wants to know what it is; `fridge` says it.
    return [cleanText(part), name ?? (part.length <= 4 ? cleanText(kind) : "")];
  };
  return {
    head: ({ part, inside }, room) => {
      const board = boards.find(({ about }) => about === `parts.${part.id}`);
      const main = board?.main ?? null;
      const floats = inside.some((e) => e.is === "source" && e.joined === false) ? "neutral floats" : "";
      const said = facts(part.id);
      return lines([...named(part.id, part.kind), said, main === null ? "" : `main: ${main}`, floats], room, 6);
    },
    leaf: ({ part, inside }, room) => {
      const draw = inside.find((e) => e.is === "draw");
      const guard = inside.find((e) => e.is === "residual guard" && e.contacts.length === 0);
      const type = draw?.is === "draw" && draw.alternating?.protection !== undefined ? `class ${draw.alternating.protection}` : ""; // prettier-ignore
      const more = [facts(part.id), type, guard?.is === "residual guard" ? `${milliamps(guard.amps)} inside` : ""];
      const said = more.filter((t) => t !== "");
      const together = said.join(", ");
      const [id = "", ...called] = named(part.id, part.kind);
      const name = lines([id], room, 2);
      // On one line where there is room, else each on its own.
      const told = textWidth(together, CAP, "semibold") <= room ? [together] : said;
      return { lines: [...name, ...lines([...called, ...told], room, 5 - name.length)], named: name.length };
    },
    caption: ({ circuit }, room) => {
      const wire = wireOf.get(circuit.id);
      const bought = circuit.boughtAs === undefined ? "" : cleanText(circuit.boughtAs);
      const facts = [wire?.size.replace("*", "") ?? "", wire?.length ?? ""].filter((t) => t !== "");
      const line = facts.join(" · ");
      // A figure stays with its unit.
      const figures = textWidth(line, CAP, "regular") <= room ? [line] : facts;
      return [...figures, ...wrapText(bought, CAP, "regular", room)];
    },
    view: (part) => parts.get(part),
    way: (part, way, circuit) => {
      const board = boards.find(({ about }) => about === `parts.${part}`);
      return board?.rows.find((r) => r.way === cleanText(way) && r.circuit === cleanText(circuit));
    },
    residual: (contacts) =>
      elements
        .flatMap((e) =>
          e.is === "residual guard" && e.contacts.some((id) => contacts.includes(id)) ? [milliamps(e.amps)] : [],
        ) // prettier-ignore
        .join(", "),
    inside: elements,
    called: (id) => {
      const part = all.find((p) => p.id === id);
      return named(id, part?.kind ?? "").filter((t) => t !== "").join(" "); // prettier-ignore
    },
    device: (id) => all.find((p) => p.id === id)?.device?.kind ?? "switch",
  };
}
