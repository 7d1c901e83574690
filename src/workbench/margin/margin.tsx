import { useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Bench, FindingKey, KeyPath, Units } from "../contract.ts";
import { FindingBody } from "../findings/finding-body.tsx";
import { StatusShape, statusOf, statusWords, type Status } from "../look/status-shape.tsx";
import { notJudgedYet } from "../look/judged-words.ts";
import { useBench } from "../use-bench.ts";
import type { PageDrawing } from "../worker/protocol.ts";
import { drawLeaders, layNotes, type Leader } from "./lay-notes.ts";
import { keyOf, lineOf, notesOf, type Note } from "./notes-of.ts";
import "./margin.css";

/** px: between drawing and notes; between two notes; a closed note before it was measured. */
const [GUTTER, GAP, USUAL] = [36, 10, 58];
/** From a note's top to where its leader meets it, px. */
const LEADER_AT = 20;

interface MarginProps {
  readonly bench: Bench;
  readonly drawing: PageDrawing;
  /** px per mm, and how far the drawing is scrolled. */
  readonly scale: number;
  readonly scrollTop: number;
  readonly scrollLeft: number;
  readonly selection: KeyPath | null;
}

/** The notes beside the drawing, each tied to its place, in the order of their places; one may be open. */
export function Margin({ bench, drawing, scale, scrollTop, scrollLeft, selection }: MarginProps) {
  const { plan, openNote, pencil, units } = useBench(bench);
  const box = useRef<HTMLDivElement>(null);
  const [layout, setLayout] = useState<{
    readonly tops: ReadonlyMap<string, number>;
    readonly leaders: readonly Leader[];
    readonly fits: number;
  }>({ tops: new Map(), leaders: [], fits: 4 });
  // While a cure is in pencil the notes are those of the ink: the open one says what it does. A what-if is read as if it were so.
  const noted = pencil?.is === "what-if" && pencil.plan !== null ? pencil.plan : plan;
  const notes = useMemo(() => (noted === null ? [] : notesOf(noted, drawing)), [noted, drawing]);
  const open =
    openNote === null
      ? null
      : (notes.find(({ findings }) => findings.some((f) => keyOf(f) === keyOf(openNote)))?.key ?? null);
  const shown = chooseShown(notes, open, selection, layout.fits);
  const placed = [...shown].sort((a, b) => (a.at?.y ?? 1e9) - (b.at?.y ?? 1e9) || (a.at?.x ?? 0) - (b.at?.x ?? 0));
  const rest = notes.filter((note) => !shown.includes(note));

  useLayoutEffect(() => {
    const margin = box.current;
    if (margin === null) return;
    const lay = (): void => {
      const port = margin.closest(".sheet-body")?.querySelector(".drawing-port")?.getBoundingClientRect();
      const own = margin.getBoundingClientRect();
      const [shift, portWidth] = port === undefined ? [0, 0] : [own.top - port.top, own.left - port.left];
      const room = margin.clientHeight - (rest.length > 0 ? 44 : 0);
      const heights = new Map(
        [...margin.querySelectorAll<HTMLElement>("[data-note]")].map((el) => [
          el.dataset["note"] ?? "",
          el.offsetHeight,
        ]),
      );
      const targets = placed.map((note) => ({
        key: note.key,
        target: note.at === null ? room : note.at.y * scale - scrollTop - shift - LEADER_AT,
        height: heights.get(note.key) ?? USUAL,
      }));
      const laid = layNotes(targets, room, GAP);
      const drawingWidth = drawing.width * scale;
      // A drawing that is narrower than its window stands in the middle of it.
      const offset = Math.max(0, (portWidth - drawingWidth) / 2);
      const ends = placed.flatMap((note, i) => {
        const top = laid[i]?.top ?? 0;
        const y = note.at === null ? -1 : note.at.y * scale - scrollTop - shift;
        if (note.at === null || y < 0 || y > margin.clientHeight) return [];
        // From the inside of the drawing only the open one is drawn out: the others would run through it.
        const inside = note.at.x < 0.8 * drawing.width;
        if (inside && note.key !== open) return [];
        return [
          {
            key: note.key,
            x: Math.min(0, offset + note.at.x * scale - scrollLeft - portWidth + 10),
            from: y,
            to: top + LEADER_AT,
          },
        ];
      });
      const openHeight = open === null ? 0 : (heights.get(open) ?? USUAL) - USUAL;
      const fits = Math.max(1, Math.floor((room - openHeight + GAP) / (USUAL + GAP)));
      const leaders = drawLeaders(ends, { left: 2, right: GUTTER - 4 }, 6);
      setLayout((old) =>
        sameLayout(old, laid, leaders, fits)
          ? old
          : { tops: new Map(laid.map(({ key, top }) => [key, top])), leaders, fits },
      );
    };
    lay();
    const watch = new ResizeObserver(lay);
    watch.observe(margin);
    for (const el of margin.querySelectorAll("[data-note]")) watch.observe(el);
    return () => {
      watch.disconnect();
    };
  }, [placed.map(({ key }) => key).join("\n"), open, scale, scrollTop, scrollLeft, drawing, rest.length]);

  return (
    <div class={`margin${pencil === null ? "" : " margin-pencil"}`} ref={box}>
      <h2 class="unseen">Notes</h2>
      <svg class="margin-leaders" aria-hidden="true">
        {layout.leaders.map(({ key, points }) => (
          <polyline
            key={key}
            class={key === open ? "leader leader-open" : "leader"}
            points={points.map((p) => p.join(",")).join(" ")}
          />
        ))}
      </svg>
      {plan !== null && plan.judged !== "yes" ? <p class="margin-none">{notJudgedYet(plan)}</p> : null}
      {notes.length === 0 && plan?.judged === "yes" ? (
        <p class="margin-none">
          {plan.tally.pass} pass. Nothing that was judged wants a note. Not judged: see{" "}
          <button
            type="button"
            class="link"
            onClick={() => {
              bench.go("findings");
            }}
          >
            findings
          </button>
          .
        </p>
      ) : null}
      {placed.map((note) => (
        <NoteBox
          key={note.key}
          bench={bench}
          note={note}
          open={note.key === open ? openNote : null}
          selected={selection !== null && belongs(note, selection)}
          top={layout.tops.get(note.key) ?? 0}
          units={units}
        />
      ))}
      {rest.length === 0 ? null : (
        <button
          type="button"
          class="margin-more"
          onClick={() => {
            bench.go("findings");
          }}
        >
          {rest.length} more {rest.length === 1 ? "note" : "notes"}: {countByShape(rest)}
        </button>
      )}
    </div>
  );
}

