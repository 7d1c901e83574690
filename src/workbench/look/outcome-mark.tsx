import type { Outcome } from "../../fault/index.ts";
import "./outcome-mark.css";

/** What a fault ends as, in words. */
export const outcomeWords: Readonly<Record<Outcome, string>> = {
  cleared: "cleared",
  limited: "limited",
  "too small": "too small",
  "not proven": "not proven",
  "not seen": "not seen",
  none: "no current",
};

/** The same, for whoever has not met the words. */
export const outcomeMeans: Readonly<Record<Outcome, string>> = {
  cleared: "devices open, and nothing feeds it any more",
  limited: "no battery feeds it any more; sources with a limit of their own go on",
  "too small": "the devices that see it may stay closed: its current is too small for them",
  "not proven": "nothing published says that the devices that see it open",
  "not seen": "no device stands between it and a battery",
  none: "no source reaches it",
};

/** Letters of the marks, one of a kind. */
const letters: Readonly<Record<Outcome, string>> = {
  cleared: "C",
  limited: "L",
  "too small": "S",
  "not proven": "P",
  "not seen": "N",
  none: "–",
};

/** How a fault ends, as shape and letter; colour comes third. The words stand beside it. */
export function OutcomeMark({ outcome, size = 18 }: { readonly outcome: Outcome; readonly size?: number }) {
  return (
    <svg
      class={`outcome outcome-${outcome.replace(" ", "-")}`}
      width={size}
      height={size}
      viewBox="0 0 18 18"
      fill="none"
      aria-hidden
    >
      {outline[outcome]}
      <text x="9" y={outcome === "too small" ? 14.6 : 12.8} text-anchor="middle">
        {letters[outcome]}
      </text>
    </svg>
  );
}

const outline: Readonly<Record<Outcome, preact.JSX.Element | null>> = {
  cleared: <circle cx="9" cy="9" r="7.6" />,
  limited: <path d="M1.6 1.6h14.8v14.8H1.6z" />,
  "too small": <path d="M9 .8 17.4 17H.6z" />,
  "not proven": <path d="M9 .8 17.2 9 9 17.2.8 9z" stroke-dasharray="2.6 1.7" />,
  "not seen": <path d="M5.7 1.2h6.6l4.5 4.5v6.6l-4.5 4.5H5.7l-4.5-4.5V5.7z" />,
  none: null,
};
