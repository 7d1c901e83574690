import type { Units } from "../contract.ts";
import { printFigures } from "../look/figures.ts";
import type { StateAtAnswer } from "../worker/position-answers.ts";
import { earthWords, guardWords, takerWords } from "./state-words.ts";

/** Loads and chargers with how they are fed, and the sources with what they give. */
export function TakersTable({ at, units }: { readonly at: StateAtAnswer; readonly units: Units }) {
  const { facts, volts } = at;
  const figures = printFigures(units.decimal);
  const figuresOf = (about: string): string =>
    volts.loads
      .filter((load) => load.about === about)
      .map(({ volts: v, amps }) =>
        [v === null ? null : figures.volts(v), amps === null ? null : figures.amps(amps)]
          .filter((f) => f !== null)
          .join(", "),
      )
      .join(" + ");
  const missing = [...new Set(volts.loads.flatMap(({ cannotTell }) => cannotTell))];
  return (
    <>
      <div class="states-scroll" role="region" aria-label="Loads and chargers" tabIndex={0}>
        <table class="states-table">
          <thead>
            <tr>
              <th scope="col">load</th>
              <th scope="col">how it is fed</th>
              <th scope="col">protective conductor</th>
              <th scope="col">residual device</th>
              <th scope="col">volts, amps</th>
            </tr>
          </thead>
          <tbody>
            {facts.takers.map((taker) => (
              <tr key={`${taker.about} ${taker.name} ${taker.kind}`} class={taker.state === "dead" ? "is-dead" : ""}>
                <th scope="row">
                  {taker.name}
                  {taker.kind === "charger" ? <small class="dim"> charger</small> : null}
                </th>
                <td>{takerWords(taker)}</td>
                <td data-head="protective conductor">{earthWords(taker)}</td>
                <td data-head="residual device">{guardWords(taker)}</td>
                <td data-head="volts, amps">{figuresOf(taker.about) || "–"}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <ul class="states-sources" aria-label="Sources">
        {volts.sources.map(({ name, about, volts: v, amps, va, load }) => (
          <li key={`${about} ${name}`}>
            <strong>{name}</strong>{" "}
            {[
              ...(v === null ? [] : [figures.volts(v)]),
              figures.amps(amps),
              `${figures.plain(va / 1000, 2)} kVA`,
              ...(load === null ? [] : [`${Math.round(100 * load)} % of what it may give`]),
            ].join(", ")}
          </li>
        ))}
      </ul>
      {missing.length === 0 ? null : <p class="dim">Some volts cannot be told: {missing.join("; ")}.</p>}
      {volts.untold === null ? null : <p class="dim">{volts.untold}</p>}
    </>
  );
}
