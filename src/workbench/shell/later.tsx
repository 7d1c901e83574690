import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";
import { laterStyles } from "./later-styles.ts";

/**
 * A small piece of the page that comes once the page stands, such as a dialog behind a button; until then, and where it cannot be read, its place is empty.
 *
 * @param fetchPiece asked when the piece is first shown, and never again once it has come
 */
export function later<Props extends object>(fetchPiece: () => Promise<ComponentType<Props>>): ComponentType<Props> {
  let there: ComponentType<Props> | null = null;
  return function Later(props: Props) {
    const [, redraw] = useState(there !== null);
    useEffect(() => {
      if (there !== null) return;
      Promise.all([fetchPiece(), laterStyles()]).then(
        ([piece]) => {
          there = piece;
          redraw(true);
        },
        () => undefined, // the page works without it
      );
    }, []);
    const Piece = there;
    return Piece === null ? null : <Piece {...props} />;
  };
}
