import type { Bench } from "../contract.ts";
import { TextPane } from "./text-pane.tsx";

/** The plan as a text, in place of the sheet. */
export function TextView({ bench }: { readonly bench: Bench }) {
  return (
    <main class="text-view" aria-label="Text of the plan">
      <TextPane bench={bench} focus={true} />
    </main>
  );
}