interface NoteProps {
  readonly bench: Bench;
  readonly note: Note;
  /** The finding of it that is open. */
  readonly open: FindingKey | null;
  readonly selected: boolean;
  readonly top: number;
  readonly units: Units;
}

function NoteBox({ bench, note, open, selected, top, units }: NoteProps) {
  const { findings, status } = note;
  const [first] = findings;
  const shown = open === null ? undefined : findings.find((f) => keyOf(f) === keyOf(open));
  if (first === undefined) return null;
  const show = ({ rule, about }: FindingKey): void => {
    bench.select(note.key);
    bench.openNote({ rule, about });
  };
  const others = findings.filter((f) => f !== (shown ?? first));
  return (
    <article
      class={`note${shown === undefined ? "" : " note-open"}${selected ? " note-selected" : ""}`}
      data-note={note.key}
      style={{ top: `${top}px` }}
      aria-label={`${statusWords[status]}: ${first.title}`}
    >
      {shown === undefined ? (
        <button
          type="button"
          class="note-head"
          aria-expanded="false"
          onClick={() => {
            show(first);
          }}
        >
          <StatusShape status={status} label={statusWords[status]} />
          <span class="note-title">{first.title}</span>
          <span class="note-line">
            {others.length > 0 ? `${others.length} more · ` : ""}
            {lineOf(first, units)}
          </span>
        </button>
      ) : (
        <>
          <button
            type="button"
            class="note-close"
            aria-label="Close the note (Esc)"
            onClick={() => {
              bench.openNote(null);
            }}
          >
            ×
          </button>
          <FindingBody bench={bench} finding={shown} />
          {others.length === 0 ? null : (
            <ul class="note-others" aria-label="Also here">
              {others.map((f) => (
                <li key={keyOf(f)}>
                  <button
                    type="button"
                    class="link"
                    onClick={() => {
                      show(f);
                    }}
                  >
                    <StatusShape status={statusOf(f)} label={statusWords[statusOf(f)]} size={16} /> {f.title}
                  </button>
                </li>
              ))}
            </ul>
          )}
        </>
      )}
    </article>
  );
}

const belongs = (note: Note, about: KeyPath): boolean =>
  note.key === about || note.findings.some((f) => f.about === about || f.about.startsWith(`${about}.`));

/** The gravest as far as there is room, and in any case the open one and those of the selection. */
function chooseShown(notes: readonly Note[], open: string | null, selection: KeyPath | null, fits: number): Note[] {
  const first = notes.filter((note) => note.key === open);
  const own = selection === null ? [] : notes.filter((note) => note.key !== open && belongs(note, selection));
  const others = notes.filter((note) => !first.includes(note) && !own.includes(note));
  return [...first, ...own, ...others].slice(0, Math.max(1, fits));
}

function countByShape(notes: readonly Note[]): string {
  const words: readonly (readonly [Status, string])[] = [["fail", "must"], ["warn", "should"], ["unknown", "cannot tell"], ["note", "note"]]; // prettier-ignore
  return words
    .map(([status, word]) => [notes.filter((n) => n.status === status).length, word] as const)
    .filter(([count]) => count > 0)
    .map(([count, word]) => `${count} ${word}`)
    .join(", ");
}

interface Layout {
  readonly tops: ReadonlyMap<string, number>;
  readonly leaders: readonly Leader[];
  readonly fits: number;
}

const sameLayout = (
  old: Layout,
  laid: readonly { readonly key: string; readonly top: number }[],
  leaders: readonly Leader[],
  fits: number,
): boolean =>
  old.fits === fits &&
  old.tops.size === laid.length &&
  laid.every(({ key, top }) => Math.abs((old.tops.get(key) ?? -1e9) - top) < 0.5) &&
  JSON.stringify(old.leaders) === JSON.stringify(leaders);
