import { StateEffect, StateField, type Extension } from "@codemirror/state";
import { EditorView, hoverTooltip, showTooltip, type Tooltip } from "@codemirror/view";
import type { Bench } from "../contract.ts";
import type { Hover } from "../worker/protocol.ts";
import { withCode } from "./with-code.ts";

/** What stands at a place, as a card beside it. Lines are texts and nothing else. */
function card(bench: Bench, hover: Hover): Tooltip {
  return {
    pos: hover.at[0],
    end: hover.at[1],
    above: true,
    create: () => {
      const dom = document.createElement("div");
      dom.className = "text-hover";
      for (const [i, line] of hover.lines.entries()) {
        const p = document.createElement("p");
        p.append(...withCode(line));
        if (i === 0 && line.length < 60) p.className = "text-hover-first";
        dom.append(p);
      }
      const { subject } = hover;
      if (subject !== null) {
        const why = document.createElement("button");
        why.type = "button";
        why.className = "link";
        why.textContent = `why ${subject}`;
        why.addEventListener("click", () => {
          bench.why(subject);
        });
        dom.append(why);
      }
      return { dom };
    },
  };
}

async function ask(bench: Bench, view: EditorView, pos: number): Promise<Hover | null> {
  const { doc } = view.state;
  const hover = await bench.hover(pos);
  const still = view.state.doc.eq(doc);
  return hover !== null && still && hover.at[0] <= pos && pos <= hover.at[1] && hover.at[1] <= doc.length
    ? hover
    : null;
}

const show = StateEffect.define<Tooltip | null>();

/** The card that was asked for by key; it goes with the next move of the cursor. */
const asked = StateField.define<Tooltip | null>({
  create: () => null,
  update(tooltip, tr) {
    for (const effect of tr.effects) if (effect.is(show)) return effect.value;
    return tr.docChanged || tr.selection !== undefined ? null : tooltip;
  },
  provide: (field) => showTooltip.from(field),
});

export const hoverCards = (bench: Bench): Extension => [
  asked,
  hoverTooltip(
    async (view, pos) => {
      const hover = await ask(bench, view, pos);
      return hover === null ? null : card(bench, hover);
    },
    { hideOnChange: true },
  ),
];

/** By key: what stands at the cursor is shown and spoken. */
export function showHover(bench: Bench, view: EditorView): boolean {
  void ask(bench, view, view.state.selection.main.head).then((hover) => {
    if (hover === null) bench.say("nothing is known of what stands here");
    else {
      view.dispatch({ effects: show.of(card(bench, hover)) });
      bench.say(hover.lines.join("; "));
    }
  });
  return true;
}

export function hideHover(view: EditorView): boolean {
  if (view.state.field(asked, false) == null) return false;
  view.dispatch({ effects: show.of(null) });
  return true;
}
