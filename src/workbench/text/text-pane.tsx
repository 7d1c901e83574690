import { useEffect, useRef, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { useBench } from "../use-bench.ts";
import type { PlanEditor } from "./editor.ts";
import "./text.css";

/** Six lines that are a whole plan. */
export const firstLines = `wireworthy: 1
name: new build
rules: { DC: iso-small-craft 2020+A1:2022 }
systems: { DC: { kind: DC, nominal: 12 V, return: B1 } }
parts:
  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah }
`;

/** The plan's text, to be read and typed in; its editor comes when it is first needed. */
export function TextPane({ bench, focus }: { readonly bench: Bench; readonly focus: boolean }) {
  const { text, readOnly } = useBench(bench);
  const place = useRef<HTMLDivElement>(null);
  const [came, setCame] = useState<"not yet" | "here" | "missing">("not yet");
  useEffect(() => {
    let editor: PlanEditor | null = null;
    let gone = false;
    import("./editor.ts").then(
      ({ openEditor }) => {
        if (gone || place.current === null) return;
        editor = openEditor(place.current, bench);
        setCame("here");
        if (focus) editor.focus();
      },
      () => {
        setCame("missing");
      },
    );
    return () => {
      gone = true;
      editor?.close();
    };
  }, [bench, focus]);
  return (
    <div class="text-pane">
      {readOnly ? <p class="text-told">This plan is open in another tab. Read here, or work here instead.</p> : null}
      {came === "here" && text.trim() === "" && !readOnly ? (
        <div class="text-told">
          <pre>{firstLines}</pre>
          <button
            type="button"
            class="button"
            onClick={() => {
              bench.typed([{ start: 0, end: text.length, text: firstLines }], "first lines");
            }}
          >
            Begin with these lines
          </button>
        </div>
      ) : null}
      {came === "missing" ? (
        <p class="text-told">The editor could not be fetched. Load the page again; the text is kept.</p>
      ) : null}
      {came === "not yet" ? <pre class="text-waiting">{text.slice(0, 4000)}</pre> : null}
      <div class="text-editor" ref={place} />
      <TextFoot bench={bench} />
    </div>
  );
}

/** How many messages there are, and the keys that are not seen. */
function TextFoot({ bench }: { readonly bench: Bench }) {
  const { plan, broken, working } = useBench(bench);
  const count = (level: string): number => plan?.diagnostics.filter((d) => d.level === level).length ?? 0;
  const [errors, warnings, hints] = [count("error"), count("warning"), count("hint")];
  const many = (n: number, what: string): string => `${n} ${what}${n === 1 ? "" : "s"}`;
  const said = [
    ...(errors > 0 ? [many(errors, "error")] : []),
    ...(warnings > 0 ? [many(warnings, "warning")] : []),
    ...(hints > 0 ? [many(hints, "hint")] : []),
  ];
  // What has no place in the text would never be seen under a line.
  const nowhere =
    plan?.diagnostics.filter((d) => d.at.length === 0 && (d.level === "error" || d.level === "warning")) ?? [];
  return (
    <div class="text-foot">
      {nowhere.slice(0, 3).map((d) => (
        <p key={`${d.id} ${d.message}`}>
          <b>{d.level}:</b> {d.message}
          {d.hint === undefined ? "" : `; ${d.hint}`}
        </p>
      ))}
      <p class={working ? "dim" : ""}>
        {broken !== null ? broken : working ? "working …" : said.length === 0 ? "every line is read" : said.join(", ")}
      </p>
      <p class="dim" id="text-keys">
        F8 next message · Ctrl . its replacement, or the choice of them · Ctrl Space what may stand here · Ctrl I what
        stands here · Tab leaves the text; Esc first while a list is open
      </p>
    </div>
  );
}
