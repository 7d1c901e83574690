import { useMemo, useState } from "preact/hooks";
import "./states.css";
import type { Bench } from "../contract.ts";
import { StatusShape, statusWords } from "../look/status-shape.tsx";
import { useBench } from "../use-bench.ts";
import { GroupList } from "./group-list.tsx";
import { MoversPanel } from "./movers-panel.tsx";
import { signsOf } from "./signs-of.ts";
import { StatePicture } from "./state-picture.tsx";
import { summaryOf, stepWords, titleOf } from "./state-words.ts";
import { TakersTable } from "./takers-table.tsx";
import { useStates } from "./use-states.ts";
import { WriteState } from "./write-state.tsx";

/** Every plug, source and switch of the alternating side to be set by a finger, with what is live then, from where, and what is dangerous in it. */
export function StatesView({ bench }: { readonly bench: Bench }) {
  const { plan, operatingState, pencil, units, broken } = useBench(bench);
  const [every, setEvery] = useState(true);
  const on = useMemo(
    () => (every || operatingState === null ? null : loadsOn(plan?.things ?? [], operatingState)),
    [every, operatingState, plan],
  );
  const { movers, at, refusal, all, drawing, asked, move, goTo } = useStates(bench, on);
  const signs = at === null ? [] : signsOf(at.facts, at.rests);
  const overloads = (at?.volts.sources ?? []).filter(({ load }) => load !== null && load > 1);
  const findings = (plan?.findings ?? []).filter(({ rule, waived }) => rule.startsWith("ac/") && waived === null);
  return (
    <section class="states" aria-labelledby="states-title">
      <header class="states-head">
        <h2 id="states-title">States of the alternating side</h2>
        <p class="dim">
          {all === null || all.untold !== null
            ? null
            : `${all.groups.length} that differ, of ${all.reached} positions. `}
          {pencil === null ? "" : "Of the plan in ink. "}
        </p>
      </header>
      <p class="states-caution">
        Work on alternating current can kill and may be reserved by law. A licensed person and the local code decide;
        this is no certificate.
      </p>
      {movers === null ? (
        <p class="dim">
          {broken ?? (asked ? "Nothing in this plan alternates: no shore inlet, generator or inverter." : "working …")}
        </p>
      ) : (
        <div class="states-desk">
          <MoversPanel movers={movers.movers} positions={at?.positions ?? {}} onMove={move} />
          <div class="states-holds">
            {at === null ? null : (
              <>
                <div class="states-now">
                  <h3>{titleOf(at.facts)}</h3>
                  <p>{summaryOf(at.facts)}</p>
                  {at.follows.length === 0 ? null : <p>Then {at.follows.map(stepWords).join(", then ")}.</p>}
                  {signs.length === 0 ? null : (
                    <p class="states-now-signs" aria-hidden="true">
                      {signs.map(({ status, title, says }) => (
                        <span key={says}>
                          <StatusShape status={status} size={14} /> {title}
                        </span>
                      ))}
                    </p>
                  )}
                  {refusal === null ? null : (
                    <p class="states-refused">
                      <StatusShape status="warn" label="not done" /> {refusal}
                    </p>
                  )}
                </div>
                <ul class="states-signs" aria-label="Dangers of this position">
                  {signs.map(({ status, title, says }) => (
                    <li key={`${title}${says}`}>
                      <StatusShape
                        status={status}
                        label={status === "fail" ? "danger" : status === "warn" ? "caution" : statusWords[status]}
                      />
                      <div>
                        <strong>{title}</strong>
                        <p>{says}</p>
                      </div>
                    </li>
                  ))}
                  {overloads.map(({ name, about, load }) => (
                    <li key={`over ${about}`}>
                      <StatusShape status="warn" label="caution" />
                      <div>
                        <strong>{name} overloaded</strong>
                        <p>
                          Its device trips or it shuts down: with {on === null ? "every load" : "these loads"} on it is
                          asked for {Math.round(100 * (load ?? 0))} % of what it may give.
                        </p>
                      </div>
                    </li>
                  ))}
                  {signs.length + overloads.length === 0 ? (
                    <li>
                      <span />
                      <p class="dim">
                        No danger is found in this position itself. Sizes, times and volts are judged elsewhere.
                      </p>
                    </li>
                  ) : null}
                </ul>
                <StatePicture drawing={drawing} title={titleOf(at.facts)} />
                <TakersTable at={at} units={units} />
                <p class="states-on">
                  <label>
                    Volts and amps with{" "}
                    <select
                      class="field"
                      value={every ? "every" : "state"}
                      onChange={(event) => {
                        setEvery(event.currentTarget.value === "every");
                      }}
                    >
                      <option value="every">every load on</option>
                      {operatingState === null ? null : <option value="state">the loads of {operatingState}</option>}
                    </select>
                  </label>
                </p>
                <WriteState bench={bench} written={at.written} />
              </>
            )}
          </div>
          <div class="states-list">
            <h3>All states that differ</h3>
            {all === null ? <p class="dim">working …</p> : <GroupList all={all} now={at?.group ?? null} onGo={goTo} />}
            {findings.length === 0 ? null : (
              <>
                <h3>What the rules say</h3>
                <ul class="states-rules">
                  {findings.map(({ rule, about, title, severity, outcome, state, positions }) => (
                    <li key={`${rule} ${about}`}>
                      <StatusShape
                        status={
                          outcome === "cannot tell"
                            ? "unknown"
                            : severity === "must"
                              ? "fail"
                              : severity === "should"
                                ? "warn"
                                : "note"
                        }
                        label={outcome === "cannot tell" ? "cannot tell" : severity}
                      />{" "}
                      <button
                        type="button"
                        class="link"
                        onClick={() => {
                          bench.go("findings");
                          bench.openNote({ rule, about });
                        }}
                      >
                        {title}: {about.replace(/^\w+\./, "")}
                        {state === null ? "" : `, ${state}`}
                      </button>
                      {positions === undefined ? null : (
                        <>
                          {" "}
                          <button
                            type="button"
                            class="link"
                            onClick={() => {
                              goTo(positions);
                            }}
                          >
                            Go there<span class="unseen">: {state}</span>
                          </button>
                        </>
                      )}
                    </li>
                  ))}
                </ul>
              </>
            )}
            {movers.interlocks.length === 0 ? null : (
              <>
                <h3>Interlocks</h3>
                <ul>
                  {movers.interlocks.map(({ name, never }) => (
                    <li key={name}>
                      {name}: never {never.join(" with ")}
                    </li>
                  ))}
                </ul>
              </>
            )}
          </div>
        </div>
      )}
    </section>
  );
}

const loadsOn = (
  things: readonly { readonly id: string; readonly what: string; readonly on: readonly string[] }[],
  state: string,
) => things.filter(({ what, on }) => what === "part" && on.includes(state)).map(({ id }) => id);
