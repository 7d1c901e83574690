import { useState } from "preact/hooks";
import type { Units } from "../contract.ts";
import { printTemperature } from "../look/print-in-units.ts";
import { OutcomeMark, outcomeMeans } from "../look/outcome-mark.tsx";
import type { CircuitFaultsAnswer, FaultCase, FaultPlace, Sight } from "../worker/fault-answers.ts";
import { endsWords, opensWords, printFault, printFaultRange, someOf } from "./fault-words.ts";

/** What happens at a short of one circuit: how much flows, who sees it from where, when that opens, what goes dark. */
export function CircuitPanel({ own, units }: { readonly own: CircuitFaultsAnswer; readonly units: Units }) {
  // The far end first: there the least flows.
  const [chosen, setChosen] = useState<number | null>(null);
  const far = own.places.findIndex(({ end, to }) => end === "to" && to === "return");
  const at = chosen !== null && chosen < own.places.length ? chosen : Math.max(0, far);
  const place = own.places[at];
  if (place === undefined) return <p class="dim">No source of direct current reaches this circuit.</p>;
  return (
    <>
      <fieldset class="faults-places">
        <legend class="dim">A short of</legend>
        {own.places.map((one, i) => (
          <label key={i}>
            <input
              type="radio"
              name="fault-place"
              checked={i === at}
              onChange={() => {
                setChosen(i);
              }}
            />
            {placeWords(one)}
          </label>
        ))}
      </fieldset>
      <Cases place={place} units={units} />
      <Sees place={place} units={units} />
      <dl class="faults-dark">
        <dt>Goes dark</dt>
        <dd>{place.dark.length === 0 ? "no load" : place.dark.join(", ")}</dd>
        {place.mayOpen.length === 0 ? null : (
          <>
            <dt>May open with it</dt>
            <dd>
              {place.mayOpen.join(", ")}
              {place.mayBeDark.length === 0
                ? "; no load more goes dark"
                : `; then ${someOf(place.mayBeDark, 12)} ${place.mayBeDark.length === 1 ? "goes" : "go"} dark too`}
            </dd>
          </>
        )}
        <Heat own={own} units={units} />
      </dl>
    </>
  );
}

const placeWords = ({ conductor, terminal, end, to }: FaultPlace): string =>
  `${conductor} at its ${end === "from" ? "start" : "end"}, ${terminal}${to === "structure" ? ", to the structure" : ""}`;

/** Greatest and least current of it, and how each ends. */
function Cases({ place, units }: { readonly place: FaultPlace; readonly units: Units }) {
  const cases = [
    ["Most", place.greatest, "every source, full and warm, wires cold"],
    ["Least", place.least, leastWords(place.least)],
  ] as const;
  return (
    <dl class="faults-cases">
      {cases.map(([name, one, says]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>
            <b>{one === null ? "–" : printFaultRange(one.amps, units)}</b>
            {one === null ? null : (
              <span class="faults-ends">
                <OutcomeMark outcome={one.outcome} /> {endsWords(one.outcome, one.seconds, units)}
              </span>
            )}
            <small class="dim">
              {one === null ? (place.cannotTell ?? "no battery reaches it") : says}
              {one === null || one.outcome === "cleared" ? "" : `. ${asSentence(outcomeMeans[one.outcome])}`}
              {one === null || one.left.length === 0
                ? ""
                : `. Goes on feeding it: ${someOf(
                    one.left.map(({ part, amps }) => `${part} ${printFault(amps, units)}`),
                    3,
                  )}`}
            </small>
          </dd>
        </div>
      ))}
    </dl>
  );
}

const asSentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const leastWords = (one: FaultCase | null): string =>
  one === null
    ? ""
    : [
        `${one.sources.join(", ")} alone, empty, cold and aged, wires hot`,
        one.state === null ? "" : `, ${one.state}`,
        one.mayOpenItself ? "; its management may open first" : "",
      ].join("");

/** Who sees it. What carries it within its rating stands in one line. */
function Sees({ place, units }: { readonly place: FaultPlace; readonly units: Units }) {
  const [most, least] = [place.greatest?.sees ?? [], place.least?.sees ?? []];
  const rows = [...new Set([...most, ...least].map(({ name }) => name))].map((name) => ({
    name,
    most: most.find((s) => s.name === name),
    least: least.find((s) => s.name === name),
  }));
  const isIdle = (s: Sight | undefined): boolean => s === undefined || s.why === "within its rating";
  const shown = rows.filter((row) => !isIdle(row.most) || !isIdle(row.least));
  const idle = rows.filter((row) => isIdle(row.most) && isIdle(row.least));
  if (rows.length === 0) return <p class="dim">No device sees it.</p>;
  return (
    <>
      {shown.length === 0 ? null : (
        <table class="faults-sees" aria-label="who sees it">
          <thead>
            <tr>
              <th scope="col">seen by</th>
              <th scope="col">at most</th>
              <th scope="col">at least</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((row) => {
              const seen = row.most ?? row.least;
              return (
                <tr key={row.name}>
                  <th scope="row">
                    {row.name}
                    <small class="dim">
                      {seen?.what}, from {seen?.from}
                    </small>
                  </th>
                  <SightCell sight={row.most} units={units} />
                  <SightCell sight={row.least} units={units} />
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
      {idle.length === 0 ? null : (
        <p class="dim">
          Within {idle.length === 1 ? "its rating" : "their ratings"}: {idle.map(({ name }) => name).join(", ")}.
        </p>
      )}
    </>
  );
}

const SightCell = ({ sight, units }: { readonly sight: Sight | undefined; readonly units: Units }) => (
  <td>
    {sight === undefined ? (
      "–"
    ) : (
      <>
        {printFault(sight.amps, units)}
        <small class="dim">{opensWords(sight, units)}</small>
      </>
    )}
  </td>
);

function Heat({ own: { heat }, units }: { readonly own: CircuitFaultsAnswer; readonly units: Units }) {
  if (heat === null) return null;
  const { worst, ratingC, together } = heat;
  const at = worst ?? heat.atDesign;
  const [low, high] = [printTemperature(at.lowC, units), printTemperature(at.highC, units)];
  return (
    <>
      <dt>Metal gets</dt>
      <dd>
        {low === high ? high : `${low} to ${high}`}{" "}
        {worst === null ? "at its design current" : `in the state ${worst.state}`}, among {together} that carry current
        together; its insulation bears {printTemperature(ratingC, units)}
      </dd>
    </>
  );
}
