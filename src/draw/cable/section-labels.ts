import type { CableSection, CoreSection } from "../../wire/geometry/cable-section-shape.ts";

/** Two lines that tell of a part of a cable. */
export interface SectionLabel {
  readonly head: string;
  readonly text: string;
  /** The part: `core 0`, `sheath`, `strands`, `concentric`. */
  readonly of:
    | { readonly is: "core"; readonly index: number }
    | { readonly is: "insulation" | "conductor" | "strands" | "sheath" | "concentric" };
}

/** A length as a rule can measure it. */
export const mmText = (mm: number): string => String(Number(mm < 10 ? mm.toFixed(1) : mm.toFixed(0)));

/** Words for a colour, where somebody has them. */
export type ColourWords = (core: CoreSection) => string;

const assumes = ({ assumed }: CableSection, ...abouts: readonly string[]): boolean =>
  assumed.some(({ about }) => abouts.includes(about));

/** What is told of a cable: each core, the wires of the first, the sheath. */
export function sectionLabels(section: CableSection, wordsOf: ColourWords): readonly SectionLabel[] {
  const { cores, outline, sheathMm, concentric } = section;
  const [first] = cores;
  const labels: SectionLabel[] = [];
  const about = assumes(section, "insulation", "sheath") ? "about " : "";
  const over =
    outline.is === "round" ? `Ø ${mmText(2 * outline.radius)}` : `${mmText(outline.width)} × ${mmText(outline.height)}`;
  const isSingle = cores.length === 1 && sheathMm === 0;
  if (sheathMm > 0) labels.push({ head: "sheath", text: `${about}${over} mm`, of: { is: "sheath" } });
  if (concentric !== null) labels.push({ head: "ground round the cores", text: `${concentric.wires.length} wires, ${concentric.sizeLabel}`, of: { is: "concentric" } }); // prettier-ignore
  if (isSingle && first !== undefined && !first.isBare) {
    const colour = wordsOf(first);
    labels.push({
      head: "insulation",
      text: colour === "" ? "colour not stated" : colour,
      of: { is: "core", index: 0 },
    });
    labels.push({ head: "outside", text: `${about}${over} mm, wall ${mmText(first.insulationRadius - first.conductorRadius)} mm`, of: { is: "insulation" } }); // prettier-ignore
  }
  if (!isSingle) {
    const usual = first?.sizeLabel;
    cores.forEach((core, index) => {
      const words = core.isBare ? "bare" : wordsOf(core);
      const size = core.sizeLabel === usual ? "" : core.sizeLabel;
      const text = [words, size].filter((part) => part !== "").join(", ");
      labels.push({ head: core.role ?? `core ${index + 1}`, text: text === "" ? "colour not stated" : text, of: { is: "core", index } }); // prettier-ignore
    });
  }
  if (first !== undefined) labels.push(...conductorLabels(section, first, isSingle));
  return labels;
}

function conductorLabels(
  section: CableSection,
  { strands, conductorRadius, sizeLabel }: CoreSection,
  isSingle: boolean,
): SectionLabel[] {
  const about = assumes(section, "strands", "conductor") ? "about " : "";
  const bare = `Ø ${about}${mmText(2 * conductorRadius)} mm`;
  if (strands.lay === "solid")
    return [{ head: "one solid wire", text: `${sizeLabel}, ${bare}`, of: { is: "strands" } }];
  const wires = `${strands.count} × ${Number(strands.wireMm.toFixed(3))} mm`;
  const all: SectionLabel = { head: assumes(section, "strands") ? "wires, as usual" : "wires", text: strands.isEvery ? wires : `${wires}, drawn fewer`, of: { is: "strands" } }; // prettier-ignore
  return isSingle ? [{ head: sizeLabel, text: bare, of: { is: "conductor" } }, all] : [all];
}
