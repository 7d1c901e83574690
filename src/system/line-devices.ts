import type { InternalElement } from "./element.ts";
import { mover } from "./kinds/alternating-poles.ts";
import type { Conductor, GivenDevice, SystemCircuit } from "./system.ts";
import { terminalName, type Fn } from "./terminal.ts";
import { exactly } from "./value.ts";

/**
 * Sets breakers that are written in the line of an alternating-current circuit into its conductors, as contacts that a hand moves: they decide what
 * is live, what goes dark with what, and what is guarded against leakage. Those in the ways of a board are there already.
 *
 * @param elements what all parts hold
 */
export function setInBreakers(
  circuits: readonly SystemCircuit[],
  elements: readonly InternalElement[],
): { circuits: SystemCircuit[]; added: InternalElement[] } {
  const ways = new Set(elements.flatMap((e) => (e.is === "contact" && e.way !== undefined ? [e.b] : [])));
  const added: InternalElement[] = [];
  const cut = circuits.map((circuit): SystemCircuit => {
    if (circuit.current !== "AC" || typeof circuit.devices === "string") return circuit;
    let conductors = circuit.conductors;
    for (const device of circuit.devices) {
      if (device.kind !== "breaker" || device.part !== undefined) continue;
      const at = circuit[device.end];
      const terminal = (fn: Fn): string => terminalName(at.part, at.port, fn);
      if (conductors.some((c) => ways.has(c[device.end]) && c[device.end] === terminal(c.fn))) continue;
      const set = setIn(circuit, device, conductors, terminal);
      conductors = set.conductors;
      added.push(...set.added);
    }
    return conductors === circuit.conductors ? circuit : { ...circuit, conductors };
  });
  return { circuits: cut, added };
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
  const guard: InternalElement[] =
    device.residual === undefined
      ? []
      : [
          {
            is: "residual guard",
            id: `${id}:residual`,
            part,
            contacts: contacts.map((c) => c.id),
            amps: device.residual,
          },
        ];
  return {
    conductors: conductors.map((c) => (opened.has(c) ? { ...c, [end]: `${id}:${c.fn}` } : c)),
    added: [...contacts, mover(id, part, ["off", "on"], "hand"), ...guard],
  };
}
