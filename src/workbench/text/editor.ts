import {
  acceptCompletion,
  autocompletion,
  closeBrackets,
  closeBracketsKeymap,
  completionKeymap,
} from "@codemirror/autocomplete";
import { defaultKeymap } from "@codemirror/commands";
import { codeFolding, foldGutter, foldKeymap, indentUnit } from "@codemirror/language";
import {
  lintKeymap,
  linter,
  nextDiagnostic,
  previousDiagnostic,
  setDiagnostics,
  forEachDiagnostic,
  type Diagnostic as LintMark,
} from "@codemirror/lint";
import { search, searchKeymap } from "@codemirror/search";
import {
  Annotation,
  Compartment,
  EditorState,
  Prec,
  StateEffect,
  StateField,
  Transaction,
  type ChangeDesc,
  type ChangeSet,
  type Extension,
} from "@codemirror/state";
import {
  Decoration,
  EditorView,
  highlightActiveLine,
  highlightSpecialChars,
  keymap,
  lineNumbers,
  type Command,
  type DecorationSet,
  type ViewUpdate,
} from "@codemirror/view";
import { applySplices, type Splice } from "../../plan/text/splice.ts";
import type { Bench, BenchState } from "../contract.ts";
import { splicesBetween } from "../keep/splices-between.ts";
import type { PagePlan, PageThing } from "../worker/protocol.ts";
import { completeFrom } from "./complete-source.ts";
import { chooseFix, fixChoices } from "./fix-choices.ts";
import { hangLines } from "./hang-lines.ts";
import { hideHover, hoverCards, showHover } from "./hover-card.ts";
import { thingAt } from "./line-of-thing.ts";
import { dropTouched, lineMarkGutter, lintMarks, showLineMarks } from "./marks.ts";
import { planHighlight } from "./plan-highlight.ts";
import type { QuickFix } from "./quick-fix.ts";

/** An editor on the page. */
export interface PlanEditor {
  readonly focus: () => void;
  readonly close: () => void;
}

/** Brought in from the bench: not to be told to it again. */
const fromBench = Annotation.define<boolean>();
/** A change with a name is a step of its own. */
const stepName = Annotation.define<string>();

const setSelectedLine = StateEffect.define<number | null>();
const lineLook = Decoration.line({ class: "text-selected-line" });

/** The line of what is selected on the page. */
const selectedLine = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(lines, tr) {
    let now = lines.map(tr.changes);
    for (const effect of tr.effects) {
      if (effect.is(setSelectedLine))
        now = effect.value === null ? Decoration.none : Decoration.set([lineLook.range(effect.value)]);
    }
    return now;
  },
  provide: (field) => EditorView.decorations.from(field),
});

/** ms that the cursor rests before what it stands on is selected. */
const REST = 220;

/**
 * Opens an editor on the plan's text. It keeps no history and no truth of its own: what is typed goes to the bench at once, what the bench changes comes in as
 * the least splices.
 */
