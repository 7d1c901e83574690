import { StateEffect, StateField, type Extension } from "@codemirror/state";
import { EditorView, showTooltip, type Tooltip } from "@codemirror/view";
import { withCode } from "./with-code.ts";

/** One of several replacements that a message names. */
export interface FixChoice {
  readonly put: string;
  readonly take: () => void;
}

const show = StateEffect.define<Tooltip | null>();

/** The replacements that were asked for by key; whatever changes the text or moves its cursor takes them away. */
const shown = StateField.define<Tooltip | null>({
  create: () => null,
  update(tooltip, tr) {
    for (const effect of tr.effects) if (effect.is(show)) return effect.value;
    return tr.docChanged || tr.selection !== undefined ? null : tooltip;
  },
  provide: (field) => showTooltip.from(field),
});

export const fixChoices: Extension = shown;

/** Opens the replacements of a message beside its place with focus on the first; nothing is put in until one is taken. */
export function chooseFix(
  view: EditorView,
  [from, to]: readonly [number, number],
  message: string,
  choices: readonly FixChoice[],
): void {
  const leave = (): void => {
    if (view.state.field(shown, false) != null) view.dispatch({ effects: show.of(null) });
  };
  const create = (): ReturnType<Tooltip["create"]> => {
    const dom = document.createElement("div");
    dom.className = "text-choices";
    const says = document.createElement("p");
    says.append(...withCode(message));
    const menu = document.createElement("div");
    menu.setAttribute("role", "menu");
    menu.setAttribute("aria-label", message);
    const items = choices.map(({ put, take }) => {
      const item = document.createElement("button");
      item.type = "button";
      item.setAttribute("role", "menuitem");
      item.tabIndex = -1;
      item.textContent = put;
      item.addEventListener("click", () => {
        leave();
        take();
      });
      return item;
    });
    menu.append(...items);
    menu.addEventListener("keydown", (event) => {
      const at = items.findIndex((item) => item === document.activeElement);
      const to = stepTo(event.key, at, items.length);
      if (event.key === "Escape" || event.key === "Tab") {
        view.focus();
        leave();
      } else if (to !== null) items[to]?.focus();
      else return;
      event.preventDefault();
      event.stopPropagation();
    });
    menu.addEventListener("focusout", (event) => {
      if (!(event.relatedTarget instanceof Node && menu.contains(event.relatedTarget))) queueMicrotask(leave);
    });
    dom.append(says, menu);
    return { dom, mount: () => items[0]?.focus() };
  };
  view.dispatch({ effects: show.of({ pos: from, end: to, above: false, create }) });
}

/** Where a key leads in a list that goes round; null: it is no key of a list. */
function stepTo(key: string, at: number, count: number): number | null {
  if (key === "ArrowDown") return (at + 1) % count;
  if (key === "ArrowUp") return (at + count - 1) % count;
  if (key === "Home") return 0;
  return key === "End" ? count - 1 : null;
}
