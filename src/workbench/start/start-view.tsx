import { useEffect, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { keyFor } from "../settings/keys.ts";
import { mayAct } from "../settings/typing.ts";
import { later } from "../shell/later.tsx";
import { AskOne } from "./ask-one.tsx";
import { BuildRows } from "./build-rows.tsx";
import { rowsOf, type KeptBuild } from "./kept-build.ts";
import { LayOutCard } from "./lay-out-card.tsx";
import { OpenExample } from "./open-example.tsx";
import "./start.css";

const UnitsMenu = later(async () => (await import("../settings/units-menu.tsx")).UnitsMenu);

export interface StartProps {
  readonly bench: Bench;
  /** Builds that the browser keeps, last changed first; null: it is being looked for. */
  readonly builds: readonly KeptBuild[] | null;
  /** Those that were found after a crash. */
  readonly recovered: readonly KeptBuild[];
  readonly onOpenBuild: (id: string) => void;
  readonly onForget: (id: string) => void;
  /** Shows the good copies of one. */
  readonly onCopies: (id: string) => void;
  /** What is to be said of what is kept; empty: nothing. */
  readonly notice?: string;
}

/** The page before a plan is open: three ways in, and what was left here. It has a head of its own. */
export function StartView({ bench, builds, recovered, onOpenBuild, onForget, onCopies, notice = "" }: StartProps) {
  const [fault, setFault] = useState("");
  useCardKeys();
  const openFile = async (): Promise<void> => {
    setFault("");
    const outcome = await bench.openFile();
    if (!outcome.ok) setFault([outcome.message, outcome.hint].filter((words) => words !== "").join("; "));
  };
  return (
    <div class="start">
      <header class="start-head">
        <Mark />
        <span class="start-brand">Wireworthy</span>
        <span class="dim start-tag">Works without a network. Your plan is a text file that you own.</span>
        <span class="start-head-deeds">
          <UnitsMenu bench={bench} />
          <button type="button" class="button" onClick={() => void openFile()}>
            Open a file …
          </button>
        </span>
      </header>
      <main class="start-main">
        <h1>What is on the bench today?</h1>
        <p class="dim start-says">
          From a plan to copper that can be cut, crimped, labelled and tested, with a reason for every size.
        </p>
        <p class="start-fault" role="alert" hidden={fault === ""}>
          {fault}
        </p>
        {notice !== "" && (
          <p class="start-notice" role="status">
            {notice}
          </p>
        )}
        <div class="start-cards">
          <AskOne bench={bench} />
          <OpenExample bench={bench} />
          <LayOutCard bench={bench} />
        </div>
        <BuildRows
          rows={builds === null ? null : rowsOf(builds, recovered)}
          onOpen={onOpenBuild}
          onForget={onForget}
          onCopies={onCopies}
        />
        <p class="start-caution">
          Wiring can burn, shock and sink. Wireworthy checks a plan, not a build, and is no certificate. Local codes and
          a licensed electrician or surveyor decide. Isolate before working. Steps kept for qualified people are marked
          where they stand.
        </p>
      </main>
    </div>
  );
}

const cards = [
  ["ask-one", 1],
  ["open-example", 2],
  ["lay-out", 3],
] as const;

/** 1, 2 and 3 go to the three ways in, at the first thing that can be done there. */
function useCardKeys(): void {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      const row = keyFor(event, "start");
      if (row === null) return;
      const card = cards.find(([does]) => does === row.does)?.[1];
      if (card === undefined || event.defaultPrevented || !mayAct(row, event.target)) return;
      const first = document.querySelector<HTMLElement>(`.start-card-${card} :is(input, button, select):not(.link)`);
      if (first === null) return;
      event.preventDefault();
      first.focus();
      if (first instanceof HTMLInputElement) first.select();
    };
    addEventListener("keydown", press);
    return () => {
      removeEventListener("keydown", press);
    };
  }, []);
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
