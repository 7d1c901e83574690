import { useEffect, useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { AskOffer } from "../../act/index.ts";
import type { Bench } from "../contract.ts";
import { keyFor } from "../settings/keys.ts";
import { mayAct } from "../settings/typing.ts";
import { useBench } from "../use-bench.ts";
import { layQuestion } from "../wire-desk/last-question.ts";
import { layName } from "../wire-desk/name/last-name.ts";
import { OfferList } from "./offer-list.tsx";
import { groupOffers, offersSay } from "./offer-groups.ts";
import { useOffers } from "./use-offers.ts";
import "./ask.css";

/** Spoken once typing rests, ms. */
const REST = 600;

/** One field for finding, doing and asking: a combobox whose list follows each key. */
export function AskField({ bench }: { readonly bench: Bench }) {
  const { view } = useBench(bench);
  const [text, setText] = useState("");
  const [open, setOpen] = useState(false);
  const [active, setActive] = useState(0);
  const [told, setTold] = useState("");
  const [offers, ask] = useOffers(bench);
  const field = useRef<HTMLInputElement>(null);
  const box = useRef<HTMLDivElement>(null);
  const id = useId();

  const groups = groupOffers(open ? offers.list : []);
  const ordered = groups.flatMap((group) => group.offers.map(({ offer }) => offer));
  const shown = open && (ordered.length > 0 || told !== "" || (text.trim() !== "" && offers.text === text));
  const spoken = useRested(shown ? (offers.broken ?? offersSay(ordered.length)) : "");

  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      const row = keyFor(event, view);
      if (row?.does !== "ask" || event.defaultPrevented || !mayAct(row, event.target)) return;
      event.preventDefault();
      setOpen(true);
      field.current?.focus();
      field.current?.select();
    };
    document.addEventListener("keydown", press);
    return () => {
      document.removeEventListener("keydown", press);
    };
  }, [view]);
  // On a phone the field is there only once the sheet is open.
  useLayoutEffect(() => {
    if (open) field.current?.focus();
  }, [open]);
  useLayoutEffect(() => {
    document.getElementById(`${id}-${active}`)?.scrollIntoView({ block: "nearest" });
  }, [active, id]);

  const close = (): void => {
    setOpen(false);
    setText("");
    setTold("");
    setActive(0);
    void ask("");
  };
  const type = (next: string): void => {
    setText(next);
    setOpen(true);
    setTold("");
    setActive(0);
    void ask(next);
  };
  const take = async (offer: AskOffer): Promise<void> => {
    if (offer.kind === "needs") {
      type(`${offer.text.trimEnd()} `);
      field.current?.focus();
      setTold(offer.needs);
      return;
    }
    if (offer.kind === "question") layQuestion(offer.question);
    if (offer.kind === "name") layName({ text: offer.label, context: null });
    const outcome = await bench.take(offer);
    if (!outcome.ok) {
      setTold([outcome.message, outcome.hint].filter((words) => words !== "").join("; "));
      return;
    }
    close();
    field.current?.blur();
  };
  const enter = async (): Promise<void> => {
    // Never what was offered for an earlier text.
    const found = offers.text === text ? offers : await ask(text);
    if (found === null) return;
    const all = groupOffers(found.list).flatMap((group) => group.offers.map(({ offer }) => offer));
    const chosen = all[found === offers ? active : 0];
    if (chosen === undefined) {
      if (text.trim() !== "")
        setTold("nothing is called that; name a part or circuit, a verb, a load with its unit, or a label of wire");
      return;
    }
    await take(chosen);
  };
  const press = (event: KeyboardEvent): void => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step !== undefined) {
      event.preventDefault();
      setOpen(true);
      if (ordered.length > 0) setActive((active + step + ordered.length) % ordered.length);
    } else if (event.key === "Enter" && !event.isComposing) {
      event.preventDefault();
      void enter();
    } else if (event.key === "Escape") {
      event.preventDefault();
      event.stopPropagation();
      if (text === "") field.current?.blur();
      close();
    }
  };

  return (
    <div
      ref={box}
      class={`ask${open ? " ask-is-open" : ""}`}
      role="search"
      aria-label="Ask, find or do"
      onFocusOut={(event) => {
        if (event.relatedTarget instanceof Node && box.current?.contains(event.relatedTarget) === true) return;
        setOpen(false);
      }}
    >
      <button
        type="button"
        class="button ask-opens"
        onClick={() => {
          setOpen(true);
        }}
      >
        Ask
      </button>
      <div class="ask-sheet">
        <div class="ask-line">
          <input
            ref={field}
            class="field ask-input"
            type="text"
            role="combobox"
            aria-label="Ask why, find, or do"
            aria-expanded={shown}
            aria-controls={`${id}-list`}
            aria-autocomplete="list"
            aria-keyshortcuts="Control+K /"
            {...(shown && ordered.length > 0 ? { "aria-activedescendant": `${id}-${active}` } : {})}
            placeholder="Ask why, find, or do …"
            autocomplete="off"
            autocapitalize="off"
            spellcheck={false}
            maxLength={200}
            value={text}
            onFocus={() => {
              setOpen(true);
            }}
            onInput={(event) => {
              type(event.currentTarget.value);
            }}
            onKeyDown={press}
          />
          <kbd class="ask-cap" aria-hidden="true">
            Ctrl K
          </kbd>
          <button
            type="button"
            class="button ask-closes"
            onClick={() => {
              close();
              requestAnimationFrame(() => box.current?.querySelector<HTMLElement>(".ask-opens")?.focus());
            }}
          >
            Close
          </button>
        </div>
        <OfferList
          id={id}
          groups={groups}
          active={active}
          shown={shown}
          says={offers.broken !== null ? `asking broke: ${offers.broken}` : told}
          onTake={(offer) => void take(offer)}
          onPoint={setActive}
        />
      </div>
      <p class="unseen" role="status">
        {told !== "" ? told : spoken}
      </p>
    </div>
  );
}

/** A text once it has stood still for a while. */
function useRested(text: string): string {
  const [rested, setRested] = useState("");
  useEffect(() => {
    const timer = setTimeout(() => {
      setRested(text);
    }, REST);
    return () => {
      clearTimeout(timer);
    };
  }, [text]);
  return rested;
}
