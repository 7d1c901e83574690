import { RangeSetBuilder, type Extension } from "@codemirror/state";
import { Decoration, ViewPlugin, type DecorationSet, type EditorView, type ViewUpdate } from "@codemirror/view";

/** Columns that the rows of a long line stand in, beyond its first. */
const STEP = 4;
/** Further in than this nothing is left of a narrow column. */
const MOST = 16;

const looks = new Map<number, Decoration>();

function lookOf(indent: number): Decoration {
  const columns = Math.min(indent, MOST) + STEP;
  let look = looks.get(columns);
  if (look === undefined) {
    look = Decoration.line({ class: "text-hang", attributes: { style: `--text-hang: ${columns}ch` } });
    looks.set(columns, look);
  }
  return look;
}

function hang(view: EditorView): DecorationSet {
  const builder = new RangeSetBuilder<Decoration>();
  for (const { from, to } of view.visibleRanges) {
    for (let at = from; at <= to;) {
      const line = view.state.doc.lineAt(at);
      builder.add(line.from, line.from, lookOf(/^ */.exec(line.text)?.[0].length ?? 0));
      at = line.to + 1;
    }
  }
  return builder.finish();
}

/** Rows of a line that is too long for the column stand further in than the line itself, so that keys can be found by their indent. */
export const hangLines: Extension = ViewPlugin.fromClass(
  class {
    lines: DecorationSet;
    constructor(view: EditorView) {
      this.lines = hang(view);
    }
    update(update: ViewUpdate): void {
      if (update.docChanged || update.viewportChanged) this.lines = hang(update.view);
    }
  },
  { decorations: (plugin) => plugin.lines },
);
