import { useEffect, useRef, useState } from "preact/hooks";
import type { WireCard, WireQuestion } from "../../../act/wire-card/index.ts";
import type { Bench } from "../../contract.ts";

/** What has come of a name so far. */
export interface Read {
  /** The last answer there was; null: none yet. */
  readonly card: WireCard | null;
  /** The text that it reads. */
  readonly of: string;
  readonly fresh: boolean;
  /** No answer for longer than a blink. */
  readonly working: boolean;
  /** The worker broke on this name: what it said. */
  readonly broken: string | null;
}

/** What is older than this, in ms, is not shown as fresh. */
const LATE = 100;

const nothing: Read = { card: null, of: "", fresh: true, working: false, broken: null };

/** Reads a name, and again with each change of it. Nothing waits for typing to end; an answer to an earlier text is dropped, and the worker is told to. */
export function useWire(bench: Bench, question: WireQuestion): Read {
  const [read, setRead] = useState(nothing);
  const latest = useRef(0);
  const key = JSON.stringify(question);
  useEffect(() => {
    const mine = ++latest.current;
    const { text } = question;
    const dropped = new AbortController();
    const isLatest = (): boolean => latest.current === mine;
    setRead((before) => ({ ...before, fresh: false }));
    const late = setTimeout(() => {
      if (isLatest()) setRead((before) => ({ ...before, working: true }));
    }, LATE);
    bench.wire(question, dropped.signal).then(
      (card) => {
        if (!isLatest() || card === null) return;
        clearTimeout(late);
        setRead({ card, of: text, fresh: true, working: false, broken: null });
      },
      (error: unknown) => {
        if (!isLatest()) return;
        clearTimeout(late);
        const says = error instanceof Error ? error.message : String(error);
        setRead((before) => ({ ...before, fresh: false, working: false, broken: says }));
      },
    );
    return () => {
      clearTimeout(late);
      latest.current++;
      dropped.abort();
    };
    // A question is told by its text: a new object with the same words asks nothing new.
  }, [bench, key]);
  return read;
}
