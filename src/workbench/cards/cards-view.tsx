import { useEffect, useRef, useState } from "preact/hooks";
import type { CircuitDesign } from "../../size/index.ts";
import type { Bench } from "../contract.ts";
import { FindingBody } from "../findings/finding-body.tsx";
import { inSentence, printAmps, printLengthValue, printSize } from "../look/print-in-units.ts";
import { StatusShape, statusOf, statusWords } from "../look/status-shape.tsx";
import { FigureField } from "../sheet/figure-field.tsx";
import { useBench } from "../use-bench.ts";
import { byGravity } from "../bench/finding-order.ts";
import { PhoneSheet } from "./phone-sheet.tsx";
import "./cards.css";

/** A phone holds one circuit in hand: its strip, its gravest finding, its figures; or the whole drawing to look over. */
export function CardsView({ bench }: { readonly bench: Bench }) {
  const { plan, selection } = useBench(bench);
  const [whole, setWhole] = useState(false);
  if (plan === null)
    return (
      <main class="cards">
        <p class="dim">Drawing …</p>
      </main>
    );
  const circuits = plan.design.circuits;
  const at = circuitOf(circuits, selection);
  return (
    <main class="cards" aria-label={whole ? "One-line" : "Circuit card"}>
      <div class="cards-ways" role="group" aria-label="How it is shown">
        <button
          type="button"
          class="button"
          aria-pressed={whole}
          onClick={() => {
            setWhole(true);
          }}
        >
          Sheet
        </button>
        <button
          type="button"
          class="button"
          aria-pressed={!whole}
          onClick={() => {
            setWhole(false);
          }}
        >
          Cards
        </button>
      </div>
      {whole ? (
        <PhoneSheet
          bench={bench}
          onCard={() => {
            setWhole(false);
          }}
        />
      ) : circuits.length === 0 ? (
        <NoCircuit bench={bench} />
      ) : (
        <Card bench={bench} circuits={circuits} at={at} />
      )}
    </main>
  );
}

/** The circuit that is selected, or that ends at the selected part; else the first. */
function circuitOf(circuits: readonly CircuitDesign[], selection: string | null): number {
  const [section, ...rest] = (selection ?? "").split(".");
  const id = rest.join(".");
  const found =
    section === "circuits"
      ? circuits.findIndex((c) => c.id === id)
      : circuits.findIndex((c) => c.to === id || c.loads.some(({ part }) => part === id));
  return Math.max(0, found);
}

function NoCircuit({ bench }: { readonly bench: Bench }) {
  return (
    <div class="card">
      <h2>No circuit</h2>
      <p>Add one in the text, or begin with six questions.</p>
      <button
        type="button"
        class="button main"
        onClick={() => {
          bench.go("text");
        }}
      >
        Open the text
      </button>
    </div>
  );
}

