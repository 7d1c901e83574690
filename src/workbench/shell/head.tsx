import type { ComponentChildren } from "preact";
import type { Bench } from "../contract.ts";
import { useBench } from "../use-bench.ts";
import { later } from "./later.tsx";
import "./head.css";

const StepsList = later(async () => (await import("./steps-list.tsx")).StepsList);

/** The top of the page: whose plan, what can be asked, what was done, where it is kept. */
export function Head({
  bench,
  ask,
  menu,
}: {
  readonly bench: Bench;
  readonly ask: ComponentChildren;
  readonly menu: ComponentChildren;
}) {
  const { plan, kept, readOnly, fileName } = useBench(bench);
  const name = plan?.name === undefined || plan.name === "" ? (fileName ?? "Plan without a name") : plan.name;
  return (
    <header class="head">
      <button
        type="button"
        class="head-mark"
        onClick={() => {
          bench.go("start");
        }}
        aria-label="Wireworthy: to the start"
        title="To the start"
      >
        <Mark />
      </button>
      <h1 class="head-name">
        {name}
        {plan !== null && plan.planRevision !== "" ? (
          <span class="head-revision"> revision {plan.planRevision}</span>
        ) : null}
      </h1>
      <div class="head-ask">{ask}</div>
      <UndoButtons bench={bench} />
      {readOnly ? (
        <p class="head-kept">
          Read only: open in another tab.{" "}
          <button type="button" class="link" onClick={() => void bench.takePen()}>
            Work here instead
          </button>
        </p>
      ) : (
        <p class={`head-kept head-kept-${kept.level}`} title={kept.says}>
          {kept.says}
        </p>
      )}
      <button
        type="button"
        class="button head-save"
        onClick={() => void bench.saveFile()}
        title="Save to a file you own (Ctrl S)"
      >
        Save
      </button>
      {menu}
    </header>
  );
}

function UndoButtons({ bench }: { readonly bench: Bench }) {
  const { undoName, redoName, readOnly } = useBench(bench);
  return (
    <div class="head-undo" role="group" aria-label="Steps">
      <StepButton
        name={undoName}
        verb="Undo"
        readOnly={readOnly}
        act={bench.undo}
        path="M7 4 3.5 7.5 7 11M3.5 7.5h7a4 4 0 0 1 0 8H7"
      />
      <StepButton
        name={redoName}
        verb="Redo"
        readOnly={readOnly}
        act={bench.redo}
        path="M11 4l3.5 3.5L11 11M14.5 7.5h-7a4 4 0 0 0 0 8H11"
      />
      <StepsList bench={bench} />
    </div>
  );
}

interface StepProps {
  readonly name: string | null;
  readonly verb: "Undo" | "Redo";
  readonly readOnly: boolean;
  readonly act: () => void;
  readonly path: string;
}

function StepButton({ name, verb, readOnly, act, path }: StepProps) {
  const idle = name === null || readOnly;
  const says = name === null ? `${verb}: nothing to ${verb.toLowerCase()}` : `${verb}: ${name}`;
  return (
    <button
      type="button"
      class="head-step"
      aria-disabled={idle}
      aria-label={says}
      title={says}
      onClick={() => {
        if (!idle) act();
      }}
    >
      <svg
        width="18"
        height="18"
        viewBox="0 0 18 18"
        fill="none"
        stroke="currentColor"
        stroke-width="1.6"
        stroke-linecap="round"
        stroke-linejoin="round"
        aria-hidden="true"
      >
        <path d={path} />
      </svg>
    </button>
  );
}

/** A ring terminal on its wire. */
function Mark() {
  return (
    <svg width="30" height="20" viewBox="0 0 30 20" fill="none" aria-hidden="true">
      <circle cx="10" cy="10" r="6.5" stroke="var(--ink)" stroke-width="2.4" />
      <circle cx="10" cy="10" r="2.2" fill="var(--focus)" />
      <path d="M16.5 10h6" stroke="var(--ink)" stroke-width="4.4" />
      <path d="M22 10h7" stroke="var(--ink)" stroke-width="2" />
    </svg>
  );
}
