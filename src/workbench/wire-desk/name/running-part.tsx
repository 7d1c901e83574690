import { isVerified, printTrust } from "../../../explain/trust.ts";
import type { Running } from "../../../act/wire-card/index.ts";
import type { Units } from "../../contract.ts";
import {
  inSentence,
  printAmps,
  printLength,
  printNumber,
  printShare,
  printTemperature,
  printVolts,
} from "../../look/print-in-units.ts";

/** Resistance cold and at the rating, and what is lost at a current. */
export function RunningPart({
  running,
  units,
  amps,
  onAmps,
}: {
  readonly running: Running;
  readonly units: Units;
  readonly amps: string;
  readonly onAmps: (typed: string) => void;
}) {
  const { at20, atRating, ratingC, trust, source, notes, drop, ampsProblem } = running;
  return (
    <section class="name-part" aria-label="Resistance and drop">
      <h3>Resistance and drop</h3>
      <dl class="desk-rows">
        {(
          [
            [20, at20],
            [ratingC, atRating],
          ] as const
        ).map(([celsius, ohms]) => (
          <div key={celsius} class="desk-row">
            <dt>at {printTemperature(celsius, units)}</dt>
            <dd>{perLength(ohms, units)}</dd>
          </div>
        ))}
        <div class="desk-row">
          <dt>over {printLength(10, units)}</dt>
          <dd>
            <label>
              at{" "}
              <input
                class={`blank desk-blank${ampsProblem === null ? "" : " desk-wrong"}`}
                type="text"
                size={6}
                maxLength={40}
                value={amps}
                placeholder="10 A"
                aria-label="current for the drop, in amperes"
                aria-invalid={ampsProblem !== null}
                {...(ampsProblem === null ? {} : { "aria-describedby": "name-amps-problem" })}
                autocomplete="off"
                onInput={(event) => {
                  onAmps(event.currentTarget.value);
                }}
              />
            </label>{" "}
            {drop !== null && (
              <>
                loses <b>{printVolts(drop.volts, units)}</b> out and back, {printShare(drop.shareOf12, units)} of 12 V,
                with the metal at {printTemperature(ratingC, units)}
                <span class="unseen"> at {printAmps(drop.amps, units)}</span>
              </>
            )}
            {ampsProblem !== null && (
              <span id="name-amps-problem" class="name-under">
                {ampsProblem}
              </span>
            )}
          </dd>
        </div>
      </dl>
      <p class="dim">
        {source}
        {!isVerified(trust) && <span class="desk-trust"> ({printTrust(trust)})</span>}
        {notes.map((note) => `; ${inSentence(note, units)}`).join("")}. One conductor, direct current, no joints.
      </p>
    </section>
  );
}

/** Metres in a thousand feet. */
const KFT = 304.8;

function perLength(ohmsPerMetre: number, units: Units): string {
  const metric = `${printNumber(1000 * ohmsPerMetre, { figures: 3 }, units)} mΩ/m`;
  return units.lengths === "m"
    ? metric
    : `${metric}, ${printNumber(KFT * ohmsPerMetre, { figures: 3 }, units)} Ω/1000 ft`;
}
