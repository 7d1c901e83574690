import type { Item, Point, Shape, Stroke } from "../scene.ts";
import { fieldEnds, LETTERS, type Paper } from "./paper.ts";

const FRAME: Stroke = { ink: "ink", width: 0.7 };
const THIN: Stroke = { ink: "ink", width: 0.35 };
/** Width of the band of fields outside the frame, mm. */
const BAND = 5;
const CAP = 2.5;

/** Frame, centring marks, and the fields by which notes name a place: figures along the top, letters down the right side. */
export function drawFrame({ frame: [[x1, y1], [x2, y2]], zones: [across, down] }: Paper): Item {
  const shapes: Shape[] = [{ is: "rectangle", from: [x1, y1], to: [x2, y2], stroke: FRAME }];
  const line = (from: Point, to: Point, stroke: Stroke): void => {
    shapes.push({ is: "polyline", points: [from, to], stroke });
  };
  const letter = (text: string, at: Point): void => {
    shapes.push({
      is: "text",
      at: [at[0], at[1] + CAP / 2],
      text,
      capMm: CAP,
      weight: "regular",
      anchor: "middle",
      ink: "ink2",
    });
  };
  const fields = (length: number, count: number, each: (from: number, to: number, i: number) => void): void => {
    let from = 0;
    fieldEnds(length, count).forEach((to, i) => {
      each(from, to, i);
      from = to;
    });
  };
  fields(x2 - x1, across, (from, to, i) => {
    letter(String(i + 1), [x1 + (from + to) / 2, y1 - BAND / 2]);
    if (i < across - 1) line([x1 + to, y1 - BAND], [x1 + to, y1], THIN);
  });
  fields(y2 - y1, down, (from, to, i) => {
    letter(LETTERS[i] ?? "", [x2 + BAND / 2, y1 + (from + to) / 2]);
    if (i < down - 1) line([x2, y1 + to], [x2 + BAND, y1 + to], THIN);
  });
  const [cx, cy] = [(x1 + x2) / 2, (y1 + y2) / 2];
  line([cx, y2], [cx, y2 + BAND], FRAME);
  line([x1 - BAND, cy], [x1, cy], FRAME);
  line([cx, y1 - BAND], [cx, y1], FRAME);
  line([x2, cy], [x2 + BAND, cy], FRAME);
  return { role: "sheet", about: null, name: "", shapes };
}
