import { useEffect, useId, useState } from "preact/hooks";
import type { Bench, Units } from "../contract.ts";
import { useBench } from "../use-bench.ts";
import { Dialog } from "./dialog.tsx";
import { useOrder } from "./use-order.ts";
import { keepSettings, readSettings, showSettings, choices, type Settings } from "./settings.ts";

/** How figures are printed, in three words: `m · mm² and AWG · 1.5`. */
export const unitsSay = ({ lengths, sizes, decimal }: Units): string =>
  `${lengths === "m" ? "m" : "ft in"} · ${sizes === "both" ? "mm² and AWG" : sizes} · 1${decimal}5`;

/** Units, look and reading aloud: a button that says the units, and a dialog behind it. */
export function UnitsMenu({ bench }: { readonly bench: Bench }) {
  const { units } = useBench(bench);
  const [open, setOpen] = useState(false);
  const [settings, setSettings] = useState<Settings>(readSettings);
  const [kept, setKept] = useState(true);

  // What was chosen on an earlier visit holds from the first moment on.
  useEffect(() => {
    const known = readSettings();
    showSettings(known);
    bench.setUnits(known.units);
  }, [bench]);

  useOrder("units", () => {
    setOpen(true);
  });

  const change = (next: Settings): void => {
    setSettings(next);
    setKept(keepSettings(next));
    showSettings(next);
    bench.setUnits(next.units);
  };

  return (
    <>
      <button
        type="button"
        class="link settings-open"
        aria-haspopup="dialog"
        onClick={() => {
          setSettings({ ...readSettings(), units });
          setOpen(true);
        }}
      >
        <span class="unseen">Units and look: </span>
        {unitsSay(units)}
      </button>
      {open && (
        <Dialog
          title="Units and look"
          onClose={() => {
            setOpen(false);
          }}
        >
          <Fields settings={settings} onChange={change} />
          <p class="dim">
            Figures are printed anew, never worked out anew, and the plan keeps what you typed. Comma and point are both
            read.
          </p>
          {!kept && <p>This browser keeps nothing between visits: these hold until the page is closed.</p>}
        </Dialog>
      )}
    </>
  );
}

function Fields({
  settings,
  onChange,
}: {
  readonly settings: Settings;
  readonly onChange: (settings: Settings) => void;
}) {
  const { units } = settings;
  const setUnit = (change: Partial<Units>): void => {
    onChange({ ...settings, units: { ...units, ...change } });
  };
  return (
    <div class="settings-fields">
      <Choice
        name="Lengths"
        all={choices.lengths}
        says={{ m: "metres", ft: "feet and inches" }}
        value={units.lengths}
        onPick={(lengths) => {
          setUnit({ lengths });
        }}
      />
      <Choice
        name="Wire sizes"
        all={choices.sizes}
        says={{ "mm²": "mm²", AWG: "AWG", both: "both" }}
        value={units.sizes}
        onPick={(sizes) => {
          setUnit({ sizes });
        }}
      />
      <Choice
        name="Temperatures"
        all={choices.temperatures}
        says={{ "°C": "°C", "°F": "°F" }}
        value={units.temperatures}
        onPick={(temperatures) => {
          setUnit({ temperatures });
        }}
      />
      <Choice
        name="Decimal mark"
        all={choices.decimal}
        says={{ ".": "1.5", ",": "1,5" }}
        value={units.decimal}
        onPick={(decimal) => {
          setUnit({ decimal });
        }}
      />
      <Choice
        name="Theme"
        all={choices.theme}
        says={{ system: "as the system", light: "light", dark: "dark" }}
        value={settings.theme}
        onPick={(theme) => {
          onChange({ ...settings, theme });
        }}
      />
      <Choice
        name="Contrast"
        all={choices.contrast}
        says={{ usual: "usual", more: "ink and shapes only" }}
        value={settings.contrast}
        onPick={(contrast) => {
          onChange({ ...settings, contrast });
        }}
      />
      <Choice
        name="Single-letter keys"
        all={["on", "off"]}
        says={{ on: "on", off: "off" }}
        value={settings.singleKeys ? "on" : "off"}
        onPick={(on) => {
          onChange({ ...settings, singleKeys: on === "on" });
        }}
      />
      <Choice
        name="Read aloud"
        all={choices.spoken}
        says={{ names: "names", brief: "brief", full: "in full" }}
        value={settings.spoken}
        onPick={(spoken) => {
          onChange({ ...settings, spoken });
        }}
      />
    </div>
  );
}

function Choice<T extends string>({
  name,
  all,
  says,
  value,
  onPick,
}: {
  readonly name: string;
  readonly all: readonly T[];
  readonly says: Readonly<Record<T, string>>;
  readonly value: T;
  readonly onPick: (value: T) => void;
}) {
  const group = useId();
  return (
    <fieldset class="settings-choice">
      <legend>{name}</legend>
      {all.map((one) => (
        <label key={one} class="settings-pick">
          <input
            type="radio"
            name={group}
            checked={one === value}
            onChange={() => {
              onPick(one);
            }}
          />
          <span>{says[one]}</span>
        </label>
      ))}
    </fieldset>
  );
}
