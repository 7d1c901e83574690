import { devicesIn, deviceWords, writeRating, type WrittenDevice } from "../cure/written-devices.ts";
import { isWritten, put, takeOff, textOf, textsOf } from "../cure/write.ts";
import { shown } from "../plan/index.ts";
import { textAt, type Edit, type Path } from "../plan/text/index.ts";
import type { CircuitView } from "../rules/index.ts";
import { deviceSentence, ratingIn, readDeviceSentence, wayWords } from "./device-sentence.ts";
import { isRefusal, nothingToDo, prove, refuse } from "./draft.ts";
import type { Thing } from "./find-thing.ts";
import { readSize } from "./read-value.ts";
import type { ActResult, NotActed } from "./request.ts";
import type { Stand } from "./stand.ts";
import { stepName } from "./step-name.ts";
import { supplyEnd } from "./supply-end.ts";

/** Writes the chosen size down, or the one that was typed: from then on it is judged and never changed. */
export function pinSize(stand: Stand, { name, about }: Thing, typed?: string): ActResult {
  const { document, build, compiled } = stand;
  const path = ["circuits", name, "wire"];
  const chosen = build.circuit(name)?.design.size?.label ?? null;
  const written = textOf(document, path);
  const now = written ?? chosen;
  if (typed === undefined || typed.trim() === "") {
    if (chosen === null) {
      return refuse(
        `no size is chosen for \`${shown(name)}\` yet: ${missing(build.circuit(name))}`,
        "type the size that it shall have",
      );
    }
    if (written !== null) return nothingToDo(stand, `${name} pinned`, about, `it is pinned to ${written} already`);
    return prove(stand, {
      edits: [put(document, path, chosen)],
      step: `${name} pinned to ${chosen}`,
      select: about,
      remarks: [],
      mustHold: about,
    });
  }
  const read = readSize(typed, compiled.system.stock.system);
  if (isRefusal(read)) return read;
  const step = now === read.label ? `${name} pinned to ${read.label}` : stepName(name, "", now, read.label);
  if (written === read.label) return nothingToDo(stand, step, about, `it is pinned to ${read.label} already`);
  return prove(stand, {
    edits: [put(document, path, read.label)],
    step,
    select: about,
    remarks: read.remarks,
    mustHold: about,
  });
}

const missing = (c: CircuitView | undefined): string =>
  c === undefined || c.design.cannotTell.length === 0
    ? "it cannot be told"
    : `${c.design.cannotTell.join(", ")} missing`;

/** Lets the tool choose the size again. */
export function unpinSize(stand: Stand, { name, about }: Thing): ActResult {
  const { document, build } = stand;
  const path = ["circuits", name, "wire"];
  const now = textOf(document, path);
  const edits = takeOff(document, path);
  if (edits.length === 0) return nothingToDo(stand, `${name} unpinned`, about, "no size is pinned here");
  const found = build.circuit(name)?.circuit.asFound === true;
  const remarks = found ? ["it stands as found: without a size nothing is chosen for it"] : [];
  return prove(stand, {
    edits,
    step: `${name} unpinned from ${now ?? "its size"}`,
    select: about,
    remarks,
    mustHold: about,
  });
}

/**
 * Writes a proposed device down, or another one in the place of what is written.
 *
 * @param nth of several devices, from 0
 */
export function pinDevice(stand: Stand, { name, about }: Thing, typed?: string, nth = 0): ActResult {
  const circuit = stand.build.circuit(name);
  if (circuit === undefined) return refuse(`\`${shown(name)}\` cannot be read yet`, "mend its messages first");
  const device = devicesIn(stand, circuit)[nth];
  if (typed === undefined || typed.trim() === "") return writeDown(stand, circuit, device);
  const read = readDeviceSentence(typed);
  if (isRefusal(read)) return read;
  const at = place(stand, circuit, device, nth);
  if (isRefusal(at)) return at;
  if (read.none) {
    const edits = [...takeOff(stand.document, ["circuits", name, "breaker"]), noFuse(stand, name)];
    return prove(stand, { edits, step: `${name} without a device`, select: about, remarks: [], mustHold: about });
  }
  if (device?.part != null && read.rating !== null) {
    const path = ["parts", device.part, "rated"];
    const step = stepName(device.part, "", textOf(stand.document, path), read.rating);
    return prove(stand, {
      edits: [put(stand.document, path, read.rating)],
      step,
      select: about,
      remarks: [],
      mustHold: about,
    });
  }
  const kind = read.kind ?? at.kind;
  const words = at.ownWords ? deviceSentence({ ...read, kind }, at.words) : wayWords({ ...read, kind }, at.words);
  const now = device?.ratingA == null ? ratingIn(at.words) : `${device.ratingA} A`;
  const step = stepName(name, kind, now, read.rating ?? words);
  return prove(stand, { edits: at.edits(kind, words), step, select: about, remarks: [], mustHold: about });
}

