import { useEffect, useRef, useState } from "preact/hooks";
import type { WireQuestion } from "../../../act/wire-card/index.ts";
import type { LabelFact } from "../../../wire/label/label-reading.ts";
import type { Bench } from "../../contract.ts";
import { inSentence } from "../../look/print-in-units.ts";
import { StatusShape } from "../../look/status-shape.tsx";
import { useBench } from "../../use-bench.ts";
import { labelFromHash, labelIntoHash, type NamedLabel } from "../question-link.ts";
import { ChooseReading } from "./choose-reading.tsx";
import { FactsList } from "./facts-list.tsx";
import { LabelMarked } from "./label-marked.tsx";
import { keepName, lastName, onName, takeNews } from "./last-name.ts";
import { NameField } from "./name-field.tsx";
import { pixelsPerMm } from "./screen-scale.ts";
import { PutWire } from "./put-wire.tsx";
import { ReadingRefused } from "./reading-refused.tsx";
import { SpokenReading } from "./spoken-reading.tsx";
import { useWire, type Read } from "./use-wire.ts";
import { WireSheetView } from "./wire-sheet-view.tsx";
import "./name-desk.css";

/** What is asked beside the name: kept while names change. */
type Asked = Omit<WireQuestion, "text" | "context" | "isNarrow">;

const toBegin: Asked = {
  convert: { to: null, by: "area", pick: "not smaller" },
  amps: "10 A",
  insulationC: null,
  trueSize: false,
};

const nothing: NamedLabel = { text: "", context: null };

/** What does this name mean? The field, the reading of it, and all that is known of the wire. */
export function NameDesk({
  bench,
  answered,
  isTaught,
  onTeach,
}: {
  readonly bench: Bench;
  /** The size that the question beside it was answered with: shown while no name is typed; null: there is none. */
  readonly answered: string | null;
  /** The taught path is open beside it. */
  readonly isTaught: boolean;
  readonly onTeach: () => void;
}) {
  const { units } = useBench(bench);
  const [label, setLabel] = useState<NamedLabel>(() => labelFromHash(location.hash) ?? lastName() ?? nothing);
  const [asked, setAsked] = useState(toBegin);
  const [isCalled, setCalled] = useState(takeNews);
  const [lit, setLit] = useState<readonly LabelFact[]>([]);
  const choices = useRef<HTMLUListElement>(null);
  const isTyped = label.text.trim() !== "";
  const question: WireQuestion = {
    ...asked,
    // Until the screen is measured nobody can draw in true size.
    trueSize: asked.trueSize && pixelsPerMm() !== null,
    text: isTyped ? label.text : (answered ?? ""),
    context: label.context,
    isNarrow: matchMedia("(max-width: 700px)").matches,
  };
  const read = useWire(bench, question);
  // An empty field is no fault: then the ladder alone is shown.
  const card = read.of.trim() === "" ? null : read.card;

  useEffect(() => {
    keepName(label);
  }, [label.text, label.context]);
  // The page writes the address with every change of place, and leaves what a view has put there.
  useEffect(() => {
    const hash = labelIntoHash(location.hash === "" ? "#wire-desk" : location.hash, label);
    if (hash !== location.hash) history.replaceState(history.state, "", hash);
  });
  useEffect(() => {
    const fromAddress = (): void => {
      const found = labelFromHash(location.hash);
      if (found !== null) setLabel(found);
    };
    addEventListener("hashchange", fromAddress);
    const end = onName((laid) => {
      takeNews();
      setLabel(laid);
      setCalled(true);
    });
    return () => {
      removeEventListener("hashchange", fromAddress);
      end();
    };
  }, []);

  const change = (next: NamedLabel): void => {
    setLabel(next);
    setLit([]);
    setCalled(false);
  };
  const readText = (text: string): void => {
    change({ text, context: label.context });
  };
  return (
    <div class="name-desk">
      <section class="name-head" aria-label="What does this name mean?">
        <header class="name-title">
          <h2>What does this name mean?</h2>
          {!isTaught && (
            <button type="button" class="link" onClick={onTeach}>
              How wire is named
            </button>
          )}
        </header>
        <NameField
          label={label}
          focused={isCalled}
          wrong={isTyped && card?.verdict === "rejected" ? "name-refused" : null}
          onChange={change}
          onEnter={() => choices.current?.querySelector("button")?.focus()}
        />
        <div class={`name-reading${read.fresh || !read.working ? "" : " desk-stale"}`} aria-busy={!read.fresh}>
          <Status read={read} isNothing={question.text === ""} />
          {card?.verdict === "rejected" && (
            <ReadingRefused id="name-refused" problems={card.problems} pieces={card.pieces} />
          )}
          {card?.verdict === "ambiguous" && (
            <ChooseReading
              question={card.question}
              readings={card.readings}
              label={{ ...label, text: read.of }}
              units={units}
              list={choices}
              onChoose={(chosen) => {
                change(chosen);
                document.getElementById("name-text")?.focus();
              }}
            />
          )}
          {card?.verdict === "exact" && (
            <>
              {!isTyped && (
                <p class="dim">The size that the question was answered with. Type a name to read another.</p>
              )}
              <LabelMarked pieces={card.reading.pieces} lit={lit} onLight={setLit} />
              <p class="name-says">
                <StatusShape status="pass" /> <span>{inSentence(card.reading.says, units)}</span>
              </p>
              <FactsList
                facts={card.reading.facts}
                pieces={card.reading.pieces}
                units={units}
                lit={lit}
                onLight={setLit}
              />
              {card.reading.by.length > 0 && (
                <p>
                  <span class="dim">Narrowed by: </span>
                  {card.reading.by.map((by) => inSentence(by, units)).join("; ")}.
                </p>
              )}
              {card.ruledOut.length > 0 && (
                <p class="dim">
                  Elsewhere it would be: {card.ruledOut.map((says) => inSentence(says, units)).join(" Or: ")}
                </p>
              )}
              {card.reading.traps.map((trap) => (
                <p key={trap} class="name-trap">
                  <StatusShape status="warn" label="trap" /> <span>{inSentence(trap, units)}</span>
                </p>
              ))}
              {card.problems.map(({ message, hint }) => (
                <p key={message} class="name-trap">
                  <StatusShape status="note" label="note" />{" "}
                  <span>{[message, hint].filter((words) => words !== "").join("; ")}.</span>
                </p>
              ))}
              {card.sheet.forPlan !== null && (
                <PutWire bench={bench} field={card.sheet.forPlan.field} label={card.sheet.forPlan.label} />
              )}
            </>
          )}
          <SpokenReading read={read} units={units} />
        </div>
      </section>
      <WireSheetView
        bench={bench}
        ladder={read.card?.ladder ?? null}
        card={card?.verdict === "exact" ? card : null}
        units={units}
        asked={asked}
        onAsked={(part) => {
          setAsked((before) => ({ ...before, ...part }));
        }}
        onRead={readText}
      />
    </div>
  );
}

function Status({
  read: { working, broken },
  isNothing,
}: {
  readonly read: Read;
  /** Nothing is typed, and no size stands in for it. */
  readonly isNothing: boolean;
}) {
  if (broken !== null) return <p>The desk broke on this name: {broken}. It is kept; change it to ask again.</p>;
  if (working) return <p class="dim">working …</p>;
  return isNothing ? <p class="dim">Read it here, fact by fact, with the wire drawn to scale.</p> : null;
}
