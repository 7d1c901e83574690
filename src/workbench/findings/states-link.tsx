import type { Finding } from "../../rules/index.ts";
import type { Bench } from "../contract.ts";
import { openPlaces } from "../states/place.ts";

/** To the position of all switches, plugs and sources in which a finding holds; nothing where none matters. */
export function StatesLink({ bench, finding }: { readonly bench: Bench; readonly finding: Finding }) {
  const { positions, state } = finding;
  if (positions === undefined) return null;
  return (
    <button
      type="button"
      class="link"
      onClick={() => {
        openPlaces(bench, positions);
      }}
    >
      See it in States<span class="unseen">: {state}</span>
    </button>
  );
}
