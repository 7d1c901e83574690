/** What is used of pdfkit, which has no types of its own. */
declare module "pdfkit" {
  export interface StructureElement {
    add(child: StructureElement | (() => void)): StructureElement;
    end(): void;
  }

  export class PDFDocument {
    constructor(options: {
      readonly autoFirstPage: boolean;
      readonly pdfVersion: string;
      readonly tagged: boolean;
      readonly displayTitle: boolean;
      readonly lang: string;
      readonly font: null;
      readonly info: Readonly<Record<string, string | Date>>;
    });
    info: Record<string, string | Date>;
    endMetadata: () => void;
    on(event: "data", listener: (part: Uint8Array) => void): this;
    on(event: "end", listener: () => void): this;
    registerFont(name: string, bytes: Uint8Array): this;
    addPage(options: { readonly size: readonly [number, number]; readonly margin: number }): this;
    font(name: string, size: number): this;
    text(
      text: string,
      x: number,
      y: number,
      options: {
        readonly lineBreak: false;
        readonly baseline: "alphabetic";
        readonly features: Readonly<Record<string, boolean>>;
      },
    ): this;
    moveTo(x: number, y: number): this;
    lineTo(x: number, y: number): this;
    bezierCurveTo(ax: number, ay: number, bx: number, by: number, x: number, y: number): this;
    closePath(): this;
    lineWidth(width: number): this;
    lineCap(cap: "round" | "butt"): this;
    lineJoin(join: "round"): this;
    dash(lengths: readonly number[]): this;
    undash(): this;
    fillColor(colour: string): this;
    fill(colour: string): this;
    stroke(colour: string): this;
    fillAndStroke(fill: string, stroke: string): this;
    struct(type: string, options?: { readonly title?: string; readonly alt?: string }): StructureElement;
    addStructure(element: StructureElement): this;
    markContent(tag: string, options?: { readonly type: string }): this;
    endMarkedContent(): this;
    readonly outline: { addItem(title: string): unknown };
    end(): void;
  }
}
