import { cleanText } from "../clean-text.ts";
import { readBoards } from "../directory/index.ts";
import type { OneLineBuild } from "../one-line/one-line-build.ts";
import { viewParts } from "../one-line/part-view.ts";
import { viewWires } from "../one-line/wire-view.ts";
import type { Item, Point, Scene, Shape } from "../scene.ts";
import { drawFrame } from "../sheet/draw-frame.ts";
import { wrapText } from "../sheet/fit-text.ts";
import { papers, zoneOf, type PaperName } from "../sheet/paper.ts";
import { textItem, words } from "../sheet/text-block.ts";
import { drawTitleBlock, titleHeight, type TitleFields } from "../sheet/title-block.ts";
import type { SymbolVariant } from "../symbols.ts";
import { drawTree } from "./draw-tree.ts";
import { CAP, LINE } from "./look.ts";
import { leftOf, planTree, type Tree } from "./plan-tree.ts";
import { readBlocks, type Block } from "./read-blocks.ts";
import { scaleItem } from "./scale-item.ts";
import { BETWEEN, setColumns, type Piece } from "./set-columns.ts";
import { makeWording } from "./wording.ts";

export const CIRCUIT_DIAGRAM_CAUTION =
  "Drawn from the plan: how it is meant, not how it is built. Mains current kills. A licensed electrician and the local code decide; prove dead before you touch.";

const READING =
  "Solid: line. Broken: neutral. Chained: protective earth. Letters beside a conductor: what it is for, then the colour of its insulation, in brackets where it is proposed. Dot: joined; where lines cross without one they are not. Contacts are drawn open, as at rest. Ring: compares what goes out with what comes back. Wedge between contacts: never closed together. °: chosen, the plan does not say it. Arrow: goes on at the named sheet and field.";

const TITLE_CAP = 3.5;
const PAD = 3;
/**
 * Size of letters, and how many pictures may stand beside each other, as they are tried: on paper that is read from afar letters of 1.8 mm are larger
 * where that needs no further sheet.
 */
const NARROW = [[1, 1]] as const;
const WIDE = [[1.4, 1], [1.4, 2], [1.2, 1], [1.2, 2], [1, 1], [1, 2]] as const; // prettier-ignore

/**
 * Draws the alternating side conductor by conductor: lines, neutral and protective earth apart, every pole of what opens, where neutral meets earth,
 * and the circuits between boards with number, size and colours.
 *
 * Pictures stand under each other, in columns where the paper is wide; what does not fit beside a box goes on elsewhere, with the place named at both ends.
 *
 * @param fields of the title block; the sheet is filled in here
 * @returns none where no conductor carries alternating current
 */
export function drawCircuitDiagram(
  build: OneLineBuild,
  paperName: PaperName,
  variant: SymbolVariant,
  fields: TitleFields,
): Scene[] {
  const { plan, system, design } = build;
  const blocks = readBlocks({ system, design });
  if (blocks.size === 0) return [];
  const wording = makeWording(viewParts(plan, system, "terminal"), viewWires(system, design), readBoards({ plan, system, design }), system); // prettier-ignore
  const paper = papers[paperName];
  const [[x1, y1], [x2, y2]] = paper.frame;
  const title = `Circuit diagram of the alternating side: ${cleanText(plan.name === "" ? "unnamed build" : plan.name)}`;
  const width = x2 - x1 - 2 * PAD;
  const texts = [READING, ...notesOf(build, blocks)];
  const layOut = ([scale, beside]: readonly [number, number]) => {
    const head = [
      ...wrapText(title, TITLE_CAP * scale, "semibold", width).map((text) => ({
        text,
        capMm: TITLE_CAP * scale,
        weight: "semibold" as const,
      })),
      ...texts.flatMap((t) => wrapText(t, CAP * scale, "regular", width)).map((text) => ({ text, capMm: CAP * scale, weight: "regular" as const })), // prettier-ignore
    ];
    const caution = wrapText(CIRCUIT_DIAGRAM_CAUTION, CAP * scale, "semibold", width);
    const headHeight = head.reduce((sum, { capMm }) => sum + capMm * 1.65, 1.5);
    const foot = y2 - titleHeight(fields) - caution.length * LINE * scale - PAD;
    const corner: Point = [x1 + PAD, y1 + PAD + headHeight + PAD];
    const room = [width / scale, (foot - corner[1]) / scale] as const;
    return {
      scale,
      head,
      caution,
      foot,
      corner,
      pages: setColumns(
        planAll(blocks, [room[0] / beside - BETWEEN * (beside - 1), room[1]], { blocks, wording }),
        room,
      ),
    };
  };
  const { scale, head, caution, foot, corner, pages } = (paperName === "A3" ? WIDE : NARROW)
    .map(layOut)
    .reduce((best, other) => (other.pages.length < best.pages.length ? other : best));

  const places = new Map<string, { readonly page: number; readonly at: Point }>();
  const drawPage = (pieces: readonly Piece[], page: number): Item[] => {
    const items: Item[] = [];
    for (const { tree, laid, x, y, extra, goesOn } of pieces) {
      drawTree(tree, laid, [x + tree.left + (tree.left > 0 ? extra : 0), y], goesOn, {
        wording,
        variant,
        items,
        extra,
        note: (circuit, end, at) => places.set(`${end} ${circuit}`, { page, at }),
        elsewhere: (circuit, end) => {
          const there = places.get(`${end} ${circuit}`);
          if (there === undefined) return "";
          const field = zoneOf(paper, [corner[0] + scale * there.at[0], corner[1] + scale * there.at[1]]);
          return there.page === page ? field : `sheet ${there.page + 1}, ${field}`;
        },
      });
    }
    return items;
  };
  // Once to learn where everything is, once to say it.
  pages.forEach(drawPage);
  return pages.map((pieces, p): Scene => {
    let at = y1 + PAD;
    const says = head.map(({ text, capMm, weight }, i): Shape => words(text, [x1 + PAD, (at += capMm * 1.65 + (i > 0 && head[i - 1]?.weight !== weight ? 1 : 0))], { capMm, weight })); // prettier-ignore
    const warns = caution.map((text, i) => words(text, [x1 + PAD, foot + LINE * scale * (i + 1)], { capMm: CAP * scale, weight: "semibold" })); // prettier-ignore
    return {
      width: paper.width,
      height: paper.height,
      title: pages.length === 1 ? title : `${title}, sheet ${p + 1} of ${pages.length}`,
      says: `${title}. ${CIRCUIT_DIAGRAM_CAUTION}`,
      items: [
        drawFrame(paper),
        ...drawTitleBlock({ ...fields, sheet: `${p + 1}/${pages.length}` }, [x2, y2]),
        textItem(says, `${title}. ${READING}`),
        ...drawPage(pieces, p).map((item) => scaleItem(item, corner, scale)),
        textItem(warns, CIRCUIT_DIAGRAM_CAUTION),
      ],
    };
  });
}