export function openEditor(parent: HTMLElement, bench: Bench): PlanEditor {
  /** The text as the bench and the editor had it in common last. */
  let common = bench.state.text;
  /** What was changed since the revisions that a compiled plan may be of. */
  let since: { readonly revision: number; readonly changes: ChangeSet }[] = [];
  let shownPlan: PagePlan | null = null;
  let shownSelection: string | null = null;
  let selectedHere: string | null = null;
  let telling = false;
  let rest: ReturnType<typeof setTimeout> | undefined;
  const reading = new Compartment();

  const changesSince = (revision: number): ChangeDesc | null => {
    const later = since.filter((s) => s.revision > revision);
    return later.reduce<ChangeSet | null>((all, { changes }) => (all === null ? changes : all.compose(changes)), null);
  };

  function told(update: ViewUpdate): void {
    const moved = update.selectionSet && update.transactions.some((tr) => tr.isUserEvent("select"));
    if (update.docChanged) {
      const foreign = update.transactions.every((tr) => !tr.docChanged || tr.annotation(fromBench) === true);
      if (!foreign) tell(update);
      since.push({ revision: bench.state.revision, changes: update.changes });
    }
    if (moved || (update.docChanged && update.transactions.some((tr) => tr.isUserEvent("input")))) {
      clearTimeout(rest);
      rest = setTimeout(selectAtCursor, REST);
    }
  }

  function tell(update: ViewUpdate): void {
    const splices: Splice[] = [];
    update.changes.iterChanges((start, end, _from, _to, inserted) => {
      splices.push({ start, end, text: inserted.toString() });
    });
    common = applySplices(common, splices);
    const step = update.transactions.map((tr) => tr.annotation(stepName)).find((name) => name !== undefined);
    telling = true;
    if (step === undefined) bench.typed(splices);
    else bench.typed(splices, step);
    telling = false;
    // Whatever else the bench did with it comes in when this update is through.
    queueMicrotask(sync);
  }

  const thingsNow = (): PageThing[] => {
    const { plan } = bench.state;
    if (plan === null) return [];
    const moves = changesSince(plan.revision);
    const now = plan.things.flatMap((thing): PageThing[] => {
      const [from, to] = thing.at;
      if (moves === null) return to <= common.length ? [thing] : [];
      return to > moves.length ? [] : [{ ...thing, at: [moves.mapPos(from, 1), moves.mapPos(to, -1)] }];
    });
    return now.sort((a, b) => a.at[0] - b.at[0]);
  };

  function selectAtCursor(): void {
    if (!view.hasFocus) return;
    const thing = thingAt(common, view.state.selection.main.head, thingsNow());
    if (thing === null || thing.about === bench.state.selection) return;
    selectedHere = thing.about;
    bench.select(thing.about);
  }

  /** Brings the editor to what the bench knows. */
  function sync(): void {
    if (telling || closed) return;
    const { state } = bench;
    if (state.text !== common) {
      const changes = splicesBetween(common, state.text).map(({ start, end, text }) => ({
        from: start,
        to: end,
        insert: text,
      }));
      common = state.text;
      view.dispatch({ changes, annotations: [fromBench.of(true), Transaction.addToHistory.of(false)] });
    }
    common = state.text;
    if (state.plan !== shownPlan && state.plan !== null) showPlan(state.plan);
    parent.classList.toggle(
      "text-stale",
      state.broken !== null || (state.plan !== null && state.plan.revision !== state.revision),
    );
    if (view.state.readOnly !== state.readOnly) view.dispatch({ effects: reading.reconfigure(readOnly(state)) });
    if (state.selection !== shownSelection || (state.plan !== shownPlan && state.plan !== null)) showSelection(state);
    shownPlan = state.plan;
  }

  function showPlan(plan: PagePlan): void {
    since = since.filter((s) => s.revision > plan.revision);
    const { doc } = view.state;
    const moves = changesSince(plan.revision);
    view.dispatch(setDiagnostics(view.state, lintMarks(plan, doc, moves, applyFix)), {
      effects: showLineMarks(plan, doc, moves),
    });
  }

  function showSelection({ selection }: BenchState): void {
    const thing = selection === null ? undefined : thingsNow().find((t) => t.about === selection);
    const line = thing === undefined ? null : view.state.doc.lineAt(thing.at[0]).from;
    const isNew = selection !== shownSelection;
    const goTo = line !== null && isNew && selection !== selectedHere;
    if (thing !== undefined || selection === null) shownSelection = selection;
    if (isNew) selectedHere = null;
    view.dispatch({
      effects: [
        setSelectedLine.of(line),
        ...(goTo && line !== null ? [EditorView.scrollIntoView(line, { y: "center" })] : []),
      ],
      ...(goTo && line !== null && !view.hasFocus ? { selection: { anchor: line } } : {}),
    });
  }

  function applyFix(editor: EditorView, { put, from, to }: QuickFix): void {
    if (bench.state.readOnly) return;
    const old = editor.state.sliceDoc(from, to);
    const step = `${old} → ${put}`;
    editor.dispatch({
      changes: { from, to, insert: put },
      selection: { anchor: from + put.length },
      annotations: stepName.of(step),
      userEvent: "input.fix",
    });
    bench.say(step);
    editor.focus();
  }

  /** The replacement that a message at the cursor names; where there is a choice it is opened, and nothing is put in. */
  const fixHere: Command = (editor) => {
    const { head } = editor.state.selection.main;
    const line = editor.state.doc.lineAt(head);
    const here: { readonly mark: LintMark; readonly from: number; readonly to: number }[] = [];
    forEachDiagnostic(editor.state, (mark, from, to) => {
      if ((mark.actions ?? []).length > 0 && from <= line.to && to >= line.from) here.push({ mark, from, to });
    });
    const found = here.find(({ from, to }) => from <= head && head <= to) ?? here[0];
    if (found === undefined) {
      bench.say("no message on this line names a replacement");
      return true;
    }
    const { mark, from, to } = found;
    const choices = (mark.actions ?? []).map(({ name, apply }) => ({
      put: name,
      take: () => {
        apply(editor, from, to);
      },
    }));
    // The keys of this press are through before what has focus changes.
    queueMicrotask(() => {
      if (choices.length > 1 || ("leavesChoice" in mark && mark.leavesChoice === true))
        chooseFix(editor, [from, to], mark.message, choices);
      else choices[0]?.take();
    });
    return true;
  };

  /** Goes to the next message and speaks it. */
  const toMessage =
    (go: Command): Command =>
    (editor) => {
      if (!go(editor)) {
        bench.say("no message in this text");
        return true;
      }
      const { from } = editor.state.selection.main;
      forEachDiagnostic(editor.state, (mark, start) => {
        if (start === from) bench.say(`${mark.severity}: ${mark.message}`);
      });
      return true;
    };

  const undo: Command = () => {
    bench.undo();
    return true;
  };
  const redo: Command = () => {
    bench.redo();
    return true;
  };
  const keys = Prec.high(
    keymap.of([
      { key: "Mod-z", run: undo, preventDefault: true },
      { key: "Mod-Shift-z", run: redo, preventDefault: true },
      { key: "Mod-y", run: redo, preventDefault: true },
      {
        key: "Mod-s",
        run: () => {
          void bench.saveFile();
          return true;
        },
        preventDefault: true,
      },
      { key: "Mod-i", run: (v) => showHover(bench, v), preventDefault: true },
      { key: "Escape", run: hideHover },
      { key: "Mod-.", run: fixHere, preventDefault: true },
      { key: "F8", run: toMessage(nextDiagnostic), preventDefault: true },
      { key: "Shift-F8", run: toMessage(previousDiagnostic), preventDefault: true },
      // Tab takes what is offered; else it leaves the editor, as in any field.
      { key: "Tab", run: acceptCompletion },
    ]),
  );

  const extensions: Extension = [
    // Offsets are those of the plan: a carriage return stays a sign of its line.
    EditorState.lineSeparator.of("\n"),
    EditorView.clipboardInputFilter.of((text) => text.replace(/\r\n?/g, "\n")),
    highlightSpecialChars({ render: (code, name) => specialSign(code, name) }),
    lineNumbers(),
    lineMarkGutter((finding) => {
      bench.openNote(finding);
    }),
    foldGutter({ openText: "▾", closedText: "▸" }),
    codeFolding({ placeholderText: "…" }),
    highlightActiveLine(),
    EditorView.lineWrapping,
    hangLines,
    indentUnit.of("  "),
    EditorState.tabSize.of(2),
    planHighlight(),
    closeBrackets(),
    EditorState.languageData.of(() => [{ closeBrackets: { brackets: ["{", "[", '"'] } }]),
    autocompletion({ override: [completeFrom(bench)], icons: false, maxRenderedOptions: 60 }),
    search({ top: true }),
    linter(null),
    dropTouched,
    selectedLine,
    hoverCards(bench),
    fixChoices,
    keys,
    keymap.of([
      ...closeBracketsKeymap,
      ...completionKeymap,
      ...lintKeymap,
      ...searchKeymap,
      ...foldKeymap,
      ...defaultKeymap.filter(({ key }) => !TAKEN.has(key ?? "")),
    ]),
    EditorView.contentAttributes.of({
      "aria-label": "Text of the plan",
      tabindex: "0",
      "aria-describedby": "text-keys",
      spellcheck: "false",
      autocorrect: "off",
      autocapitalize: "off",
    }),
    EditorView.domEventHandlers({
      // The browser keeps a history of its own, which knows nothing of ours.
      beforeinput(event) {
        if (event.inputType !== "historyUndo" && event.inputType !== "historyRedo") return false;
        event.preventDefault();
        if (event.inputType === "historyUndo") bench.undo();
        else bench.redo();
        return true;
      },
    }),
    reading.of(readOnly(bench.state)),
    EditorView.updateListener.of(told),
  ];

  let closed = false;
  const view = new EditorView({ parent, state: EditorState.create({ doc: common, extensions }) });
  const leave = bench.subscribe(sync);
  sync();
  return {
    focus: () => {
      view.focus();
    },
    close: () => {
      closed = true;
      clearTimeout(rest);
      leave();
      view.destroy();
    },
  };
}

/** Keys of the page that the editor leaves alone: back, and the card of this place. */
const TAKEN: ReadonlySet<string> = new Set(["Alt-ArrowLeft", "Alt-ArrowRight", "Mod-i", "Mod-Alt-\\"]);

const readOnly = ({ readOnly: is }: BenchState): Extension => [
  EditorState.readOnly.of(is),
  EditorView.contentAttributes.of({ "aria-readonly": String(is) }),
];

/** A sign that cannot be seen; the end of a line of some machines is no news. */
function specialSign(code: number, name: string | null): HTMLElement {
  const sign = document.createElement("span");
  sign.className = "cm-specialChar";
  if (code === 13) return sign;
  sign.textContent = code < 32 ? String.fromCodePoint(0x2400 + code) : "•";
  sign.title = name ?? `U+${code.toString(16)}`;
  sign.setAttribute("aria-label", sign.title);
  return sign;
}
