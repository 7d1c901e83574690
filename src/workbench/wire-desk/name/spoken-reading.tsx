import { useEffect, useState } from "preact/hooks";
import type { WireCard } from "../../../act/wire-card/index.ts";
import type { Units } from "../../contract.ts";
import { inSentence } from "../../look/print-in-units.ts";
import type { Read } from "./use-wire.ts";

/** Read aloud once typing rests, ms. */
const REST = 600;

/** What a reading is in one breath. */
function spoken(card: WireCard): string {
  switch (card.verdict) {
    case "exact":
      return [card.reading.says, ...card.reading.traps.slice(0, 1)].join(" ");
    case "ambiguous":
      return `ask: which? ${card.question} ${card.readings.length} choices`;
    case "rejected":
      return card.problems
        .map(({ message, hint }) => [message, hint].filter((text) => text !== "").join("; "))
        .join(". ");
  }
}

/** The reading for whoever cannot see it, once it has stood still. */
export function SpokenReading({ read: { card, fresh }, units }: { readonly read: Read; readonly units: Units }) {
  const [said, setSaid] = useState("");
  const now = card === null || !fresh ? "" : inSentence(spoken(card), units);
  useEffect(() => {
    if (now === "") return undefined;
    const timer = setTimeout(() => {
      setSaid(now);
    }, REST);
    return () => {
      clearTimeout(timer);
    };
  }, [now]);
  return (
    <p class="unseen" role="status">
      {said}
    </p>
  );
}
