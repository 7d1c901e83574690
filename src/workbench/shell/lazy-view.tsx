import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { laterStyles } from "./later-styles.ts";

type View = ComponentType<{ readonly bench: Bench }>;

/**
 * A view whose code comes when it is first wanted; until then its place is empty. What was fetched once is there at once.
 *
 * @returns the view, and what fetches it ahead
 */
export function lazyView(fetchView: () => Promise<View>): { readonly View: View; readonly ahead: () => Promise<void> } {
  let there: View | null = null;
  const ahead = async (): Promise<void> => {
    if (there !== null) return;
    const [view] = await Promise.all([fetchView(), laterStyles()]);
    there = view;
  };
  function Lazy({ bench }: { readonly bench: Bench }) {
    const [, redraw] = useState(there !== null);
    const [lost, setLost] = useState(false);
    useEffect(() => {
      if (there !== null) return;
      ahead().then(
        () => {
          redraw(true);
        },
        () => {
          setLost(true);
        },
      );
    }, []);
    if (there !== null) return <AtHand View={there} bench={bench} />;
    return (
      <main aria-busy={!lost}>
        {lost ? <p>This part of the page could not be read. Load the page again.</p> : null}
      </main>
    );
  }
  return { View: Lazy, ahead };
}

const AtHand = ({ View, bench }: { readonly View: View; readonly bench: Bench }) => <View bench={bench} />;
