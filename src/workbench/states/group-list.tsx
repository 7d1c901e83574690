import { StatusShape } from "../look/status-shape.tsx";
import type { Positions, StatesAnswer } from "../worker/position-answers.ts";
import { gravestOf, listed, signsOf } from "./signs-of.ts";
import { stepWords, titleOf } from "./state-words.ts";

/** Every state that differs, nearest first: pressed, the switches go there. */
export function GroupList({
  all,
  now,
  onGo,
}: {
  readonly all: StatesAnswer;
  /** Group that is shown. */
  readonly now: string | null;
  readonly onGo: (positions: Positions) => void;
}) {
  const { groups, untold, moments, never } = all;
  return (
    <>
      {untold === null ? null : <p>{untold}</p>}
      <ol class="states-groups">
        {groups.map(({ number, group, facts, rests, steps, positions, actions, undisconnected }) => {
          const signs = signsOf(facts, rests);
          const gravest = gravestOf(signs);
          return (
            <li key={number}>
              <button
                type="button"
                aria-current={group === now ? "true" : undefined}
                onClick={() => {
                  onGo(positions);
                }}
              >
                {gravest === null ? (
                  <span class="states-no-mark" />
                ) : (
                  <StatusShape
                    status={gravest}
                    label={gravest === "fail" ? "danger" : gravest === "warn" ? "caution" : gravest}
                  />
                )}
                <span>
                  <strong>{titleOf(facts)}</strong>
                  <small>
                    {steps.length === 0
                      ? "nothing is done"
                      : `${actions} ${actions === 1 ? "action" : "actions"}: ${steps.map(stepWords).join(" → ")}`}
                  </small>
                  {signs.length === 0 ? null : (
                    <small class="states-why">{[...new Set(signs.map(({ title }) => title))].join(" · ")}</small>
                  )}
                  {undisconnected === 0 ? null : <small>some lines no single switch kills</small>}
                </span>
              </button>
            </li>
          );
        })}
      </ol>
      {moments.length === 0 ? null : (
        <>
          <h3>While something moves</h3>
          <ul>
            {moments.map(({ mover, from, to, sources, certain }) => (
              <li key={`${mover} ${from} ${to} ${sources.join(" ")}`}>
                <StatusShape
                  status={certain ? "fail" : "unknown"}
                  label={certain ? "danger" : "cannot tell"}
                  size={14}
                />{" "}
                {mover} from {from} to {to}: {listed(sources)} {certain ? "meet" : "may meet"} for a moment
              </li>
            ))}
          </ul>
        </>
      )}
      {never.length === 0 ? null : (
        <p class="dim">Never come to: {listed(never.map(({ mover, position }) => `${mover} ${position}`))}.</p>
      )}
    </>
  );
}
