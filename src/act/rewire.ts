import { beginAt } from "../cure/moves/across-the-switch.ts";
import { put, textOf } from "../cure/write.ts";
import { foldName, shown } from "../plan/index.ts";
import type { Edit } from "../plan/text/index.ts";
import type { CircuitView } from "../rules/index.ts";
import { feedPoint } from "./add-load.ts";
import { isRefusal, nothingToDo, prove, refuse } from "./draft.ts";
import { findPartAndWay, findThing, type Thing } from "./find-thing.ts";
import { waysOf, waysTaken } from "./free-places.ts";
import type { ActRequest, ActResult, NotActed } from "./request.ts";
import type { Stand } from "./stand.ts";
import { brief } from "./step-name.ts";
import { isTurned } from "./supply-end.ts";

/** A circuit as the act sees it: its thing, its view, its path as it is written. */
export function openCircuit(
  stand: Stand,
  about: string,
): { readonly thing: Thing; readonly view: CircuitView; readonly path: string } | NotActed {
  const thing = findThing(stand, about, ["circuits"]);
  if (isRefusal(thing)) return thing;
  const view = stand.build.circuit(thing.name);
  const path = textOf(stand.document, ["circuits", thing.name, "path"]);
  return view === undefined || path === null
    ? refuse(`the path of \`${shown(thing.name)}\` cannot be read yet`, "mend its messages first")
    : { thing, view, path };
}

/** Edits that begin a circuit at another point, its device with it. */
function begin(stand: Stand, view: CircuitView, point: string, part: string): readonly Edit[] {
  if (!isTurned(stand, view)) return beginAt(stand, view, { point, part })[0]?.edits ?? [];
  const path = ["circuits", view.id, "path"];
  const text = textOf(stand.document, path) ?? "";
  const at = Math.max(
    ...["→", "->", "=>", "⟶"].map((arrow) => (text.includes(arrow) ? text.lastIndexOf(arrow) + arrow.length : -1)),
  );
  return at < 0 ? [] : [put(stand.document, path, `${text.slice(0, at)} ${point}`)];
}

/** Feeds a circuit from another place. */
export function feed(stand: Stand, { circuit, from }: Extract<ActRequest, { readonly do: "feed" }>): ActResult {
  const opened = openCircuit(stand, circuit);
  if (isRefusal(opened)) return opened;
  const { thing, view } = opened;
  const place = findPartAndWay(stand, from);
  if (isRefusal(place)) return place;
  const own = isTurned(stand, view) ? view.circuit.to : view.circuit.from;
  const step = (point: string): string => `${brief(thing.name)} fed from ${brief(point)}`;
  if (own.part === place.part.name && (place.way === null || foldName(own.port) === foldName(place.way))) {
    return nothingToDo(stand, step(place.part.name), thing.about, "it is fed from there already");
  }
  const other = isTurned(stand, view) ? view.circuit.from.part : view.circuit.to.part;
  if (other === place.part.name)
    return refuse(`\`${shown(thing.name)}\` ends at \`${shown(other)}\``, "choose another part");
  const point = feedPoint(stand, place.part, place.way);
  if (typeof point !== "string") return point;
  const edits = begin(stand, view, point, place.part.name);
  if (edits.length === 0)
    return refuse(`the path of \`${shown(thing.name)}\` cannot be changed`, "edit its line in the text");
  const remarks =
    stand.build.part(own.part)?.part.current === stand.build.part(place.part.name)?.part.current
      ? []
      : ["the two places carry different current"];
  return prove(stand, { edits, step: step(point), select: thing.about, remarks, mustHold: thing.about });
}

/** Another way of the same panel; with the circuit that stands there the two change places. */
export function moveWay(stand: Stand, { circuit, way }: Extract<ActRequest, { readonly do: "move-way" }>): ActResult {
  const opened = openCircuit(stand, circuit);
  if (isRefusal(opened)) return opened;
  const { thing, view } = opened;
  const own = isTurned(stand, view) ? view.circuit.to : view.circuit.from;
  const panel = stand.build.part(own.part);
  const ways = panel === undefined ? [] : waysOf(panel);
  const wanted = ways.find((w) => foldName(w) === foldName(way));
  if (!ways.includes(own.port))
    return refuse(`\`${shown(thing.name)}\` stands on no way of a panel`, "feed it from one first");
  if (wanted === undefined)
    return refuse(`\`${shown(own.part)}\` has no way \`${shown(way)}\``, `it has ${ways.slice(0, 14).join(", ")}`);
  const step = `${brief(thing.name)} way ${own.port} → ${wanted}`;
  if (wanted === own.port) return nothingToDo(stand, step, thing.about, "it stands there already");
  const edits = begin(stand, view, `${own.part}:${wanted}`, own.part);
  const otherId = waysTaken(stand.build).get(`${own.part}\n${wanted}`);
  const other = otherId === undefined ? undefined : stand.build.circuit(otherId);
  const back = other === undefined ? [] : begin(stand, other, `${own.part}:${own.port}`, own.part);
  if (edits.length === 0 || (other !== undefined && back.length === 0)) {
    return refuse(`the path of \`${shown(thing.name)}\` cannot be changed`, "edit its line in the text");
  }
  const remarks = other === undefined ? [] : [`${shown(other.id)} stood there and takes way ${own.port}`];
  return prove(stand, { edits: [...edits, ...back], step, select: thing.about, remarks, mustHold: "everything" });
}
