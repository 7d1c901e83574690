import type { CircuitDesign } from "../../size/index.ts";
import { coresOf, type SystemCircuit, type SystemPart } from "../../system/index.ts";
import { cleanText } from "../clean-text.ts";
import { gravityOf, isUnjudged, type DrawnFinding, type Gravity } from "../one-line/drawn-finding.ts";
import type { OneLineBuild } from "../one-line/index.ts";
import { viewParts, type PartView } from "../one-line/part-view.ts";
import { countsInFeet } from "../one-line/wire-view.ts";
import { readState } from "./read-state.ts";
import { spokenAmps, spokenLength, spokenNumber, spokenRating, spokenSize } from "./spoken-figures.ts";

/** How much is said of a thing: what it is called; with how it stands; all. */
export type SpokenLength = "names" | "brief" | "full";

const TALLY: readonly (readonly [Gravity, string])[] = [["fail", "fail"], ["warn", "warning"], ["unknown", "cannot tell"], ["note", "note"]]; // prettier-ignore

/** So many findings of one gravity are named, of the others it is said that they are there. */
const TITLES = 3;

/**
 * What a reader who cannot see the drawing hears of one thing of it.
 *
 * @param about key path: `parts.fridge`, `circuits.W13`
 * @param state operating state; null: none, nothing is said to be on or off
 * @returns what it is called, where the plan has no such thing
 */
export const spokenName = (
  build: OneLineBuild,
  about: string,
  state: string | null,
  length: SpokenLength = "full",
): string => speaker(build, state)(about, length);

/**
 * What is heard of everything on the drawing, by key path.
 *
 * @param state operating state; null: none
 */
export function spokenNames(
  build: OneLineBuild,
  state: string | null,
  length: SpokenLength = "full",
): Record<string, string> {
  const say = speaker(build, state);
  const { parts, circuits } = build.system;
  const abouts = [...parts.map(({ id }) => `parts.${id}`), ...circuits.map(({ id }) => `circuits.${id}`)];
  return Object.fromEntries(abouts.map((about) => [about, say(about, length)]));
}

