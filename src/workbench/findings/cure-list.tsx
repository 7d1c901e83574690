import type { Cure, CureSearch } from "../../cure/index.ts";
import type { Bench, FindingKey } from "../contract.ts";
import { useBench } from "../use-bench.ts";
import { asSentence } from "./finding-words.ts";
import { changesOf, effectOf } from "./cure-words.ts";
import { NowThenTable } from "./now-then.tsx";

/** What came of looking for cures: each with now and then, to be seen in pencil and applied. */
export function CureList({
  bench,
  finding,
  search,
}: {
  readonly bench: Bench;
  readonly finding: FindingKey;
  readonly search: CureSearch;
}) {
  const { units } = useBench(bench);
  if (search.is !== "edits") return <p class="findings-none">{noCure(search, units)}</p>;
  return (
    <ol class="findings-cures" aria-label="cures, the least change first">
      {search.cures.map((cure, i) => (
        <CureItem key={cure.text} bench={bench} finding={finding} cure={cure} index={i} />
      ))}
    </ol>
  );
}

/** Why there is none, in words. */
export function noCure(
  search: Exclude<CureSearch, { readonly is: "edits" }>,
  units: Parameters<typeof asSentence>[1],
): string {
  const why = asSentence(search.why, units);
  if (search.is === "not searched") return why;
  const tried = search.is === "none" ? search.tried : 0;
  return `No cure was found: ${search.why}.${tried === 0 ? "" : ` ${tried} ${tried === 1 ? "change was" : "changes were"} tried${search.complete ? "" : ", then the search stopped"}.`}`;
}

/** Whether a cure is what stands in pencil now. */
export const isPencilled = (bench: Bench, cure: Cure): boolean => bench.state.pencil?.text === cure.text;

function CureItem({
  bench,
  finding,
  cure,
  index,
}: {
  readonly bench: Bench;
  readonly finding: FindingKey;
  readonly cure: Cure;
  readonly index: number;
}) {
  const { pencil, readOnly, units } = useBench(bench);
  const isIn = isPencilled(bench, cure);
  const compared = isIn ? (pencil?.comparison?.rows ?? []) : [];
  return (
    <li class={isIn ? "is-pencilled" : ""}>
      <p class="findings-cure">
        {asSentence(cure.says, units)}
        {isIn ? <span class="findings-pencil"> in pencil</span> : null}
      </p>
      <NowThenTable rows={changesOf(cure, compared, units)} label={cure.says} />
      <p class="dim">{effectOf(cure, finding, units)}</p>
      {readOnly ? null : (
        <div class="findings-deeds">
          {isIn ? (
            <>
              <button type="button" class="button main" onClick={bench.ink}>
                Apply cure
              </button>
              <button type="button" class="link" onClick={bench.rubOut}>
                Rub out
              </button>
            </>
          ) : (
            <button
              type="button"
              class="button"
              onClick={() => {
                void bench.pencilCure(finding, index);
              }}
            >
              See it in pencil<span class="unseen">: {cure.says}</span>
            </button>
          )}
        </div>
      )}
    </li>
  );
}
