import { useCallback, useRef, useState } from "preact/hooks";
import type { AskOffer } from "../../act/index.ts";
import type { Bench } from "../contract.ts";

/** What is offered for a text. */
export interface Offers {
  /** The text that these are for. */
  readonly text: string;
  readonly list: readonly AskOffer[];
  /** The worker broke on it. */
  readonly broken: string | null;
}

const none: Offers = { text: "", list: [], broken: null };

/** Offers as one types. Each key asks at once; what comes for an earlier text is dropped. */
export function useOffers(bench: Bench): readonly [offers: Offers, ask: (text: string) => Promise<Offers | null>] {
  const [offers, setOffers] = useState(none);
  const latest = useRef(0);
  const ask = useCallback(
    async (text: string): Promise<Offers | null> => {
      const mine = ++latest.current;
      let found: Offers;
      try {
        found = text.trim() === "" ? { ...none, text } : { text, list: await bench.ask(text), broken: null };
      } catch (error) {
        found = { text, list: [], broken: error instanceof Error ? error.message : String(error) };
      }
      if (latest.current !== mine) return null;
      setOffers(found);
      return found;
    },
    [bench],
  );
  return [offers, ask];
}
