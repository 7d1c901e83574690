import { useEffect, useState } from "preact/hooks";
import type { ComponentType } from "preact";
import type { LessonPageStep } from "../../../act/wire-card/index.ts";
import type { Bench } from "../../contract.ts";

interface LessonProps {
  readonly steps: readonly LessonPageStep[];
  readonly onRead: (label: string) => void;
  readonly onClose: () => void;
}

/** The taught path in the place of the question, so that what it reads is read on the desk beside it. Its code and its steps come when it is opened. */
export function LessonDesk({
  bench,
  onRead,
  onClose,
}: {
  readonly bench: Bench;
  readonly onRead: (label: string) => void;
  readonly onClose: () => void;
}) {
  const [there, setThere] = useState<{
    readonly View: ComponentType<LessonProps>;
    readonly steps: LessonProps["steps"];
  } | null>(null);
  const [lost, setLost] = useState(false);
  useEffect(() => {
    let isOpen = true;
    Promise.all([import("../lesson/lesson-view.tsx"), bench.wireLesson()]).then(
      ([{ LessonView }, steps]) => {
        if (!isOpen) return;
        if (steps === null) setLost(true);
        else setThere({ View: LessonView, steps });
      },
      () => {
        if (isOpen) setLost(true);
      },
    );
    return () => {
      isOpen = false;
    };
  }, [bench]);
  if (there !== null)
    return (
      <div>
        <h2 class="unseen">How wire is named</h2>
        <there.View steps={there.steps} onRead={onRead} onClose={onClose} />
      </div>
    );
  return (
    <div aria-busy={!lost}>
      <p>{lost ? "This part of the page could not be read. Load the page again." : "working …"}</p>
      <button type="button" class="link" onClick={onClose}>
        Back to the desk
      </button>
    </div>
  );
}
