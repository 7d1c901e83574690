import { isVerified, printTrust } from "../../../explain/trust.ts";
import type { Carried } from "../../../act/wire-card/index.ts";
import type { Units } from "../../contract.ts";
import { inSentence, printAmps, printTemperature } from "../../look/print-in-units.ts";

/** Ratings that insulation is made for, °C. */
const ratings = [60, 70, 75, 80, 85, 90, 105, 125, 150] as const;

/** What the wire carries under each rule set, in each way it may lie. */
export function CarriedTable({
  carried,
  units,
  onInsulation,
}: {
  readonly carried: Carried;
  readonly units: Units;
  readonly onInsulation: (celsius: number) => void;
}) {
  const { ruleSets, insulationC, isAssumed, labelC, loaded, counts } = carried;
  const told = ruleSets.filter(({ cannotTell }) => cannotTell === null);
  const untold = ruleSets.filter(({ cannotTell }) => cannotTell !== null);
  return (
    <section class="name-part" aria-label="What it carries">
      <h3>What it carries</h3>
      <p>
        {isAssumed ? (
          <label>
            Insulation is not stated: taken as{" "}
            <select
              class="blank desk-blank desk-word"
              value={String(insulationC)}
              onChange={(event) => {
                onInsulation(Number(event.currentTarget.value));
              }}
            >
              {ratings.map((c) => (
                <option key={c} value={String(c)}>
                  {printTemperature(c, units)}
                </option>
              ))}
            </select>
          </label>
        ) : (
          <>
            Insulation as the label says: {printTemperature(labelC ?? insulationC, units)}
            {labelC !== null && `, and the code rates such cable at ${printTemperature(insulationC, units)}`}.
          </>
        )}{" "}
        <span class="dim">
          Air {printTemperature(30, units)}, engine space as each rule set takes it; {counts}.
        </span>
      </p>
      <table class="name-table">
        <thead>
          <tr>
            <th scope="col">rule set</th>
            {(told[0]?.lying ?? []).map(({ lies, isOfCable }) => (
              <th key={lies} scope="col" class="num">
                {lies}
                {isOfCable && <span class="name-under">this cable</span>}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {told.map(({ title, edition, lying, source }) => (
            <tr key={title}>
              <th scope="row">
                {title} <span class="dim">{edition}</span>
                {source !== null && <span class="name-under dim">{source}</span>}
              </th>
              {lying.map(({ lies, isOfCable, amps, refused, trust }) => (
                <td key={lies} class="num" data-head={isOfCable ? `${lies} (this cable)` : lies}>
                  {amps === null ? (
                    "none"
                  ) : isOfCable || loaded === 1 ? (
                    <b>{printAmps(amps, units)}</b>
                  ) : (
                    printAmps(amps, units)
                  )}
                  {refused !== null && <span class="name-under dim">see below</span>}
                  {!isVerified(trust) && <span class="name-under desk-trust">{printTrust(trust)}</span>}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {refusals(told).map((text) => (
        <p key={text}>{inSentence(text, units)}</p>
      ))}
      {told.some(({ notes }) => notes.length > 0) && (
        <details class="name-more">
          <summary>What these figures rest on</summary>
          <ul class="desk-list">
            {told
              .flatMap(({ title, notes }) => notes.map((note) => `${title}: ${note}`))
              .map((text) => (
                <li key={text}>{inSentence(text, units)}</li>
              ))}
          </ul>
        </details>
      )}
      {untold.length > 0 && (
        <details class="name-more">
          <summary>
            Cannot tell under {untold.length} other rule {untold.length === 1 ? "set" : "sets"}
          </summary>
          <ul class="desk-list">
            {untold.map(({ title, edition, cannotTell }) => (
              <li key={title}>
                {title} <span class="dim">{edition}</span>: {inSentence(cannotTell ?? "", units)}
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

/** Why a rule set lets it carry nothing: told in the open, for it is no matter of the size. */
const refusals = (told: Carried["ruleSets"]): readonly string[] => [
  ...new Set(
    told.flatMap(({ title, lying }) =>
      lying.flatMap(({ lies, refused }) => (refused === null ? [] : [`${title}, ${lies}: none, for ${refused}.`])),
    ),
  ),
];
