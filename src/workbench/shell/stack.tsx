import type { Bench, ViewId } from "../contract.ts";
import { useBench } from "../use-bench.ts";
import "./stack.css";

/** Views of a plan with their keys, in the order in which they lie. A view that is not built is not here. */
export const stacked: readonly { readonly id: ViewId; readonly key: string; readonly name: string }[] = [
  { id: "one-line", key: "1", name: "One-line" },
  { id: "states", key: "5", name: "States" },
  { id: "schedules", key: "6", name: "Schedules" },
  { id: "faults", key: "V", name: "Faults" },
  { id: "findings", key: "0", name: "Findings" },
  { id: "why", key: "W", name: "Why" },
  { id: "text", key: "T", name: "Text" },
  { id: "wire-desk", key: "Q", name: "Wire desk" },
];

/** The sheets of the plan, one on top. */
export function Stack({ bench }: { readonly bench: Bench }) {
  const { view, plan } = useBench(bench);
  const open = plan === null ? 0 : plan.tally.must + plan.tally.should;
  const errors = plan?.diagnostics.filter(({ level }) => level === "error").length ?? 0;
  return (
    <nav class="stack" aria-label="Sheets">
      <span class="stack-head dim" aria-hidden="true">
        Sheets
      </span>
      <ul>
        {stacked.map(({ id, key, name }) => (
          <li key={id}>
            <button
              type="button"
              class="stack-sheet"
              aria-current={view === id ? "page" : undefined}
              onClick={() => {
                bench.go(id);
              }}
            >
              <span class="stack-key" aria-hidden="true">
                {key}
              </span>
              {name}
              {id === "text" && errors > 0 ? (
                <span class="stack-count">
                  {" "}
                  {errors}
                  <span class="unseen"> {errors === 1 ? "error" : "errors"}</span>
                </span>
              ) : null}
              {id === "findings" && open > 0 ? (
                <span class="stack-count">
                  {" "}
                  {open}
                  <span class="unseen"> open</span>
                </span>
              ) : null}
            </button>
          </li>
        ))}
      </ul>
    </nav>
  );
}
