import { forEachDiagnostic, setDiagnosticsEffect, type Action, type Diagnostic as LintMark } from "@codemirror/lint";
import {
  EditorState,
  RangeSet,
  StateEffect,
  StateField,
  type ChangeDesc,
  type Extension,
  type Range,
  type Text,
} from "@codemirror/state";
import { gutter, GutterMarker, type EditorView } from "@codemirror/view";
import { h, render } from "preact";
import type { Diagnostic } from "../../diagnostic.ts";
import type { FindingKey } from "../contract.ts";
import { StatusShape, statusOf, statusWords, type Status } from "../look/status-shape.tsx";
import type { PagePlan } from "../worker/protocol.ts";
import { leavesChoice, quickFixes, type QuickFix } from "./quick-fix.ts";
import { withCode } from "./with-code.ts";

/** More than these are no help under lines; the count at the foot tells of all. */
const MOST_MARKS = 500;

const statusOfLevel: Readonly<Record<Diagnostic["level"], Status>> = {
  error: "fail",
  warning: "warn",
  hint: "note",
  note: "note",
};
const gravity: readonly Status[] = ["fail", "warn", "unknown", "note", "pass"];

/** A message under the text. */
export interface PlanMark extends LintMark {
  /** It names, or leaves open, more than one replacement: nobody but the person takes one of them. */
  readonly leavesChoice: boolean;
}

/**
 * The messages of a compiled plan as marks under the text as it stands now.
 *
 * @param since what was typed since that plan was compiled; a message whose place was touched is left out
 */
export function lintMarks(
  plan: PagePlan,
  doc: Text,
  since: ChangeDesc | null,
  fix: (view: EditorView, fix: QuickFix) => void,
): PlanMark[] {
  const marks: PlanMark[] = [];
  for (const diagnostic of plan.diagnostics) {
    if (diagnostic.level === "note") continue;
    const at = placeNow(diagnostic.at[0], doc, since);
    if (at === null || marks.length >= MOST_MARKS) continue;
    const [from, to] = at;
    const fixes = quickFixes(
      diagnostic,
      doc.sliceString(Math.max(0, from - 1), Math.min(doc.length, to + 1)),
      from - Math.max(0, from - 1),
      to - Math.max(0, from - 1),
    );
    const shift = Math.max(0, from - 1);
    marks.push({
      from,
      to,
      severity: diagnostic.level === "hint" ? "hint" : diagnostic.level,
      source: diagnostic.id,
      message: diagnostic.hint === undefined ? diagnostic.message : `${diagnostic.message}; ${diagnostic.hint}`,
      renderMessage: () => messageOf(diagnostic),
      leavesChoice: leavesChoice(diagnostic),
      actions: fixes.map((f): Action => ({
        name: f.put,
        apply: (view, now) => {
          fix(view, { put: f.put, from: now + f.from + shift - from, to: now + f.to + shift - from });
        },
      })),
    });
  }
  return marks;
}

function placeNow(
  span: readonly [number, number] | undefined,
  doc: Text,
  since: ChangeDesc | null,
): [number, number] | null {
  if (span === undefined) return null;
  let [from, to] = span;
  if (since !== null) {
    if (to > since.length || touches(since, from, to)) return null;
    [from, to] = [since.mapPos(from, 1), since.mapPos(to, -1)];
  }
  if (from > to || to > doc.length) return null;
  // A mark of no width cannot be seen.
  return from === to ? [Math.max(doc.lineAt(from).from, from - 1), Math.min(doc.lineAt(from).to, to + 1)] : [from, to];
}

const touches = (changes: ChangeDesc, from: number, to: number): boolean => changes.touchesRange(from, to) !== false;

function messageOf({ level, message, hint }: Diagnostic): Node {
  const box = document.createElement("div");
  box.className = "text-message";
  const word = document.createElement("b");
  word.textContent = `${level}: `;
  const what = document.createElement("p");
  what.append(word, ...withCode(message));
  box.append(what);
  if (hint !== undefined) {
    const next = document.createElement("p");
    next.className = "dim";
    next.append(...withCode(hint));
    box.append(next);
  }
  return box;
}

