import type { ReadTable } from "./make-reference.ts";

/** `a=1;b=2` → its words. */
function wordsOf(extra: string): ReadonlyMap<string, string> {
  const words = new Map<string, string>();
  for (const pair of extra.split(";").filter(Boolean)) {
    const cut = pair.indexOf("=");
    if (cut < 1) throw new Error(`symbols: "${pair}" is not word=text`);
    words.set(pair.slice(0, cut), pair.slice(cut + 1));
  }
  return words;
}

const numbers = (text: string): number[] =>
  text.split(" ").map((word) => {
    if (word === "" || !Number.isFinite(Number(word))) throw new Error(`symbols: "${word}" is not a number`);
    return Number(word);
  });

const types = `/** A line of a symbol before it is placed; mm, y down, about the origin of the symbol. */
export interface DrawnStroke {
  readonly is: "line" | "rect" | "circle" | "ellipse" | "arc" | "poly" | "text";
  /** As in \`reference/drawing/symbols.csv\`; of a poly its points. */
  readonly at: readonly number[];
  readonly w?: "bold";
  readonly fill?: "ink" | "paper";
  readonly dash?: readonly number[];
  readonly r?: number;
  readonly large?: boolean;
  readonly sweep?: boolean;
  readonly closed?: boolean;
  readonly t?: string;
  readonly a?: "start" | "middle" | "end";
  /** Stands for what only a plan knows. */
  readonly sample?: boolean;
  /** Strokes with the same number are one sign, which stays upright when the symbol turns. */
  readonly up?: number;
}

export interface DrawnSymbol {
  readonly key: string;
  readonly variant: "iec" | "na" | "both" | "off";
  readonly name: string;
  readonly className: string;
  readonly turns: "free" | "ports" | "none";
  readonly strokes: readonly DrawnStroke[];
  /** Where, and which way is out. */
  readonly ports: readonly {
    readonly name: string;
    readonly role: string;
    readonly set: "oneline" | "circuit" | "";
    readonly at: readonly [x: number, y: number, outX: number, outY: number];
  }[];
  readonly box: readonly [x1: number, y1: number, x2: number, y2: number];
  /** Of the designation and of the first value. */
  readonly label: { readonly at: readonly [x1: number, y1: number, x2: number, y2: number]; readonly a: "start" | "middle" | "end" };
}
`;

/** The TypeScript of the table of symbols, whose rows are strokes of drawings and no facts of one kind. */
export function printSymbols(table: ReadTable): string {
  const symbols = new Map<string, ReadTable["rows"]>();
  for (const row of table.rows) {
    const key = `${String(row.cells["symbol"])} ${String(row.cells["variant"])}`;
    symbols.set(key, [...(symbols.get(key) ?? []), row]);
  }
  const isDrawn = (rows: ReadTable["rows"]): boolean =>
    !rows.some(({ cells }) => wordsOf(String(cells["extra"] ?? "")).get("drawn") === "no");
  const printed = [...symbols]
    .filter(([, rows]) => isDrawn(rows))
    .map(([id, rows]) => {
      const [key = "", variant = ""] = id.split(" ");
      const of = (primitive: string) => rows.filter(({ cells }) => cells["primitive"] === primitive);
      const one = (primitive: string) => {
        const [row, second] = of(primitive);
        if (row === undefined || second !== undefined) throw new Error(`symbols: ${id} needs one ${primitive}`);
        return row;
      };
      const at = ({ cells }: ReadTable["rows"][number]) =>
        ["x1", "y1", "x2", "y2"].flatMap((name) => (cells[name] === null ? [] : [Number(cells[name])]));
      const words = ({ cells }: ReadTable["rows"][number]) => wordsOf(String(cells["extra"] ?? ""));
      const meta = words(one("meta"));
      const head = ["name", "cls", "rot"].map((word) => {
        const text = meta.get(word);
        if (text === undefined) throw new Error(`symbols: ${id} has no ${word}`);
        return text;
      });
      const strokes = rows
        .filter(({ cells }) => !["meta", "port", "box", "label"].includes(String(cells["primitive"])))
        .map((row) => {
          const more = Object.fromEntries(
            [...words(row)].flatMap(([word, text]): [string, unknown][] => {
              if (word === "pts" || text === "none") return [];
              if (word === "dash") return [[word, numbers(text)]];
              if (["large", "sweep", "closed", "sample"].includes(word)) return [[word, text === "1"]];
              return [[word, ["r", "up"].includes(word) ? Number(text) : text]];
            }),
          );
          const points = words(row).get("pts");
          return { is: row.cells["primitive"], at: points === undefined ? at(row) : numbers(points), ...more };
        });
      const ports = of("port").map((row) => {
        const told = words(row);
        return { name: told.get("name"), role: told.get("role"), set: told.get("set") ?? "", at: at(row) };
      });
      const label = one("label");
      const lines = (list: readonly unknown[]) => list.map((item) => `      ${JSON.stringify(item)},\n`).join("");
      return `  {
    key: ${JSON.stringify(key)}, variant: ${JSON.stringify(variant)}, name: ${JSON.stringify(head[0])}, className: ${JSON.stringify(head[1])}, turns: ${JSON.stringify(head[2])},
    strokes: [
${lines(strokes)}    ],
    ports: [
${lines(ports)}    ],
    box: ${JSON.stringify(at(one("box")))},
    label: ${JSON.stringify({ at: at(label), a: words(label).get("a") })},
  },
`;
    });
  return `// Generated by tools/make-reference.ts from reference/${table.id}.csv. Do not edit.
${types}
export const symbols: readonly DrawnSymbol[] = [
${printed.join("")}];
`;
}
