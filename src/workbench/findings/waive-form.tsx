import { localDay } from "../local-day.ts";
import { useEffect, useRef, useState } from "preact/hooks";
import type { Bench, FindingKey } from "../contract.ts";

/** Asks why a finding may stand, who says so and until when; all of it is printed with the finding. */
export function WaiveForm({
  bench,
  finding,
  onClose,
}: {
  readonly bench: Bench;
  readonly finding: FindingKey;
  readonly onClose: () => void;
}) {
  const [problem, setProblem] = useState("");
  const reason = useRef<HTMLTextAreaElement>(null);
  const by = useRef<HTMLInputElement>(null);
  const until = useRef<HTMLInputElement>(null);
  const id = `waive-${finding.rule}-${finding.about}`.replace(/[^A-Za-z0-9_-]/g, "_");
  useEffect(() => {
    reason.current?.focus();
  }, []);

  const waive = async (): Promise<void> => {
    const why = reason.current?.value.trim() ?? "";
    if (why === "") {
      setProblem("a waiver without a reason waives nothing; write why it may stand");
      reason.current?.focus();
      return;
    }
    const who = by.current?.value.trim() ?? "";
    const end = until.current?.value ?? "";
    const outcome = await bench.act({
      do: "waive",
      finding,
      reason: why,
      date: localDay(),
      ...(who === "" ? {} : { by: who }),
      ...(end === "" ? {} : { until: end }),
    });
    if (outcome.ok) onClose();
    else setProblem(`${outcome.message}. ${outcome.hint}`);
  };

  return (
    <form
      class="findings-waive"
      aria-labelledby={id}
      onSubmit={(event) => {
        event.preventDefault();
        void waive();
      }}
      onKeyDown={(event) => {
        event.stopPropagation();
        if (event.key === "Escape") onClose();
      }}
    >
      <p id={id}>Why may this stand? The reason is printed with the finding.</p>
      <label>
        <span>Reason</span>
        <textarea
          ref={reason}
          class="field"
          rows={2}
          aria-invalid={problem !== ""}
          {...(problem === "" ? {} : { "aria-describedby": `${id}-problem` })}
        />
      </label>
      {problem === "" ? null : (
        <p class="findings-problem" id={`${id}-problem`} role="alert">
          {problem}
        </p>
      )}
      <label>
        <span>Who answers for it (may be left out)</span>
        <input ref={by} class="field" type="text" autocomplete="off" />
      </label>
      <label>
        <span>Until (may be left out)</span>
        <input ref={until} class="field" type="date" />
      </label>
      <div class="findings-deeds">
        <button type="submit" class="button">
          Waive
        </button>
        <button type="button" class="link" onClick={onClose}>
          Leave it
        </button>
      </div>
    </form>
  );
}
