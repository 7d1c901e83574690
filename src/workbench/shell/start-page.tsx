import { useEffect, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import type { BuildRow, Keeper } from "../keep/keeper-shape.ts";
import type { GoodCopy } from "../keep/build.ts";
import { timeOf } from "../keep/saved-line.ts";
import type { Status } from "../look/status-shape.tsx";
import { later } from "./later.tsx";
import type { KeptBuild } from "../start/kept-build.ts";
import { StartView } from "../start/start-view.tsx";

const CopiesDialog = later(async () => (await import("../start/copies-dialog.tsx")).CopiesDialog);

/** Start, with what this browser keeps. */
export function StartPage({
  bench,
  keeper,
  isGone = false,
}: {
  readonly bench: Bench;
  readonly keeper: Keeper;
  /** The address of the page names a plan that is not kept here; said until another one is opened. */
  readonly isGone?: boolean;
}) {
  const [builds, setBuilds] = useState<readonly KeptBuild[] | null>(null);
  const [copies, setCopies] = useState<{ readonly name: string; readonly all: readonly GoodCopy[] } | null>(null);
  const look = async (): Promise<void> => {
    const now = Date.now();
    setBuilds(((await keeper.listBuilds()) ?? []).map((row) => rowOf(row, now)));
  };
  useEffect(() => {
    void look();
  }, []);
  const open = async (id: string): Promise<void> => {
    if (bench.state.buildId === id) bench.go("one-line");
    else if (!(await bench.openBuild(id))) {
      bench.say("this build is no longer kept here", "assertive");
      await look();
    }
  };
  const showCopies = async (id: string): Promise<void> => {
    const name = builds?.find((build) => build.id === id)?.name ?? "plan";
    setCopies({ name, all: await keeper.goodCopies(id) });
  };
  // Each plan that is opened is another revision.
  const isStillGone = isGone && bench.state.revision === 0;
  return (
    <>
      <StartView
        bench={bench}
        builds={builds?.filter(({ recovered }) => !recovered) ?? null}
        recovered={builds?.filter(({ recovered }) => recovered) ?? []}
        onOpenBuild={(id) => void open(id)}
        onForget={(id) => void keeper.removeBuild(id).then(look)}
        onCopies={(id) => void showCopies(id)}
        notice={isStillGone ? GONE : ""}
      />
      {copies === null ? null : (
        <CopiesDialog
          bench={bench}
          name={copies.name}
          copies={copies.all}
          onClose={() => {
            setCopies(null);
          }}
        />
      )}
    </>
  );
}

const GONE = "This plan is not kept in this browser any more. If it is in a file, open that.";

function rowOf({ id, name, summary, file, unsaved, changedAt, crashed }: BuildRow, now: number): KeptBuild {
  const { must = 0, should = 0, cannotTell = 0 } = summary?.tally ?? {};
  const counts = [[must, "must"], [should, "should"], [cannotTell, "cannot tell"]] as const; // prettier-ignore
  const said = counts.filter(([count]) => count > 0).map(([count, word]) => `${count} ${word}`);
  const status: Status = must > 0 ? "fail" : should > 0 ? "warn" : cannotTell > 0 ? "unknown" : "pass";
  return {
    id,
    name: name === "" ? "Plan without a name" : name,
    revision: summary?.revision ?? "",
    fileName: file?.name ?? null,
    savedSays:
      file !== null && unsaved === 0 ? `saved ${timeOf(file.savedAt, now)}` : `last change ${timeOf(changedAt, now)}`,
    tallySays:
      summary === null ? "" : said.length === 0 ? "no fails; what was not checked is listed inside" : said.join(", "),
    status: summary === null ? null : status,
    changesNotInFile: unsaved,
    hasCopies: summary !== null,
    recovered: crashed,
  };
}