/** What a plan says of its alternating side that no line of a drawing can show. */
function notesOf({ plan, system }: OneLineBuild, blocks: ReadonlyMap<string, Block>): string[] {
  const earthed = plan.systems.flatMap(({ key, facts }) => {
    const at = facts["earthed at"]?.value;
    const isAlternating = system.supplies.some(({ id, current }) => id === key && current === "AC");
    return isAlternating && typeof at === "string" && at !== "unknown" && at !== "none" ? [`${cleanText(key)} is earthed at ${cleanText(at)}`] : []; // prettier-ignore
  });
  const lands = new Set([...blocks.values()].flatMap(({ outputs }) => outputs.flatMap(({ lines }) => lines.flatMap(({ between }) => between)))); // prettier-ignore
  const loose = system.parts.filter(({ id, current }) => current === "AC" && !blocks.has(id) && !lands.has(id)).map(({ id }) => cleanText(id)); // prettier-ignore
  return [
    ...(earthed.length === 0 ? [] : [`The plan says that ${earthed.join(", ")}; a conductor is drawn where a circuit of it is.`]), // prettier-ignore
    ...(loose.length === 0 ? [] : [`Nothing is wired to ${loose.slice(0, 6).join(", ")}${loose.length > 6 ? ` and ${loose.length - 6} more` : ""}.`]), // prettier-ignore
  ];
}

type Words = Pick<Parameters<typeof planTree>[3], "blocks" | "wording">;

/** Pictures in the order of the plan: first where current comes in from outside, then where it goes from there. */
function planAll(blocks: ReadonlyMap<string, Block>, [width, height]: readonly [number, number], words: Words): Tree[] {
  const placed = new Set<string>();
  const enters = (block: Block | undefined): boolean =>
    block?.isSource === true && block.inside.some(({ is }) => is === "source");
  const isFirst = ({ inputs }: Block): boolean => inputs.some(({ circuit }) => enters(blocks.get(circuit.from.part)));
  const stands = (block: Block): boolean => {
    if (block.isLeaf) return false;
    // A source stands before what it feeds, unless that is where its circuit ends.
    return !block.isSource || blocks.get(block.outputs[0]?.circuit.to.part ?? "")?.isLeaf === true;
  };
  const boxes = [...blocks.values()].filter(stands);
  const trees: Tree[] = [];
  const plan = (block: Block): void => {
    if (!placed.has(block.part.id)) trees.push(planTree(block, width - leftOf(block, blocks), null, { ...words, placed, height })); // prettier-ignore
  };
  let told = 0;
  for (const box of [...boxes.filter(isFirst), ...boxes]) {
    plan(box);
    for (; told < trees.length; told++) {
      const reached = reachedBy(trees[told]).map((id) => blocks.get(id));
      for (const next of reached) if (next !== undefined && stands(next)) plan(next);
    }
  }
  return trees;
}

/** Where circuits of a picture go on. */
function reachedBy(tree: Tree | undefined): string[] {
  if (tree === undefined) return [];
  return [...tree.ends].flatMap(
    ([{ side, link }, end]) =>
    end.is === "tree" ? reachedBy(end.tree) : end.is === "flag" && side === "out" && link !== null ? [link.circuit.to.part] : [], // prettier-ignore
  );
}