/** A message whose own place is changed goes at once: nobody knows yet whether it still holds. */
export const dropTouched: Extension = EditorState.transactionExtender.of((tr) => {
  if (!tr.docChanged) return null;
  const kept: LintMark[] = [];
  let dropped = false;
  forEachDiagnostic(tr.startState, (mark, from, to) => {
    if (touches(tr.changes, from, to)) dropped = true;
    else kept.push({ ...mark, from: tr.changes.mapPos(from, 1), to: tr.changes.mapPos(to, -1) });
  });
  return dropped ? { effects: setDiagnosticsEffect.of(kept) } : null;
});

/** What stands at the edge of a line: the gravest of its messages and findings. */
class LineMark extends GutterMarker {
  readonly status: Status;
  readonly says: string;
  readonly finding: FindingKey | null;
  constructor(status: Status, says: string, finding: FindingKey | null) {
    super();
    this.status = status;
    this.says = says;
    this.finding = finding;
  }
  override eq(other: GutterMarker): boolean {
    return other instanceof LineMark && other.status === this.status && other.says === this.says;
  }
  override toDOM(): Node {
    const box = document.createElement("span");
    box.className = "text-line-mark";
    box.title = this.says;
    render(h(StatusShape, { status: this.status, size: 16 }), box);
    return box;
  }
}

const setLineMarks = StateEffect.define<RangeSet<LineMark>>();

const lineMarks = StateField.define<RangeSet<LineMark>>({
  create: () => RangeSet.empty,
  update(marks, tr) {
    const mapped = marks.map(tr.changes);
    return tr.effects.reduce((now, effect) => (effect.is(setLineMarks) ? effect.value : now), mapped);
  },
});

/** @param open shows the note of the finding that was pressed */
export const lineMarkGutter = (open: (finding: FindingKey) => void): Extension => [
  lineMarks,
  gutter({
    class: "text-marks",
    markers: (view) => view.state.field(lineMarks),
    initialSpacer: () => new LineMark("pass", "", null),
    domEventHandlers: {
      mousedown(view, line) {
        let finding: FindingKey | null = null;
        view.state.field(lineMarks).between(line.from, line.from, (_, __, mark) => {
          finding ??= mark.finding;
        });
        if (finding === null) return false;
        open(finding);
        return true;
      },
    },
  }),
];

/** The marks at the edge for a compiled plan. */
export function showLineMarks(plan: PagePlan, doc: Text, since: ChangeDesc | null): StateEffect<RangeSet<LineMark>> {
  const lines = new Map<number, { status: Status; says: string[]; finding: FindingKey | null }>();
  const put = (at: [number, number] | null, status: Status, says: string, finding: FindingKey | null): void => {
    if (at === null) return;
    const line = doc.lineAt(at[0]).from;
    const there = lines.get(line);
    if (there === undefined) lines.set(line, { status, says: [says], finding });
    else {
      if (gravity.indexOf(status) < gravity.indexOf(there.status)) there.status = status;
      if (there.says.length < 6) there.says.push(says);
      there.finding ??= finding;
    }
  };
  for (const { level, message, at } of plan.diagnostics) {
    if (level !== "note") put(placeNow(at[0], doc, since), statusOfLevel[level], `${level}: ${message}`, null);
  }
  for (const finding of plan.findings) {
    if (finding.waived !== null && finding.waived.lapsed === null) continue;
    const status = statusOf(finding);
    // A finding is about the computed build: it stands at the line that its thing starts on.
    const span = finding.at[0];
    const start = span === undefined ? undefined : ([span[0], span[0]] as const);
    put(placeNow(start, doc, since), status, `${statusWords[status]}: ${finding.title}`, {
      rule: finding.rule,
      about: finding.about,
    });
  }
  const ranges: Range<LineMark>[] = [...lines]
    .sort(([a], [b]) => a - b)
    .map(([at, { status, says, finding }]) => new LineMark(status, says.join("\n"), finding).range(at));
  return setLineMarks.of(RangeSet.of(ranges));
}
