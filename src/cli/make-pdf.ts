import { readFile } from "node:fs/promises";
import { PDFDocument, type StructureElement } from "pdfkit";
import { printScene, type Pen } from "../draw/print-scene.ts";
import type { Scene } from "../draw/scene.ts";

/** What a document says of itself. */
export interface PdfAbout {
  readonly title: string;
  readonly subject: string;
  /** As in BCP 47, such as `en-GB`. */
  readonly language: string;
  /** The program and its version. */
  readonly creator: string;
  /** Of issue; null: the document has none, and says none. */
  readonly date: Date | null;
}

/** Put in by the build, whose files lie one folder less deep. */
declare const WIREWORTHY_VERSION: string | undefined;
const fonts = new URL(typeof WIREWORTHY_VERSION === "string" ? "../fonts/" : "../../fonts/", import.meta.url);

const POINTS_PER_MM = 72 / 25.4;
/** For the mark by which a document without a date is told from others. */
const NO_DATE = new Date(0);
/** Widths are counted without them, see `src/draw/text-width.ts`. */
const PLAIN = { kern: false, liga: false, clig: false, calt: false, dlig: false };

/**
 * A PDF of drawings, one a page, each page as large as its drawing. The font is in it, as far as it is used; things that have a name are tagged
 * as figures with that name, the rest as decoration. The same drawings give the same bytes.
 *
 * This file carries the PDF library with it, so import it only when a PDF is wanted.
 *
 * @param scenes at least one
 */
export async function makePdf(scenes: readonly Scene[], about: PdfAbout): Promise<Uint8Array> {
  const [regular, semibold] = await Promise.all(
    ["IBMPlexSans-Regular.ttf", "IBMPlexSans-SemiBold.ttf"].map((name) => readFile(new URL(name, fonts))),
  );
  if (regular === undefined || semibold === undefined) throw new Error("a font was not read");
  const document = new PDFDocument({
    autoFirstPage: false,
    pdfVersion: "1.7",
    tagged: true,
    displayTitle: true,
    lang: about.language,
    font: null,
    info: {
      Title: about.title,
      Subject: about.subject,
      Creator: about.creator,
      CreationDate: about.date ?? NO_DATE,
    },
  });
  if (about.date === null) delete document.info["CreationDate"];
  // It would be the same facts as XML, but the library puts names in unescaped.
  document.endMetadata = () => undefined;
  const parts: Uint8Array[] = [];
  const whole = new Promise<Uint8Array>((resolve) => {
    document
      .on("data", (part) => parts.push(part))
      .on("end", () => {
        resolve(Buffer.concat(parts));
      });
  });
  document.registerFont("regular", regular).registerFont("semibold", semibold);

  const root = document.struct("Document");
  document.addStructure(root);
  for (const scene of scenes) {
    const size = [scene.width * POINTS_PER_MM, scene.height * POINTS_PER_MM] as const;
    document.addPage({ size, margin: 0 });
    if (scenes.length > 1) document.outline.addItem(scene.title);
    const section = document.struct("Sect", { title: scene.title });
    root.add(section);
    printScene(scene, penOf(document, section));
    section.end();
  }
  root.end();
  document.end();
  return whole;
}

function penOf(document: PDFDocument, section: StructureElement): Pen {
  const k = POINTS_PER_MM;
  return {
    item: (name, draw) => {
      if (name === "") {
        document.markContent("Artifact", { type: "Layout" });
        draw();
        document.endMarkedContent();
      } else {
        const figure = document.struct("Figure", { alt: name });
        section.add(figure);
        figure.add(draw);
        figure.end();
      }
    },
    path: (steps, { fill, stroke }) => {
      for (const step of steps) {
        switch (step[0]) {
          case "move":
            document.moveTo(step[1][0] * k, step[1][1] * k);
            break;
          case "line":
            document.lineTo(step[1][0] * k, step[1][1] * k);
            break;
          case "curve": {
            const [, [ax, ay], [bx, by], [x, y]] = step;
            document.bezierCurveTo(ax * k, ay * k, bx * k, by * k, x * k, y * k);
            break;
          }
          case "close":
            document.closePath();
        }
      }
      if (stroke !== null) {
        document
          .lineWidth(stroke.width * k)
          .lineCap(stroke.cap)
          .lineJoin("round");
        if (stroke.dash.length > 0) document.dash(stroke.dash.map((length) => length * k));
        else document.undash();
      }
      if (fill !== null && stroke !== null) document.fillAndStroke(fill, stroke.colour);
      else if (fill !== null) document.fill(fill);
      else if (stroke !== null) document.stroke(stroke.colour);
    },
    text: (text, [x, y], size, weight, colour) => {
      document
        .font(weight, size * k)
        .fillColor(colour)
        .text(text, x * k, y * k, { lineBreak: false, baseline: "alphabetic", features: PLAIN });
    },
  };
}
