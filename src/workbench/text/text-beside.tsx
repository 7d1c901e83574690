import type { Bench } from "../contract.ts";
import { TextPane } from "./text-pane.tsx";

/** The plan's text in a drawer at the left of the sheet, which gives way to it. */
export function TextBeside({ bench }: { readonly bench: Bench }) {
  return (
    <aside class="text-beside" aria-label="Text beside the sheet">
      <div class="text-beside-head">
        <h2>Text</h2>
        <button
          type="button"
          class="link"
          onClick={() => {
            bench.showText(false);
          }}
        >
          close
        </button>
      </div>
      <TextPane bench={bench} focus={false} />
    </aside>
  );
}
