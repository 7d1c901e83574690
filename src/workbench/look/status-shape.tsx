import type { Finding } from "../../rules/index.ts";

/** What a status is drawn and called by. Shape first, word second, colour third. */
export type Status = "fail" | "warn" | "note" | "unknown" | "pass";

/** Of a finding: octagon for a failed must and for what a must cannot tell of, triangle for a should, dashed diamond for what cannot be told. */
export const statusOf = (finding: Pick<Finding, "outcome" | "severity">): Status =>
  finding.outcome === "cannot tell"
    ? "unknown"
    : finding.severity === "must"
      ? "fail"
      : finding.severity === "should"
        ? "warn"
        : "note";

export const statusWords: Readonly<Record<Status, string>> = {
  fail: "fail, must",
  warn: "fail, should",
  note: "note",
  unknown: "cannot tell",
  pass: "pass",
};

/** A status as its shape. @param label what is read aloud; empty: nothing, the words stand beside it */
export function StatusShape({
  status,
  label = "",
  size = 18,
}: {
  readonly status: Status;
  readonly label?: string;
  readonly size?: number;
}) {
  return (
    <svg
      class={`status status-${status}`}
      width={size}
      height={size}
      viewBox="0 0 18 18"
      fill="none"
      {...(label === "" ? { "aria-hidden": true } : { role: "img", "aria-label": label })}
    >
      {shapes[status]}
    </svg>
  );
}

const shapes = {
  fail: (
    <>
      <path d="M5.7 1.5h6.6l4.2 4.2v6.6l-4.2 4.2H5.7l-4.2-4.2V5.7z" fill="var(--fail)" />
      <path d="M6 6l6 6M12 6l-6 6" stroke="var(--paper)" stroke-width="2" stroke-linecap="round" />
    </>
  ),
  warn: (
    <>
      <path
        d="M9 1.8 17 16H1z"
        fill="var(--warn-tint)"
        stroke="var(--warn)"
        stroke-width="1.4"
        stroke-linejoin="round"
      />
      <path d="M9 6.5v5M9 13.2v.9" stroke="var(--warn)" stroke-width="1.7" stroke-linecap="round" />
    </>
  ),
  note: (
    <>
      <circle cx="9" cy="9" r="6" stroke="var(--ink2)" stroke-width="1.2" />
      <path d="M9 8.2v4M9 5.4v.5" stroke="var(--ink2)" stroke-width="1.6" stroke-linecap="round" />
    </>
  ),
  unknown: (
    <>
      <path d="M9 1.2 16.8 9 9 16.8 1.2 9z" stroke="var(--unknown)" stroke-width="1.3" stroke-dasharray="2.6 1.7" />
      <path
        d="M7.2 7.4c0-2.4 3.6-2.4 3.6 0 0 1.3-1.8 1.5-1.8 2.9M9 12.3v.6"
        stroke="var(--unknown)"
        stroke-width="1.4"
        stroke-linecap="round"
      />
    </>
  ),
  pass: (
    <>
      <circle cx="9" cy="9" r="7" stroke="var(--pass)" stroke-width="1.4" />
      <path
        d="M5.8 9.2l2.3 2.3 4.2-4.6"
        stroke="var(--pass)"
        stroke-width="1.6"
        stroke-linecap="round"
        stroke-linejoin="round"
      />
    </>
  ),
} as const;
