import { useEffect, useRef } from "preact/hooks";
import { labelContexts, type LabelContext } from "../../../wire/label/label-reading.ts";
import type { NamedLabel } from "../question-link.ts";

/** Labels to begin with: two that mean one thing, three that have to be asked. */
const samples = ["3G2.5", "12/3", "2/0", "14-2 NM-B", "6 mm auto cable"] as const;

/** More than any label has; what is pasted is cut and then refused as too long. */
const LONGEST = 300;

/** The field in which a name is typed or pasted, and where it was met. */
export function NameField({
  label,
  focused,
  wrong,
  onChange,
  onEnter,
}: {
  readonly label: NamedLabel;
  /** Somebody came here to ask for a name. */
  readonly focused: boolean;
  /** The name was refused: what says so. */
  readonly wrong: string | null;
  readonly onChange: (label: NamedLabel) => void;
  readonly onEnter: () => void;
}) {
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (!focused) return;
    field.current?.focus();
    field.current?.scrollIntoView({ block: "nearest" });
  }, [focused]);
  return (
    <div class="name-ask">
      <div class="name-line">
        <input
          ref={field}
          id="name-text"
          class="field name-text"
          type="text"
          value={label.text}
          aria-label="What does this name mean?"
          aria-describedby={wrong === null ? "name-hint" : `${wrong} name-hint`}
          aria-invalid={wrong !== null}
          placeholder="as printed, ordered or drawn"
          maxLength={LONGEST}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          onInput={(event) => {
            onChange({ ...label, text: event.currentTarget.value });
          }}
          onKeyDown={(event) => {
            if (event.key !== "Enter" || event.isComposing) return;
            // The same key must not press the button that it goes to.
            event.preventDefault();
            onEnter();
          }}
        />
        {label.text !== "" && (
          <button
            type="button"
            class="button"
            aria-label="Empty the field"
            onClick={() => {
              onChange({ ...label, text: "" });
              field.current?.focus();
            }}
          >
            ×
          </button>
        )}
      </div>
      <Contexts
        context={label.context}
        onPick={(context) => {
          onChange({ ...label, context });
        }}
      />
      <p id="name-hint" class="name-samples">
        <span class="dim">A label, an order line or a note on a drawing. Try</span>
        {samples.map((text) => (
          <button
            key={text}
            type="button"
            class="link name-code"
            onClick={() => {
              onChange({ ...label, text });
            }}
          >
            {text}
          </button>
        ))}
      </p>
    </div>
  );
}

/** Where the label was met: it decides between readings, and the reading says that it did. */
function Contexts({
  context,
  onPick,
}: {
  readonly context: LabelContext | null;
  readonly onPick: (context: LabelContext | null) => void;
}) {
  return (
    <fieldset class="name-contexts">
      <legend>Met on</legend>
      {([null, ...labelContexts] as const).map((one) => (
        <label key={one} class="name-context">
          <input
            type="radio"
            name="name-context"
            checked={one === context}
            onChange={() => {
              onPick(one);
            }}
          />
          <span>{contextWords(one)}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** A context as the page calls it. */
export const contextWords = (context: LabelContext | null): string =>
  context === null
    ? "not said"
    : context === "order"
      ? "an order"
      : context === "metric"
        ? "metric wire"
        : `a ${context}`;
