import { isVerified, printTrust } from "../../explain/trust.ts";
import type { Answer } from "../../size/answer.ts";
import type { QuestionField } from "../../size/question-text.ts";
import type { Units } from "../contract.ts";
import { inSentence } from "../look/print-in-units.ts";
import { blankOf, type Blank } from "./question-form.ts";

/** What the answer leans on: what was assumed, what has to be known, what was not looked at. */
export function RestsOn({
  answer,
  units,
  onBlank,
}: {
  readonly answer: Answer;
  readonly units: Units;
  /** To the blank that says otherwise. */
  readonly onBlank: (blank: Blank) => void;
}) {
  return (
    <>
      {answer.assumptions.length > 0 && (
        <section class="desk-section" aria-label="Assumed">
          <h3>Assumed</h3>
          <p class="dim">Common practice unless it says otherwise. Fill the blank to say your own.</p>
          <ul class="desk-list">
            {answer.assumptions.map(({ id, says, trust, pin }) => (
              <li key={id + says}>
                {inSentence(says, units)}
                {trust !== "practice" && !isVerified(trust) && <>, {printTrust(trust)}</>}
                <PinButton pin={pin} says={says} onBlank={onBlank} />
              </li>
            ))}
          </ul>
        </section>
      )}
      <section class="desk-section" aria-label="To know">
        <h3>To know</h3>
        <ul class="desk-list">
          {answer.notes.map((note) => (
            <li key={note}>{inSentence(note, units)}</li>
          ))}
        </ul>
      </section>
      <p class="desk-caution">
        Not looked at: what a short circuit does to the wire before its fuse opens, terminals and lugs, earth-fault
        loops, and where the fuse stands along the wire. Wiring can burn, shock and sink; this is no certificate. Local
        codes and a licensed electrician or surveyor decide. Isolate before working.
      </p>
    </>
  );
}

/** Fields that a question has; what an assumption names may also be a key of a plan. */
const pinned: Readonly<Partial<Record<string, QuestionField>>> = {
  volts: "volts",
  sourceVolts: "sourceVolts",
  drop: "drop",
  rules: "rules",
  stock: "stock",
  bundle: "bundle",
  metal: "metal",
  strands: "strands",
  insulation: "insulation",
  method: "method",
  terminals: "terminals",
  ambient: "ambient",
  startTime: "startTime",
  startsAbove: "startsAbove",
};

function PinButton({
  pin,
  says,
  onBlank,
}: {
  readonly pin: string;
  readonly says: string;
  readonly onBlank: (blank: Blank) => void;
}) {
  const field = Object.hasOwn(pinned, pin) ? pinned[pin] : undefined;
  const blank = field === undefined ? null : field === "bundle" ? "lying" : blankOf(field);
  if (blank === null) return null;
  return (
    <>
      {" "}
      <button
        type="button"
        class="link"
        aria-label={`say otherwise: ${says}`}
        onClick={() => {
          onBlank(blank);
        }}
      >
        say otherwise
      </button>
    </>
  );
}
