import { isVerified, printTrust } from "../../explain/trust.ts";
import { sourceText, workedText } from "../../why/explanation-page.ts";
import type { WayElement, WorkedSection, WorkedStep } from "../../why/explanation.ts";
import type { Units } from "../contract.ts";
import { inSentence, printNumber } from "../look/print-in-units.ts";

/** The working: every step with its numbers put in and where each comes from. */
export function Worked({ sections, units }: { readonly sections: readonly WorkedSection[]; readonly units: Units }) {
  if (sections.length === 0) return null;
  return (
    <section class="why-worked" aria-labelledby="why-worked-title">
      <h3 id="why-worked-title">Worked with its numbers</h3>
      {sections.map((section, i) => (
        <Section key={`${section.title} ${i}`} section={section} units={units} />
      ))}
    </section>
  );
}

function Section({ section, units }: { readonly section: WorkedSection; readonly units: Units }) {
  const { title, says, steps, way } = section;
  return (
    <section>
      <h4>{title}</h4>
      {says === "" ? null : <p class="dim">{inSentence(says, units)}</p>}
      {steps.length === 0 ? null : (
        <dl class="why-steps">
          {steps.map((step, i) => (
            <Step key={`${step.name} ${i}`} step={step} units={units} />
          ))}
        </dl>
      )}
      {way.length === 0 ? null : <Way way={way} title={title} units={units} />}
    </section>
  );
}

function Step({ step, units }: { readonly step: WorkedStep; readonly units: Units }) {
  const source = sourceText(step);
  const isUnsure = step.trust !== null && !isVerified(step.trust);
  return (
    <div>
      <dt>{step.name}</dt>
      <dd>
        {step.equation === "" ? null : <span class="why-equation">{step.equation} </span>}
        <Sum step={step} units={units} />
        {source === "" ? null : (
          <span class={`why-from${isUnsure ? " is-unsure" : ""}`}>
            {source}
            {step.trust !== null && !isUnsure && step.table !== null ? `, ${printTrust(step.trust)}` : ""}
          </span>
        )}
      </dd>
    </div>
  );
}

/** The numbers, and what they come to in heavy type. */
function Sum({ step, units }: { readonly step: WorkedStep; readonly units: Units }) {
  const text = inSentence(workedText(step), units);
  const result = inSentence(step.text, units);
  const at = text.lastIndexOf(result);
  if (at < 0) return <>{text}</>;
  return (
    <>
      {text.slice(0, at)}
      <b>{result}</b>
      {text.slice(at + result.length)}
    </>
  );
}

function Way({
  way,
  title,
  units,
}: {
  readonly way: readonly WayElement[];
  readonly title: string;
  readonly units: Units;
}) {
  return (
    <details>
      <summary>Every element on the way: {way.length}</summary>
      <div class="why-scroll" tabIndex={0} role="group" aria-label={`${title}, element by element`}>
        <table class="why-table">
          <thead>
            <tr>
              <th scope="col">element</th>
              <th scope="col">what</th>
              <th scope="col">way</th>
              <th scope="col" class="num">
                current, A
              </th>
              <th scope="col" class="num">
                resistance, mΩ
              </th>
              <th scope="col" class="num">
                lost, V
              </th>
            </tr>
          </thead>
          <tbody>
            {way.map((e, i) => (
              <tr key={i}>
                <th scope="row">{e.element}</th>
                <td>{e.what}</td>
                <td>{e.pole}</td>
                <td class="num">{printNumber(e.amps, { figures: 4 }, units)}</td>
                <td class="num">{printNumber(1000 * e.ohms, { decimals: 3 }, units)}</td>
                <td class="num">{printNumber(e.volts, { decimals: 4 }, units)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
