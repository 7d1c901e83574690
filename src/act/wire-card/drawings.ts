import { drawCableSection, type ConductorInk } from "../../draw/cable/index.ts";
import { drawSizeLadder, windowAbout } from "../../draw/ladder/index.ts";
import type { Scene } from "../../draw/scene.ts";
import { writeSvg } from "../../draw/write-svg.ts";
import { cableSection } from "../../wire/geometry/cable-section.ts";
import type { LadderSystem } from "../../wire/convert/index.ts";
import type { CableSection } from "../../wire/geometry/cable-section-shape.ts";
import type { PrintedSize, WireMake } from "../../wire/make/wire-make.ts";
import { sideOf } from "./beside.ts";
import { markRungs } from "./mark-rungs.ts";
import type { ShownDrawing, ShownSection } from "./wire-card-shape.ts";
import type { WireQuestion } from "./wire-question.ts";

/** A scene as text. */
export const shownDrawing = (scene: Scene): ShownDrawing => ({
  svg: writeSvg(scene),
  width: scene.width,
  height: scene.height,
  says: scene.says,
});

/** What conductors are drawn in. */
function inkOf({ metal, plating }: WireMake): ConductorInk {
  if (metal === "aluminium" || metal === "copper-clad aluminium") return "aluminium";
  return plating === "tinned" ? "tin" : "copper";
}

/** With every strand and every name, which are not smaller than 12 px where the page shows them. */
const WHOLE = { width: 100, narrow: 76, capMm: 2.45, most: 1400 } as const;
/** Flat cables have their names above and below, round ones at their sides; mm. */
const [FLAT_HIGH, ROUND_HIGH] = [74, 66];

/**
 * A wire or cable cut through, to scale, with what each part is.
 *
 * @param options `trueSize`: a millimetre of the drawing is one of the cable; `times`: as large as that, whatever room there is
 * @returns null where the size is not stated
 */
export function drawSection(
  make: WireMake,
  options: Pick<WireQuestion, "trueSize" | "isNarrow"> & { readonly times?: number },
  title: string,
): ShownSection | null {
  const { trueSize, isNarrow, times } = options;
  const { most, capMm, narrow } = WHOLE;
  const section = cableSection(make, { mostCircles: most });
  if (section === null) return null;
  const { assumed } = section;
  const { width, height } = extentOf(section);
  const scene = drawCableSection(section, {
    width: isNarrow ? narrow : WHOLE.width,
    capMm,
    height: width > 1.35 * height ? FLAT_HIGH : ROUND_HIGH,
    metal: inkOf(make),
    title,
    ...(trueSize ? { times: 1 } : times === undefined ? {} : { times }),
  });
  return {
    ...shownDrawing(scene),
    times: scene.times,
    assumed: assumed.map(({ about, says, trust }) => ({ about, says, trust })),
  };
}

/** The same for several labels that are compared: all at the scale that the largest has room for. */
export function drawSectionsAlike(
  cuts: readonly { readonly make: WireMake; readonly title: string }[],
  options: Pick<WireQuestion, "isNarrow">,
): readonly ShownSection[] {
  const draw = (times?: number): ShownSection[] =>
    cuts.flatMap(({ make, title }) => {
      const drawn = drawSection(
        make,
        { ...options, trueSize: false, ...(times === undefined ? {} : { times }) },
        title,
      );
      return drawn === null ? [] : [drawn];
    });
  const alone = draw();
  return alone.length < 2 ? alone : draw(Math.min(...alone.map(({ times }) => times)));
}

/** Small and without names, for choosing between readings; mm. */
const SMALL = { width: 40, height: 36, most: 300 } as const;

/**
 * The same cut small and plain, all in one scale, so that readings can be told by how thick they are.
 *
 * @returns in the order of the makes; null where the size of one is not stated
 */
export function drawSmallSections(makes: readonly WireMake[]): readonly (ShownDrawing | null)[] {
  const sections = makes.map((make) => cableSection(make, { mostCircles: SMALL.most }));
  const scales = sections.flatMap((section) => {
    if (section === null) return [];
    const { width, height } = extentOf(section);
    return [Math.min((SMALL.width - 2) / width, (SMALL.height - 2) / height)];
  });
  const largest = Math.min(...scales);
  const times = ROUND_SCALES.find((scale) => scale <= largest) ?? largest;
  return sections.map((section, i) => {
    const make = makes[i];
    if (section === null || make === undefined) return null;
    const { width, height } = SMALL;
    const scene = drawCableSection(section, { width, height, times, capMm: NO_WORDS, metal: inkOf(make) });
    // Without names, nor the scale: the page says that it is the same for all.
    return shownDrawing({ ...scene, items: scene.items.filter(({ role }) => role === "symbol") });
  });
}

/** Height of capitals of what is left out, mm: with it no room is kept for words. */
const NO_WORDS = 0.01;

const ROUND_SCALES = [10, 8, 6, 5, 4, 3, 2.5, 2, 1.5, 1, 0.5];

const extentOf = ({ outline }: CableSection): { readonly width: number; readonly height: number } =>
  outline.is === "round" ? { width: 2 * outline.radius, height: 2 * outline.radius } : outline;

/** Systems that are met most; the others join where the size is theirs. */
const USUAL: readonly LadderSystem[] = ["mm²", "AWG", "SAE", "vehicle diameter"];

/**
 * The size ladder about a size.
 *
 * @param size null: of everything that is on sale, with nothing marked
 */
export function drawLadder(size: PrintedSize | null, isNarrow: boolean): ShownDrawing {
  const side = size === null ? null : sideOf(size);
  const systems = side === null || side === "solid diameter" || USUAL.includes(side) ? USUAL : [...USUAL, side];
  const isOnIt = side !== null && systems.includes(side);
  const marked =
    size === null
      ? {}
      : isOnIt
        ? { mark: { system: side, name: size.name, areaMm2: size.areaMm2 } }
        : { neededMm2: size.areaMm2, range: windowAbout(size.areaMm2) };
  return shownDrawing(
    markRungs(
      drawSizeLadder({ width: isNarrow ? 84 : 92, height: 140, capMm: 2.8, systems, ...marked }),
      systems,
      size !== null && isOnIt ? `${side}/${size.name}` : null,
    ),
  );
}
