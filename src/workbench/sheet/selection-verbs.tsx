import type { Bench } from "../contract.ts";
import type { KeyCommand } from "../settings/keys.ts";
import { carryOut } from "../shell/carry-out.ts";
import { useBench } from "../use-bench.ts";
import "./selection-verbs.css";

interface Verb {
  readonly does: KeyCommand;
  readonly says: string;
  readonly key: string;
}

const WHY: Verb = { does: "why", says: "Why", key: "W" };
/** When the devices that feed it open. */
const CURVES: Verb = { does: "go-faults", says: "Curves", key: "V" };
const REMOVE: Verb = { does: "remove", says: "Remove", key: "Del" };

/** What can be done to a wire; where its size is pinned, that it is left to be chosen again. */
const ofCircuit = (pinned: boolean): readonly Verb[] => [
  WHY,
  { does: "length", says: "Length", key: "L" },
  pinned ? { does: "unpin", says: "Unpin", key: "Shift P" } : { does: "pin", says: "Pin the size", key: "P" },
  { does: "insert-device", says: "Insert a device", key: "I" },
  CURVES,
  REMOVE,
];

const ofPart = (takesLoads: boolean): readonly Verb[] => [
  WHY,
  ...(takesLoads ? [{ does: "circuit-from-here", says: "Add a load", key: "C" } as const] : []),
  { does: "flip", says: "On or off", key: "S" },
  { does: "name", says: "Name", key: "N" },
  REMOVE,
];

/** What can be done to the selection, with the keys that do the same; verbs that do not fit are absent. */
export function SelectionVerbs({ bench }: { readonly bench: Bench }) {
  const { selection, plan, readOnly } = useBench(bench);
  if (selection === null || plan === null) return null;
  const [section, ...rest] = selection.split(".");
  const id = rest.join(".");
  const circuit = section === "circuits" ? plan.design.circuits.find((c) => c.id === id) : undefined;
  const takesLoads = plan.freePlaces.some(({ part }) => part === id);
  const verbs =
    circuit !== undefined
      ? ofCircuit(circuit.outcome === "pinned")
      : section === "parts"
        ? ofPart(takesLoads)
        : // A wire with an open end has no place in the build; it can be taken away.
          section === "circuits"
          ? [REMOVE]
          : [];
  return (
    <div class="verbs" role="toolbar" aria-label={`What can be done to ${id}`}>
      <strong class="verbs-name">{id}</strong>
      {verbs
        .filter(({ does }) => does === "why" || does === "go-faults" || !readOnly)
        .map(({ does, says, key }) => (
          <button
            key={does}
            type="button"
            class="verbs-verb"
            onClick={() => {
              carryOut(bench, does);
            }}
          >
            {says} <kbd>{key}</kbd>
          </button>
        ))}
    </div>
  );
}
