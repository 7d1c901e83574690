import { useEffect, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { useBench } from "../use-bench.ts";

/** Said at most so often, ms; and only when typing has rested. */
const REST_MS = 600;

/** What happened, for whoever cannot see it. */
export function LiveRegion({ bench }: { readonly bench: Bench }) {
  const { said } = useBench(bench);
  const [polite, setPolite] = useState("");
  useEffect(() => {
    if (said.level === "assertive") return;
    const timer = setTimeout(() => {
      setPolite(said.text);
    }, REST_MS);
    return () => {
      clearTimeout(timer);
    };
  }, [said.count]);
  return (
    <>
      <div class="unseen" role="status" aria-live="polite">
        {polite}
      </div>
      <div class="unseen" role="alert" aria-live="assertive">
        {said.level === "assertive" ? said.text : ""}
      </div>
    </>
  );
}
