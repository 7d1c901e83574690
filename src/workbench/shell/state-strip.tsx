import { useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { printFigures } from "../look/figures.ts";
import type { PageState } from "../worker/protocol.ts";
import { useBench } from "../use-bench.ts";
import "./state-strip.css";

/** Which operating state every figure belongs to, what is tried on it, and what it comes to. */
export function StateStrip({ bench, folded }: { readonly bench: Bench; readonly folded: boolean }) {
  const [unfolded, setUnfolded] = useState(false);
  const { plan, operatingState, whatIfCharge, pencil, units } = useBench(bench);
  const states = plan?.states ?? [];
  const shown = pencil?.is === "what-if" && pencil.plan !== null ? pencil.plan.states : states;
  const state = shown.find(({ id }) => id === operatingState) ?? null;
  const own = states.find(({ id }) => id === operatingState)?.charge ?? null;
  return (
    <nav class={`strip${folded && !unfolded ? " strip-folded" : ""}`} aria-label="Operating state">
      {folded ? (
        <div class="strip-fold">
          <strong>{state?.name ?? "at rest"}</strong>
          {own === null ? null : (
            <span class={whatIfCharge === null ? "dim" : "in-pencil"}>
              battery {Math.round(100 * (whatIfCharge ?? own))} %
            </span>
          )}
          <button
            type="button"
            class="link"
            aria-expanded={unfolded}
            onClick={() => {
              setUnfolded(!unfolded);
            }}
          >
            {unfolded ? "fold" : "change"}
          </button>
        </div>
      ) : (
        <span class="strip-head dim" aria-hidden="true">
          Operating state
        </span>
      )}
      {states.length === 0 ? (
        <p class="dim">The plan names no state: figures are of the worst case.</p>
      ) : (
        <div class="strip-states" role="radiogroup" aria-label="Operating state">
          {[...states.map(({ id, name }) => ({ id, name })), { id: null, name: "at rest" }].map(({ id, name }) => (
            <button
              key={id ?? ""}
              type="button"
              role="radio"
              class="strip-state"
              aria-checked={id === operatingState}
              tabIndex={id === operatingState ? 0 : -1}
              onClick={() => {
                bench.setState(id);
              }}
              onKeyDown={(event) => {
                moveChoice(event);
              }}
            >
              {name}
            </button>
          ))}
        </div>
      )}
      {state === null || own === null ? null : (
        <div class="strip-what-if" role="group" aria-label="What if">
          <label>
            <span class="strip-long">What if: </span>battery{" "}
            <strong class={whatIfCharge === null ? "" : "in-pencil"}>
              {Math.round(100 * (whatIfCharge ?? own))} %
            </strong>{" "}
            <input
              type="range"
              min="0"
              max="100"
              value={Math.round(100 * (whatIfCharge ?? own))}
              aria-valuetext={`${Math.round(100 * (whatIfCharge ?? own))} percent${whatIfCharge === null ? "" : ", in pencil"}`}
              onInput={(event) => {
                bench.setWhatIfCharge(Number(event.currentTarget.value) / 100);
              }}
            />
          </label>
          {whatIfCharge === null ? null : (
            <button
              type="button"
              class="link"
              onClick={() => {
                bench.setWhatIfCharge(null);
              }}
            >
              back to {Math.round(100 * own)} %
            </button>
          )}
        </div>
      )}
      {state === null ? null : <StateFigures state={state} decimal={units.decimal} pencilled={whatIfCharge !== null} />}
    </nav>
  );
}

function StateFigures({
  state,
  decimal,
  pencilled,
}: {
  readonly state: PageState;
  readonly decimal: "." | ",";
  readonly pencilled: boolean;
}) {
  const { bankA, bankV, hours, downTo } = state;
  const figures = printFigures(decimal);
  const parts = [
    bankA === null
      ? "this state has no solution"
      : bankA < 0
        ? `${figures.amps(-bankA)} into the bank`
        : `${figures.amps(bankA)} out of the bank`,
    ...(bankV === null ? [] : [`bank ${figures.volts(bankV)}`]),
    ...(hours === null || downTo === null
      ? []
      : hours < 0.05
        ? [`at its lowest charge, ${Math.round(100 * downTo)} %`]
        : [`${figures.hours(hours)} down to ${Math.round(100 * downTo)} %`]),
  ];
  return (
    <p
      class={`strip-answer${pencilled ? " in-pencil" : ""}`}
      title="Hours at this current as it stands; a bank gives less when it is cold, old or emptied fast."
    >
      {pencilled ? <span class="unseen">in pencil: </span> : null}
      {parts.join(" · ")}
    </p>
  );
}

/** Arrows walk through a group of choices and take what they come to. */
function moveChoice(event: KeyboardEvent & { readonly currentTarget: HTMLElement }): void {
  const by =
    event.key === "ArrowRight" || event.key === "ArrowDown"
      ? 1
      : event.key === "ArrowLeft" || event.key === "ArrowUp"
        ? -1
        : 0;
  if (by === 0) return;
  const all = [...(event.currentTarget.parentElement?.querySelectorAll<HTMLElement>('[role="radio"]') ?? [])];
  const next = all[(all.indexOf(event.currentTarget) + by + all.length) % all.length];
  event.preventDefault();
  event.stopPropagation();
  next?.focus();
  next?.click();
}