function Card({
  bench,
  circuits,
  at,
}: {
  readonly bench: Bench;
  readonly circuits: readonly CircuitDesign[];
  readonly at: number;
}) {
  const { plan, units, openNote, text, operatingState, readOnly } = useBench(bench);
  const [strip, setStrip] = useState<{ readonly svg: string } | null>(null);
  const [field, setField] = useState<"length" | "size" | "device" | null>(null);
  const touch = useRef<number | null>(null);
  const circuit = circuits[at];
  const id = circuit?.id ?? "";
  useEffect(() => {
    let stale = false;
    void bench.strip(id).then((drawn) => {
      if (!stale) setStrip(drawn);
    });
    return () => {
      stale = true;
    };
  }, [id, text, operatingState]);
  if (circuit === undefined || plan === null) return null;
  const about = `circuits.${id}`;
  const parts = new Set([about, ...circuit.loads.map(({ part }) => `parts.${part}`)]);
  const findings = byGravity(plan.findings).filter((f) =>
    [...parts].some((p) => f.about === p || f.about.startsWith(`${p}.`)),
  );
  const shown = findings.find((f) => f.rule === openNote?.rule && f.about === openNote.about) ?? findings[0];
  const turn = (by: 1 | -1): void => {
    const next = circuits[(at + by + circuits.length) % circuits.length];
    if (next !== undefined) {
      setField(null);
      bench.openNote(null);
      bench.select(`circuits.${next.id}`);
    }
  };
  const device = circuit.devices[0];
  const from = circuit.outcome === "chosen" ? "" : circuit.outcome === "found" ? ", as found" : ", pinned";
  const rating = device?.ratingA === undefined || device.ratingA === null ? null : printAmps(device.ratingA, units);
  const size = circuit.size === null ? null : inSentence(circuit.size.label, units);
  // What is shown, and what the field begins with.
  const figures: readonly (readonly ["length" | "size" | "device", string, string, string])[] = [
    ["length", "Length, one way", printLengthValue(circuit.lengthM, units), printLengthValue(circuit.lengthM, units)],
    ["size", "Size", circuit.size === null ? "cannot tell" : `${printSize(circuit.size, units)}${from}`, size ?? ""],
    [
      "device",
      device === undefined ? "Device" : device.kind === "fuse" ? "Fuse" : "Breaker",
      device === undefined ? "none" : (rating ?? "not known"),
      rating ?? "",
    ],
  ];
  return (
    <div
      onTouchStart={(event) => {
        touch.current = event.touches[0]?.clientX ?? null;
      }}
      onTouchEnd={(event) => {
        const by = (event.changedTouches[0]?.clientX ?? 0) - (touch.current ?? 0);
        if (touch.current !== null && Math.abs(by) > 90) turn(by < 0 ? 1 : -1);
        touch.current = null;
      }}
    >
      <div class="card-turn">
        <button
          type="button"
          class="button"
          aria-label="Previous circuit"
          onClick={() => {
            turn(-1);
          }}
        >
          ‹
        </button>
        <h2>
          {id}, {circuit.from} → {circuit.to}
          <small class="dim">
            circuit {at + 1} of {circuits.length}
          </small>
        </h2>
        <button
          type="button"
          class="button"
          aria-label="Next circuit"
          onClick={() => {
            turn(1);
          }}
        >
          ›
        </button>
      </div>
      {strip === null ? null : <StripPicture svg={strip.svg} says={bench.spoken(about)} />}
      {shown === undefined ? (
        <p class="card card-clear">No finding of this circuit. Not checked: joints as made, local law.</p>
      ) : (
        <article class="card card-finding" aria-label={`${statusWords[statusOf(shown)]}: ${shown.title}`}>
          <FindingBody bench={bench} finding={shown} />
        </article>
      )}
      {findings.length > 1 ? (
        <ul class="card-others">
          {findings
            .filter((f) => f !== shown)
            .map((f) => (
              <li key={`${f.rule} ${f.about}`}>
                <button
                  type="button"
                  class="link"
                  onClick={() => {
                    bench.openNote({ rule: f.rule, about: f.about });
                  }}
                >
                  <StatusShape status={statusOf(f)} label={statusWords[statusOf(f)]} /> {f.title}
                </button>
              </li>
            ))}
        </ul>
      ) : null}
      <dl class="card-figures">
        {figures.map(([name, label, says, begins]) => (
          <div key={name}>
            <dt>{label}</dt>
            <dd>
              {field === name ? (
                <FigureField
                  bench={bench}
                  figure={{
                    about,
                    field: name,
                    text: begins,
                    x: 0,
                    y: 0,
                  }}
                  onClose={() => {
                    setField(null);
                  }}
                />
              ) : readOnly ? (
                says
              ) : (
                <button
                  type="button"
                  class="link"
                  onClick={() => {
                    setField(name);
                  }}
                >
                  {says}
                </button>
              )}
            </dd>
          </div>
        ))}
      </dl>
      <p class="card-verbs">
        <button
          type="button"
          class="button"
          onClick={() => {
            bench.why(id);
          }}
        >
          Why this size
        </button>
        <button
          type="button"
          class="button"
          onClick={() => {
            bench.select(about);
            bench.go("text");
          }}
        >
          Text
        </button>
      </p>
    </div>
  );
}

/** A drawing made by the worker, put in as a picture with its words. */
function StripPicture({ svg, says }: { readonly svg: string; readonly says: string }) {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const { documentElement } = new DOMParser().parseFromString(svg, "image/svg+xml");
    const drawn = document.importNode(documentElement, true);
    for (const title of drawn.querySelectorAll("title, desc")) title.remove();
    drawn.setAttribute("aria-hidden", "true");
    drawn.removeAttribute("width");
    drawn.removeAttribute("height");
    host.current?.replaceChildren(drawn);
  }, [svg]);
  return <div class="card card-strip" role="img" aria-label={says} ref={host} />;
}
