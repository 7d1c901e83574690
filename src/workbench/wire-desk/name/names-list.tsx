import { useState } from "preact/hooks";
import type { ShownName } from "../../../act/wire-card/index.ts";
import type { Bench, Units } from "../../contract.ts";
import { inSentence } from "../../look/print-in-units.ts";
import { StatusShape, type Status } from "../../look/status-shape.tsx";

const uses = [
  ["order", "to order"],
  ["drawing", "on a drawing"],
  ["sleeve", "on a sleeve"],
  ["spoken", "spoken"],
  ["mistaken", "taken for it"],
] as const;
type Use = (typeof uses)[number][0];

const statusOf: Readonly<Record<ShownName["standing"], Status>> = {
  "this cable": "pass",
  "not the same": "warn",
  "ask: which?": "unknown",
};

const isFor = ({ uses: own }: ShownName, use: Use): boolean =>
  use === "mistaken" ? own.length === 0 : own.includes(use);

/** Every name that the wire has, by what the name is for, and those of its neighbours that are taken for it. */
export function NamesList({
  bench,
  names,
  units,
  onRead,
}: {
  readonly bench: Bench;
  readonly names: readonly ShownName[];
  readonly units: Units;
  readonly onRead: (label: string) => void;
}) {
  const [use, setUse] = useState<Use>("order");
  const there = uses.filter(([one]) => names.some((name) => isFor(name, one)));
  const shown = there.find(([one]) => one === use) ?? there[0];
  if (shown === undefined) return null;
  return (
    <section class="name-part" aria-label="Its names">
      <h3>Its names on reels and in plans</h3>
      <div class="desk-switch" role="group" aria-label="What the name is for">
        {there.map(([one, words]) => (
          <button
            key={one}
            type="button"
            class="button"
            aria-pressed={one === shown[0]}
            onClick={() => {
              setUse(one);
            }}
          >
            {words}
          </button>
        ))}
      </div>
      <ul class="name-names">
        {names
          .filter((name) => isFor(name, shown[0]))
          .map(({ label, standing, says, dialects, trap }) => (
            <li key={label}>
              <StatusShape status={statusOf[standing]} />
              <div class="name-name">
                <p class="name-name-head">
                  <button
                    type="button"
                    class="link name-code"
                    onClick={() => {
                      onRead(label);
                    }}
                  >
                    {label}
                  </button>
                  <span class="dim">{standing}</span>
                </p>
                <p class="dim">
                  {tradesSay(dialects)}
                  {inSentence(says, units)}
                </p>
                {trap !== null && <p>{inSentence(trap, units)}</p>}
              </div>
              <CopyButton bench={bench} text={label} />
            </li>
          ))}
      </ul>
      <p class="dim">Count the functions, not the second number of a name.</p>
    </section>
  );
}

/** So many trades call it that: then it is called so everywhere. */
const MOST = 6;

/** Whose name it is: `British, Australian: `. */
function tradesSay(dialects: readonly string[]): string {
  if (dialects.length === 0) return "";
  if (dialects.length >= MOST) return "in every trade: ";
  return `${dialects.map((dialect) => tradeWords[dialect] ?? dialect).join(", ")}: `;
}

const tradeWords: Readonly<Record<string, string>> = {
  "north american": "North American",
  european: "European",
  british: "British",
  australian: "Australian",
  japanese: "Japanese",
  boat: "boats",
  vehicle: "vehicles",
};

/** Puts a text where the next paste takes it from. */
function CopyButton({ bench, text }: { readonly bench: Bench; readonly text: string }) {
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(text);
      bench.say(`copied: ${text}`);
    } catch {
      bench.say("the browser did not let it be copied; mark the name and copy it", "assertive");
    }
  };
  return (
    <button type="button" class="button" aria-label={`Copy ${text}`} onClick={() => void copy()}>
      Copy
    </button>
  );
}
