import type { Contact, InternalElement } from "./element.ts";
import { mover } from "./kinds/alternating-poles.ts";
import { throughDevice } from "./kinds/residual.ts";
import type { Conductor, GivenDevice, SystemCircuit } from "./system.ts";
import { terminalName, type Fn } from "./terminal.ts";
import { exactly } from "./value.ts";

/**
 * Sets breakers that are written in the line of an alternating-current circuit into its conductors, as contacts that a hand moves: they decide what
 * is live, what goes dark with what, and what is guarded against leakage. One that stands in the way of a board is there already; what its line says more of it,
 * poles and leakage, is added to it.
 *
 * @param elements what all parts hold
 */
export function setInBreakers(
  circuits: readonly SystemCircuit[],
  elements: readonly InternalElement[],
): { circuits: SystemCircuit[]; elements: InternalElement[] } {
  const ways = new Map(elements.flatMap((e) => (e.is === "contact" && e.way !== undefined ? [[e.b, e] as const] : [])));
  const added: InternalElement[] = [];
  const opened = new Set<InternalElement>();
  const cut = circuits.map((circuit): SystemCircuit => {
    if (circuit.current !== "AC" || typeof circuit.devices === "string") return circuit;
    let conductors = circuit.conductors;
    for (const device of circuit.devices) {
      if (device.kind !== "breaker" || device.part !== undefined) continue;
      const at = circuit[device.end];
      const terminal = (fn: Fn): string => terminalName(at.part, at.port, fn);
      const way = conductors
        .map((c) => (c[device.end] === terminal(c.fn) ? ways.get(c[device.end]) : undefined))
        .find((w) => w !== undefined);
      if (way !== undefined) {
        const more = addToWay(way, device, elements, terminal("N"));
        added.push(...more.added);
        if (more.opened !== null) opened.add(more.opened);
        continue;
      }
      const set = setIn(circuit, device, conductors, terminal);
      conductors = set.conductors;
      added.push(...set.added);
    }
    return conductors === circuit.conductors ? circuit : { ...circuit, conductors };
  });
  return { circuits: cut, elements: [...elements.filter((e) => !opened.has(e)), ...added] };
}

/** Neutral opened with the lines where the line of the circuit says that many poles, and the guard against leakage that it names. */
function addToWay(
  way: Contact,
  device: GivenDevice,
  elements: readonly InternalElement[],
  neutral: string,
): { added: InternalElement[]; opened: InternalElement | null } {
  const ofWay = elements.flatMap((e) => (e.is === "contact" && e.part === way.part && e.way === way.way ? [e] : []));
  const metal = elements.find((e) => e.is === "join" && e.part === way.part && e.b === neutral);
  const opensMore = metal?.is === "join" && (device.poles ?? 0) > ofWay.length;
  const more: Contact[] = opensMore ? [{ ...way, id: metal.id, a: metal.a, b: metal.b }] : [];
  const isGuarded = elements.some((e) => e.is === "residual guard" && e.contacts.includes(way.id));
  const guard: InternalElement[] =
    device.residual === undefined || isGuarded
      ? []
      : [
          {
            is: "residual guard",
            id: `${way.mover ?? way.id}:residual`,
            part: way.part,
            ...throughDevice([...ofWay, ...more, ...(metal === undefined || opensMore ? [] : [metal])]),
            amps: device.residual,
          },
        ];
  return { added: [...more, ...guard], opened: opensMore ? metal : null };
}

function setIn(
  circuit: SystemCircuit,
  device: GivenDevice,
  conductors: readonly Conductor[],
  terminal: (fn: Fn) => string,
): { conductors: Conductor[]; added: InternalElement[] } {
  const { end } = device;
  const part = circuit[end].part;
  const id = `${circuit.id}:breaker${end === "to" ? ":to" : ""}`;
  const here = conductors.filter((c) => c.role !== "protective" && c[end] === terminal(c.fn));
  // Lines first: a device of few poles leaves neutral whole.
  const inOrder = [...here.filter((c) => c.fn !== "N"), ...here.filter((c) => c.fn === "N")];
  const poles = device.poles ?? inOrder.filter((c) => c.fn !== "N").length;
  const opened = new Set(inOrder.slice(0, poles));
  if (opened.size === 0) return { conductors: [...conductors], added: [] };
  const contacts = [...opened].map((c): InternalElement => ({
    is: "contact",
    id: `${id}:${c.fn}`,
    part,
    a: terminal(c.fn),
    b: `${id}:${c.fn}`,
    ohms: exactly(0, "derived"),
    closedIn: ["on"],
    mover: id,
  }));
  // What compares line and neutral has both go through it, whether it opens neutral or not.
  const led = device.residual === undefined ? [] : here.filter((c) => c.fn === "N" && !opened.has(c));
  const joins = led.map((c): InternalElement => ({
    is: "join",
    id: `${id}:${c.fn}`,
    part,
    a: terminal(c.fn),
    b: `${id}:${c.fn}`,
  }));
  const guard: InternalElement[] =
    device.residual === undefined
      ? []
      : [
          {
            is: "residual guard",
            id: `${id}:residual`,
            part,
            ...throughDevice([...contacts, ...joins]),
            amps: device.residual,
          },
        ];
  const inside = new Set([...opened, ...led]);
  return {
    conductors: conductors.map((c) => (inside.has(c) ? { ...c, [end]: `${id}:${c.fn}` } : c)),
    added: [...contacts, ...joins, mover(id, part, ["off", "on"], "hand"), ...guard],
  };
}

/**
 * Tells contacts of breakers that are written in the line of an alternating-current circuit from others. They sit at an end of it, whatever current the part
 * there belongs to, and states of a plan leave them closed.
 */
export function inLines(circuits: readonly SystemCircuit[]): (contact: Contact) => boolean {
  const movers = new Set(
    circuits.flatMap(({ id, current }) => (current === "AC" ? [`${id}:breaker`, `${id}:breaker:to`] : [])),
  );
  return ({ mover }) => mover !== undefined && movers.has(mover);
}
