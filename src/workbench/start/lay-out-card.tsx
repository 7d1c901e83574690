import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { Card } from "./card.tsx";

type Questions = ComponentType<{ readonly bench: Bench }>;

/** What was fetched once is there at once. */
let there: Questions | null = null;

/** The third way in. Its questions come as soon as the page stands, and are no part of what it waits for. */
export function LayOutCard({ bench }: { readonly bench: Bench }) {
  const [, redraw] = useState(there !== null);
  const [lost, setLost] = useState(false);
  useEffect(() => {
    if (there !== null) return;
    import("./lay-out-own.tsx").then(
      ({ LayOutOwn }) => {
        there = LayOutOwn;
        redraw(true);
      },
      () => {
        setLost(true);
      },
    );
  }, []);
  const Asked = there;
  return (
    <Card number={3} title="Lay out your own" says="Six plain questions, then a first checked circuit.">
      {Asked !== null ? (
        <Asked bench={bench} />
      ) : lost ? (
        <p role="alert">The questions could not be read. Load the page again.</p>
      ) : (
        <div class="start-question" aria-busy="true" />
      )}
    </Card>
  );
}
