import { useEffect, useRef, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { useBench } from "../use-bench.ts";
import type {
  Positions,
  StateAsked,
  StateAtAnswer,
  StateDrawing,
  StateMovers,
  StatesAnswer,
} from "../worker/position-answers.ts";
import { PLACES_EVENT, readAddressed, writeAddressed } from "./place.ts";
import { refusalWords, stepWords, summaryOf, writePlaces } from "./state-words.ts";

export interface States {
  /** Null: it is not told yet, or nothing alternates (then `asked` is true). */
  readonly movers: StateMovers | null;
  readonly at: StateAtAnswer | null;
  /** Why the last move was not made. */
  readonly refusal: string | null;
  readonly all: StatesAnswer | null;
  readonly drawing: StateDrawing | null;
  /** The worker has answered for the plan as it stands. */
  readonly asked: boolean;
  readonly move: (mover: string, to: string) => void;
  readonly goTo: (positions: Positions) => void;
}

/** Positions live in the address, so that a reload and a link come back to them. */
export function useStates(bench: Bench, on: readonly string[] | null): States {
  const { revision } = useBench(bench);
  const [movers, setMovers] = useState<StateMovers | null>(null);
  const [at, setAt] = useState<StateAtAnswer | null>(null);
  const [refusal, setRefusal] = useState<string | null>(null);
  const [all, setAll] = useState<StatesAnswer | null>(null);
  const [drawing, setDrawing] = useState<StateDrawing | null>(null);
  const [asked, setAsked] = useState(false);
  const standing = useRef<Positions>(readAddressed());
  /** One after the other, so that no move is lost where fingers are quicker than answers. */
  const queue = useRef<Promise<void>>(Promise.resolve());
  const dropped = useRef(new AbortController());
  const onKey = on?.join("\n") ?? null;

  const follow = async (asked: Partial<StateAsked>, of: StateMovers, { signal }: AbortController): Promise<void> => {
    const { positions = standing.current, move = null } = asked;
    const answer = await bench.stateAt({ positions, move, on }, signal);
    if (signal.aborted || answer === null) return;
    standing.current = answer.positions;
    setAt(answer);
    writeAddressed(writePlaces(of.movers, answer.positions));
    const mover = of.movers.find(({ id }) => id === move?.mover);
    const isRefused = mover !== undefined && move !== null && answer.refusedBy.length > 0;
    const refused = isRefused ? refusalWords(mover, move.to, answer.refusedBy) : null;
    setRefusal(refused);
    if (asked.move !== undefined || asked.positions !== undefined)
      bench.say(refused ?? [...answer.follows.map(stepWords), summaryOf(answer.facts)].join("; "));
    // The picture is not waited for.
    void bench.stateDrawing({ positions: answer.positions, move: null, on }, signal).then(
      (drawn) => {
        if (!signal.aborted && standing.current === answer.positions) setDrawing(drawn);
      },
      () => undefined, // it was told by whoever asked
    );
  };
  const ask = (asked: Partial<StateAsked>, of: StateMovers): void => {
    const now = dropped.current;
    queue.current = queue.current.then(() => follow(asked, of, now)).catch(() => undefined); // it was told by whoever asked
  };

  useEffect(() => {
    const { signal } = (dropped.current = new AbortController());
    bench.stateMovers(signal).then(
      (answer) => {
        if (signal.aborted) return;
        setMovers(answer);
        setAsked(true);
        setAll(null);
        if (answer === null) {
          setAt(null);
          setDrawing(null);
          return;
        }
        ask({}, answer);
        // It may take long for many switches; what stands is there before it.
        bench.allStates(signal).then(
          (states) => {
            if (!signal.aborted) setAll(states);
          },
          () => undefined, // it was told by whoever asked
        );
      },
      () => undefined, // it was told by whoever asked
    );
    return () => {
      dropped.current.abort();
    };
  }, [revision]);

  useEffect(() => {
    if (movers !== null) ask({}, movers);
  }, [onKey]);

  useEffect(() => {
    const follow = (): void => {
      if (movers !== null) ask({ positions: readAddressed() }, movers);
    };
    addEventListener(PLACES_EVENT, follow);
    return () => {
      removeEventListener(PLACES_EVENT, follow);
    };
  }, [movers, onKey]);

  return {
    movers,
    at,
    refusal,
    all,
    drawing,
    asked,
    move: (mover, to) => {
      if (movers !== null) ask({ move: { mover, to } }, movers);
    },
    goTo: (positions) => {
      if (movers !== null) ask({ positions }, movers);
    },
  };
}