/** Reads a build once, for many questions. */
function speaker(build: OneLineBuild, stateId: string | null): (about: string, length: SpokenLength) => string {
  const { plan, system, design, findings } = build;
  const state = readState(system, design, stateId);
  const inState = design.states.find(({ id }) => id === state?.id);
  const views = viewParts(plan, system, "unknown");
  const parts = new Map(system.parts.map((part) => [part.id, part]));
  const circuits = new Map(system.circuits.map((circuit) => [circuit.id, circuit]));
  const designs = new Map(design.circuits.map((circuit) => [circuit.id, circuit]));
  const levels = new Map(system.elements.flatMap((e) => (e.is === "draw" ? [[e.part, e.levels] as const] : [])));
  const pushes = new Map(inState?.sources.map(({ part, amps }) => [part, amps]));
  const inFeet = countsInFeet(system);
  const hanging = new Map<string, SystemCircuit[]>();
  const feeding = new Map<string, SystemCircuit>();
  for (const circuit of system.circuits) {
    for (const { part } of [circuit.from, circuit.to]) hanging.set(part, [...(hanging.get(part) ?? []), circuit]);
    for (const part of [...circuit.draws, circuit.to.part]) if (!feeding.has(part)) feeding.set(part, circuit);
  }
  const found = new Map<string, DrawnFinding[]>();
  for (const finding of findings) {
    if (gravityOf(finding) === null || isUnjudged(finding)) continue;
    const about = ownerOf(finding.about, (path) => parts.has(path.slice(6)) || circuits.has(path.slice(9)));
    const list = found.get(about);
    if (list === undefined) found.set(about, [finding]);
    else list.push(finding);
  }
  const nameOf = (id: string): string => views.get(id)?.called ?? cleanText(id);

  return (about, length) => {
    const id = about.slice(about.indexOf(".") + 1);
    const part = about.startsWith("parts.") ? parts.get(id) : undefined;
    const circuit = about.startsWith("circuits.") ? circuits.get(id) : undefined;
    const view = views.get(id);
    if (part !== undefined && view !== undefined) return ofPart(part, view, length);
    return circuit === undefined ? cleanText(id) : ofCircuit(circuit, designs.get(id), length);
  };

  function ofPart(part: SystemPart, view: PartView, length: SpokenLength): string {
    const name = view.called === null ? view.label : `${view.label}, ${view.called}`;
    if (length === "names") return name;
    const fed = view.is === "load" ? feeding.get(part.id) : undefined;
    const about = `parts.${part.id}`;
    const kind = part.kind === view.label ? "" : cleanText(part.kind);
    const head = [name, kind, standing(part, view)].filter((text) => text !== "").join(", ");
    const figures = figuresOf(part, view);
    const tally = tallyOf([about, ...(fed === undefined ? [] : [`circuits.${fed.id}`])], length);
    const first = figures === "" ? head : `${head}; ${figures}`;
    if (length === "brief") return sentences([first, tally]);
    const feed = fed === undefined ? "" : `Fed by ${wordsOf(fed, designs.get(fed.id))}`;
    const many = (hanging.get(part.id) ?? []).length;
    const hangs = fed === undefined && many > 0 ? `${many} ${many === 1 ? "circuit" : "circuits"}` : "";
    return sentences([first, feed, hangs, tally]);
  }

  /** On or off, or in which position; empty: no state is shown, or it only passes current on. */
  function standing({ id }: SystemPart, view: PartView): string {
    if (state === null) return "";
    const position = state.positionOf(id);
    if (position !== null) return cleanText(position);
    if (inState?.dead.includes(id) === true) return "on, and nothing feeds it";
    return view.is === "bar" || view.is === "panel" ? "" : state.live.has(`parts.${id}`) ? "on" : "off";
  }

  function figuresOf({ id }: SystemPart, view: PartView): string {
    const own = levels.get(id);
    if (own === undefined || view.is !== "load") {
      const amps = pushes.get(id) ?? 0;
      const flows = Math.abs(amps) < 0.0005 ? "" : `${amps > 0 ? "gives" : "takes"} ${spokenAmps(Math.abs(amps))}`;
      return [...view.values.map(spokenRating), flows].filter((text) => text !== "").join(", ");
    }
    const level = (name: string): number | undefined => {
      const amps = own.find((l) => l.name === name)?.amps;
      return amps === undefined || amps.origin === "unknown" ? undefined : amps.high;
    };
    const now = state?.live.has(`parts.${id}`) === true ? state.amps.get(`parts.${id}`) : undefined;
    const [running, starting] = [now ?? level("running"), level("starting")];
    if (running === undefined) return "amps not known";
    return `${spokenAmps(running)}${starting === undefined ? "" : `, start ${spokenNumber(starting)}`}`;
  }

  function ofCircuit(circuit: SystemCircuit, of: CircuitDesign | undefined, length: SpokenLength): string {
    const name = cleanText(circuit.id);
    if (length === "names") return name;
    const about = `circuits.${circuit.id}`;
    const amps = state?.amps.get(about);
    const isOn = state === null ? "" : state.live.has(about) ? "on" : "off";
    const head = [name, `${nameOf(circuit.from.part)} to ${nameOf(circuit.to.part)}`, isOn].filter((t) => t !== "").join(", "); // prettier-ignore
    const first = isOn === "on" && amps !== undefined ? `${head}; ${spokenAmps(amps)}` : head;
    const tally = tallyOf([about], length);
    if (length === "brief") return sentences([first, tally]);
    const drop = of?.dropShare === null || of === undefined ? "" : `Loses ${spokenNumber(100 * of.dropShare)} percent at worst`; // prettier-ignore
    return sentences([first, wordsOf(circuit, of).replace(/^[^,]*, /, ""), drop, tally]);
  }

  /** Number, size, length, device and way of a circuit. */
  function wordsOf(circuit: SystemCircuit, of: CircuitDesign | undefined): string {
    const size = of?.size ?? (circuit.size === "unknown" ? null : (circuit.size ?? null));
    const cores = coresOf(circuit.conductors).length;
    const wire = size === null ? "size not known" : `${cores > 1 ? `${cores} by ` : ""}${spokenSize(size.label)}`;
    const far = spokenLength(of?.lengthM ?? circuit.length, inFeet);
    const devices = of === undefined ? [] : of.devices.map(({ kind, ratingA }) => `${kind} ${ratingA === null ? "of no known rating" : spokenAmps(ratingA)}`); // prettier-ignore
    const way = /^(?:.*\.)?\d+$/.test(circuit.from.port) ? `way ${circuit.from.port}` : "";
    const given = of?.outcome === "pinned" ? "pinned" : of?.outcome === "found" ? "as found" : "";
    return [cleanText(circuit.id), wire, given, far === "" ? "length not known" : far, ...devices, way].filter((t) => t !== "").join(", "); // prettier-ignore
  }

  function tallyOf(abouts: readonly string[], length: SpokenLength): string {
    const own = abouts.flatMap((about) => found.get(about) ?? []);
    return TALLY.flatMap(([gravity, word]) => {
      const list = own.filter((f) => gravityOf(f) === gravity);
      if (list.length === 0) return [];
      const count = `${list.length} ${word}`;
      if (length !== "full") return [count];
      const titles = [...new Set(list.map(({ title }) => lowered(cleanText(title))))];
      const rest = titles.length > TITLES ? `; and ${titles.length - TITLES} more` : "";
      return [`${count}: ${titles.slice(0, TITLES).join("; ")}${rest}`];
    }).join(". ");
  }
}

/** The part or circuit that a key path belongs to. */
function ownerOf(about: string, has: (path: string) => boolean): string {
  for (let end = about.length; end > 0; end = about.lastIndexOf(".", end - 1)) {
    const path = about.slice(0, end);
    if (/^(?:parts|circuits)\./.test(path) && has(path)) return path;
  }
  return about;
}

const lowered = (text: string): string =>
  /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The first begins with a name, which is left as it is. */
const sentences = (texts: readonly string[]): string =>
  texts
    .filter((text) => text !== "")
    .map((text, i) => `${i === 0 ? text : capital(text)}.`)
    .join(" ");
