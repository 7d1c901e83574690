import {
  cardPapers,
  chartPapers,
  drawPocketCard,
  drawWallChart,
  type CardPaper,
  type ChartPaper,
  type ChartUnits,
  type LadderMark,
} from "../draw/ladder/index.ts";
import type { Scene } from "../draw/scene.ts";
import { writeSvg } from "../draw/write-svg.ts";
import { ladderSystems } from "../wire/convert/index.ts";
import { readLabel } from "../wire/index.ts";
import type { Given, Run } from "./command.ts";
import { complain } from "./complain.ts";
import { fontAddresses } from "./draw-sheets.ts";
import { exitCodes } from "./exit-codes.ts";
import { writeDrawing } from "./write-drawing.ts";

type Problem = { readonly problem: string; readonly hint: string };

const charts = Object.keys(chartPapers) as readonly ChartPaper[]; // the keys of that list
const cards = Object.keys(cardPapers) as readonly CardPaper[]; // the keys of that list

/** `chart` */
export const runChart: Run = async (given, terminal) => {
  const out = given.options["out"];
  const isPdf = typeof out === "string" && /\.pdf$/i.test(out);
  if (typeof out === "string" && !isPdf && !/\.svg$/i.test(out))
    return complain(terminal, `\`${out}\` is neither a PDF nor an SVG`, "name a file that ends in .pdf or .svg");
  const drawn = draw(given);
  if ("problem" in drawn) return complain(terminal, drawn.problem, drawn.hint);
  const side = sideOf(given, drawn, isPdf);
  if ("problem" in side) return complain(terminal, side.problem, side.hint);
  if (typeof out !== "string") {
    terminal.data(writeSvg(side.scene, { embedFont: await fontAddresses() }));
    return exitCodes.clean;
  }
  const content = isPdf ? await pdfOf(drawn) : writeSvg(side.scene, { embedFont: await fontAddresses() });
  const written = await writeDrawing(out, content, "-");
  if (!written.ok) return complain(terminal, written.problem, written.hint);
  terminal.out(`wrote ${written.path}  (${side.scene.title}; print it at 100 %)\n`);
  return exitCodes.clean;
};

async function pdfOf(scenes: readonly Scene[]): Promise<Uint8Array> {
  const { makePdf } = await import("./make-pdf.ts");
  const subject = "wire sizes side by side; names and areas, not what a wire may carry";
  return makePdf(scenes, {
    title: "Wire sizes side by side",
    subject,
    language: "en",
    creator: "Wireworthy",
    date: null,
  });
}

/** The sides that are asked for: one of a chart, two of a card. */
function draw({ options }: Given): readonly Scene[] | Problem {
  const units = oneOf<ChartUnits>(options["units"], ["metric", "us"]);
  if (units === undefined)
    return { problem: `there are no units \`${String(options["units"])}\``, hint: "write metric or us" };
  const paper = oneOf<ChartPaper | CardPaper>(options["paper"], [...charts, ...cards]);
  if (paper === undefined)
    return {
      problem: `there is no paper \`${String(options["paper"])}\``,
      hint: `write one of ${[...charts, ...cards].join(", ")}`,
    };
  const mark = markOf(options["mark"]);
  if (mark !== null && "problem" in mark) return mark;
  const given = { ...(units === null ? {} : { units }), ...(mark === null ? {} : { mark }) };
  const card = cards.find((name) => name === paper);
  if (card !== undefined) return drawPocketCard({ ...given, paper: card });
  const chart = charts.find((name) => name === paper);
  return [drawWallChart(chart === undefined ? given : { ...given, paper: chart })];
}

/** What of a list was typed, whatever its case; null: nothing was; undefined: none of these. */
function oneOf<Name extends string>(typed: string | true | undefined, list: readonly Name[]): Name | null | undefined {
  if (typeof typed !== "string") return null;
  return list.find((name) => name.toLowerCase() === typed.toLowerCase());
}

function sideOf({ options }: Given, scenes: readonly Scene[], isPdf: boolean): { readonly scene: Scene } | Problem {
  const side = oneOf(options["side"], ["front", "back"]);
  if (side === undefined)
    return { problem: `a card has no side \`${String(options["side"])}\``, hint: "write front or back" };
  if (side !== null && (isPdf || scenes.length === 1))
    return { problem: "only a card in an SVG is asked for by its side", hint: "leave `--side` out" };
  const scene = scenes[side === "back" ? 1 : 0];
  if (scene === undefined) throw new Error("nothing was drawn");
  return { scene };
}

/** The size that is marked, where it stands on the ladder. */
function markOf(typed: string | true | undefined): LadderMark | Problem | null {
  if (typeof typed !== "string") return null;
  const reading = readLabel(typed);
  if (reading.verdict === "rejected") return { problem: reading.problems[0].message, hint: reading.problems[0].hint };
  if (reading.verdict === "ambiguous")
    return { problem: `\`${typed}\` can be meant in several ways`, hint: reading.question };
  const { size } = reading.readings[0].make;
  const system = ladderSystems.find((side) => side === (size?.system === "kcmil" ? "AWG" : size?.system));
  if (size === null || system === undefined)
    return {
      problem: `\`${typed}\` is no size of the ladder`,
      hint: "write a size such as `2.5 mm²`, `12 AWG` or `8 SAE`",
    };
  return { system, name: size.name, areaMm2: size.areaMm2 };
}
