import type { Case, Move, Series } from "../case.ts";
import { put, textOf } from "../write.ts";
import { devicesIn } from "../written-devices.ts";
import { ampsAbove, voltsAbove, wattsAbove } from "./part-ratings.ts";

const STEPS = 3;

/** A part of a higher rating: the part itself, a device that is a part, or what stands at the ends of the circuit. Amps first, then volts. */
export const largerPart: Move = (at) =>
  partsOf(at).flatMap((id) => [rated(at, id, "rated"), rated(at, id, "DC volts"), rated(at, id, "volts")]);

function partsOf(at: Case): readonly string[] {
  if (at.part !== undefined) return [at.part.id];
  const devices = at.circuits.flatMap((c) => devicesIn(at, c).flatMap((d) => (d.part === null ? [] : [d.part])));
  const ends = at.circuits.flatMap(({ circuit: c }) => [c.to.part, c.from.part]);
  return [...new Set([...devices, ...ends])];
}

const FIGURE = /^\s*(\d+(?:[.,]\d+)?)\s*(A|V|VA|W|kVA|kW)\s*$/;

/** The next ratings above the one that is written, and the one that the finding asks for. */
function rated(at: Case, id: string, key: string): Series {
  const { document, build, finding } = at;
  const path = ["parts", id, key];
  const inherited = key === "rated" ? build.part(id)?.part.rated : undefined;
  const text =
    textOf(document, path) ??
    (inherited === undefined || inherited === "unknown" || inherited.origin !== "given" ? "" : `${inherited.high} A`);
  const [, figure = "", unit = ""] = FIGURE.exec(text) ?? [];
  if (figure === "") return [];
  const scale = unit.startsWith("k") ? 1000 : 1;
  const now = Number(figure.replace(",", ".")) * scale;
  const ladder = unit === "A" ? ampsAbove(now) : unit === "V" ? voltsAbove(now) : wattsAbove(now);
  const asked = finding.measured?.unit === (unit === "A" || unit === "V" ? unit : "VA") ? finding.measured.value : 0;
  const last = ladder.find((value) => value >= asked);
  const next = ladder.slice(0, STEPS);
  const all = last === undefined || next.includes(last) ? next : [...next, last];
  const plain = unit.replace("k", "");
  return all.map((value) => ({ edits: [put(document, path, `${value} ${plain}`)] }));
}