/** `fuse: none`. */
const noFuse = ({ document }: Stand, name: string): Edit => put(document, ["circuits", name, "fuse"], "none");

interface Place {
  readonly kind: "fuse" | "breaker";
  /** What stands there: the words of the device, or of the one that is proposed. */
  readonly words: string;
  /** In the line of the circuit, as against a way of a panel. */
  readonly ownWords: boolean;
  readonly edits: (kind: "fuse" | "breaker", words: string) => readonly Edit[];
}

/** Where the device of a circuit is written, or would be. */
function place(stand: Stand, circuit: CircuitView, device: WrittenDevice | undefined, nth: number): Place | NotActed {
  const { document } = stand;
  const own = ["circuits", circuit.id];
  const given =
    circuit.circuit.devices === "propose" || circuit.circuit.devices === "unknown" ? [] : circuit.circuit.devices;
  const span = given[nth]?.span;
  const said = device?.path ?? (span === undefined ? null : (textAt(document, span[0])?.path ?? null));
  const kindNow = device?.kind ?? given[nth]?.kind ?? wayDevice(stand, circuit) ?? "fuse";
  if (said !== null && said[0] !== "circuits") {
    return {
      kind: kindNow,
      words: textOf(document, said) ?? "",
      ownWords: false,
      edits: (_, words) => [{ do: "set", path: said, value: words }],
    };
  }
  const key = ["fuse", "breaker"].find((k) => isWritten(document, [...own, k]));
  const many = key === undefined ? [] : textsOf(document, [...own, key]);
  if (many.length > 1 && said !== null) {
    return {
      kind: kindNow,
      words: textOf(document, said) ?? "",
      ownWords: true,
      edits: (_, words) => [{ do: "set", path: said, value: words }],
    };
  }
  const end = supplyEnd(stand, circuit);
  const start = circuit.circuit[end].part;
  // A device without a place is read as standing at the beginning of the path.
  const [first] = many;
  const isOpen = first !== undefined && /^(?:unknown|\?|none|no|fuse|breaker)$/i.test(first.trim());
  const words =
    (isOpen && end === "to" ? `at ${start}` : first) ??
    (device === undefined
      ? `at ${start}`
      : deviceWords(device.ratingA ?? 0, device.family, circuit.circuit[device.end].part));
  return {
    kind: kindNow,
    words,
    ownWords: true,
    edits: (kind, put_) => {
      const others: Path[] = ["fuse", "breaker"].filter((k) => k !== kind).map((k) => [...own, k]);
      return [...others.flatMap((path) => takeOff(document, path)), put(document, [...own, kind], put_)];
    },
  };
}

const wayDevice = ({ build }: Stand, { circuit }: CircuitView): "fuse" | "breaker" | undefined =>
  build.part(circuit.from.part)?.part.wayDevice;

/** The proposed device as it is. */
function writeDown(stand: Stand, circuit: CircuitView, device: WrittenDevice | undefined): ActResult {
  const about = `circuits.${circuit.id}`;
  if (device?.ratingA == null) {
    return refuse(`no device is proposed for \`${shown(circuit.id)}\``, "type one, such as `10 A` or `breaker 10 A`");
  }
  const step = `${circuit.id} ${device.kind} pinned to ${device.ratingA} A`;
  if (device.path !== null) return nothingToDo(stand, step, about, "it is written down already");
  const edit = writeRating(stand, device, device.ratingA);
  if (edit === null) return refuse("the device cannot be written down", "type it, such as `10 A`");
  return prove(stand, { edits: [edit], step, select: about, remarks: [], mustHold: about });
}

/** Lets the tool propose the device again. */
export function unpinDevice(stand: Stand, { name, about }: Thing): ActResult {
  const { document } = stand;
  const edits = ["fuse", "breaker"].flatMap((key) => takeOff(document, ["circuits", name, key]));
  const step = `${name} device left to be chosen`;
  if (edits.length === 0) return nothingToDo(stand, step, about, "no device is written in the line of the circuit");
  const remarks = textsOf(document, ["circuits", name, "fuse"]).concat(
    textsOf(document, ["circuits", name, "breaker"]),
  );
  const told =
    remarks.length === 0 ? [] : [`\`${remarks.join(", ")}\` is taken away; one is proposed again where it is needed`];
  return prove(stand, { edits, step, select: about, remarks: told, mustHold: about });
}
