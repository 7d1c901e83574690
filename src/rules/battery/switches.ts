import type { Build, PartView } from "../build.ts";

/** A part that opens the plus or minus of what hangs behind it by hand or by its coil. */
export interface Switch {
  readonly view: PartView;
  /** Its contacts, as edges of the grid. */
  readonly contacts: readonly number[];
}

const found = new WeakMap<Build, readonly Switch[]>();

/** The switches of the direct-current side; protective devices, which open by themselves, are none. */
export function switchesOf(build: Build): readonly Switch[] {
  let switches = found.get(build);
  if (switches === undefined) {
    const contacts = new Map<string, number[]>();
    build.settled.model.grid.edges.forEach(({ contact }, e) => {
      if (contact?.closedIn === undefined) return;
      const list = contacts.get(contact.part);
      if (list === undefined) contacts.set(contact.part, [e]);
      else list.push(e);
    });
    switches = [...contacts].flatMap(([id, list]): Switch[] => {
      const view = build.part(id);
      return view === undefined || view.part.traits.guards !== undefined || !view.part.positions.includes("off")
        ? []
        : [{ view, contacts: list }];
    });
    found.set(build, switches);
  }
  return switches;
}
