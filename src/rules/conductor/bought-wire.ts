import {
  isIecSize,
  kcmilSize,
  readWireSize,
  resistancePerMetre20,
  type ConductorMake,
  type SizeSystem,
  type WireSize,
} from "../../wire/index.ts";

/** What the label of a wire says of its copper, as poor as it can be read. */
export interface BoughtWire {
  readonly make: ConductorMake;
  /** The words of the label that say it. */
  readonly words: string;
}

/** One circular mil in mm²: a circle of 0.001 in. */
const CIRCULAR_MIL = (Math.PI / 4) * 0.0254 ** 2;

/** Area of the metal itself: no label of a class, whose copper may be less. */
const metal = (areaMm2: number): WireSize => kcmilSize(areaMm2 / CIRCULAR_MIL / 1000);

/** Most words that one size is written in: `65 / 0.30 mm`. */
const MOST_WORDS = 4;
/** Words of a label that are looked at; a label has few. */
const LONGEST = 60;

/**
 * Reads what a label says of the copper in a wire: `6 mm auto twin, 4.59 mm²`, `12 AWG 19/27`, `12 GA SAE J1128`.
 *
 * An area that is a size of IEC 60228 is a label of that class; any other is the metal itself, as are counted strands and gauges. Where a label says
 * both, the metal counts: an area beside a gauge is often the next catalogue label, well above the copper. Of several the poorest counts.
 *
 * @param drawn the conductor that the design was computed with; it decides what a bare `ga` means, and lends metal and strands
 * @returns null where nothing on the label tells an area
 */
export function readBoughtWire(label: string, drawn: ConductorMake): BoughtWire | null {
  // A comma between two figures is theirs.
  const words = label.split(/[\s;()[\]]+|,(?!\d)|(?<!\d),/u).filter((w) => w !== "");
  const found: (Told & { readonly words: string; readonly ohms: number })[] = [];
  for (let i = 0; i < Math.min(words.length, LONGEST); i++) {
    for (let n = Math.min(MOST_WORDS, words.length - i); n > 0; n--) {
      const text = words.slice(i, i + n).join(" ");
      const told = toldBy(text, drawn.size.system);
      if (told === null) continue;
      found.push({ ...told, words: text, ohms: resistancePerMetre20({ ...drawn, size: told.size }).ohmsPerMetre });
      i += n - 1;
      break;
    }
  }
  const ofMetal = found.filter((f) => f.isMetal);
  const [poorest] = (ofMetal.length > 0 ? ofMetal : found).sort((a, b) => b.ohms - a.ohms);
  return poorest === undefined ? null : { make: { ...drawn, size: poorest.size }, words: poorest.words };
}

interface Told {
  readonly size: WireSize;
  /** It is the area of the copper, not a name for it. */
  readonly isMetal: boolean;
}

/** The copper that a few words tell, or null. */
function toldBy(text: string, system: SizeSystem): Told | null {
  // `2x2.5 mm²`, `3G1.5 mm²`: cores of one size each.
  const reading = readWireSize(text.replace(/^\d{1,2}\s?[x×g]\s?(?=\d)/iu, ""), { system });
  if (reading.ok) {
    const { size } = reading;
    return size.system === "mm²" && !isIecSize(size)
      ? { size: metal(size.areaMm2), isMetal: true }
      : { size, isMetal: false };
  }
  const { id, data } = reading.problems[0] ?? {};
  const area = data?.["areaMm2"];
  // Strands that are counted, and a British gauge, tell their metal.
  return (id === "strand-count" || id === "other-gauge") && typeof area === "number"
    ? { size: metal(area), isMetal: true }
    : null;
}
