import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Bench, KeyPath } from "../contract.ts";
import type { PageDrawing } from "../worker/protocol.ts";
import { useBench } from "../use-bench.ts";
import { FigureField, type OpenFigure } from "./figure-field.tsx";
import { mount } from "./mount.ts";
import { Overlay } from "./overlay.tsx";
import { figureAt, thingAt } from "./pick.ts";

/** What of the drawing is in sight; px. `scale` null: as it fits. */
export interface Sight {
  /** px per mm. */
  readonly scale: number | null;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Below this the smallest letters of the drawing are under 12 px, px per mm. */
export const LEAST_SCALE = 4.65;
const [LEAST_ZOOM, MOST_ZOOM] = [0.5, 4];

/** As large as it can be with the whole of it in sight, but never so small that it cannot be read: then it scrolls. */
export const fitScale = (width: number, height: number, roomX: number, roomY: number): number =>
  Math.max(LEAST_SCALE, Math.min((roomX - 2) / width, Math.max((roomY - 2) / height, LEAST_SCALE), 6.5));

interface DrawingProps {
  readonly bench: Bench;
  readonly drawing: PageDrawing;
  /** The drawing in ink while `drawing` is in pencil. */
  readonly before: PageDrawing | null;
  readonly scale: number;
  readonly fit: number;
  readonly onSight: (sight: Sight) => void;
}

/** The working surface: pan by scrolling or dragging the ground, zoom about the pointer, act on things where they are drawn. */
export function Drawing({ bench, drawing, before, scale, fit, onSight }: DrawingProps) {
  const { selection, readOnly } = useBench(bench);
  const port = useRef<HTMLDivElement>(null);
  const host = useRef<HTMLDivElement>(null);
  const [open, setOpen] = useState<OpenFigure | null>(null);
  const [hovered, setHovered] = useState<KeyPath | null>(null);
  const [focused, setFocused] = useState<KeyPath | null>(null);
  const wanted = useRef<number | null>(null);

  useLayoutEffect(() => {
    if (host.current !== null) mount(host.current, drawing, before);
  }, [drawing, before]);
  useLayoutEffect(() => {
    if (host.current !== null) markCurrent(host.current, selection ?? drawing.home);
  }, [selection, drawing]);

  const tell = (): void => {
    const at = port.current;
    if (at === null) return;
    onSight({
      scale: wanted.current,
      left: at.scrollLeft,
      top: at.scrollTop,
      width: at.clientWidth,
      height: at.clientHeight,
    });
  };
  useEffect(() => {
    if (port.current === null) return;
    const watch = new ResizeObserver(tell);
    watch.observe(port.current);
    return () => {
      watch.disconnect();
    };
  }, []);

  const zoomTo = (next: number | null, x: number, y: number): void => {
    const at = port.current;
    if (at === null) return;
    const to = next === null ? fit : Math.min(MOST_ZOOM * fit, Math.max(LEAST_ZOOM * fit, next));
    const [left, top] = [((at.scrollLeft + x) / scale) * to - x, ((at.scrollTop + y) / scale) * to - y];
    wanted.current = next === null ? null : to;
    tell();
    requestAnimationFrame(() => {
      at.scrollTo(left, top);
      tell();
    });
  };

  // A thing that is selected elsewhere comes into sight.
  useEffect(() => {
    const [at, place] = [port.current, selection === null ? undefined : drawing.places[selection]];
    if (at === null || place === undefined) return;
    const [x, y] = [place.x * scale, place.y * scale];
    if (y < at.scrollTop || y + place.height * scale > at.scrollTop + at.clientHeight)
      at.scrollTop = y - at.clientHeight / 3;
    if (x > at.scrollLeft + at.clientWidth || x + place.width * scale < at.scrollLeft)
      at.scrollLeft = x - at.clientWidth / 3;
  }, [selection]);

  useEffect(() => {
    const at = port.current;
    if (at === null) return;
    const onOrder = (event: Event): void => {
      const order = event instanceof CustomEvent ? String(event.detail) : "";
      const [x, y] = [at.clientWidth / 2, at.clientHeight / 2];
      if (order === "in") zoomTo(scale * 1.25, x, y);
      if (order === "out") zoomTo(scale / 1.25, x, y);
      if (order === "fit") zoomTo(null, 0, 0);
      if (order.startsWith("field:")) openField(order.slice(6));
    };
    const onWheel = (event: WheelEvent): void => {
      if (!event.ctrlKey) return;
      event.preventDefault();
      const box = at.getBoundingClientRect();
      zoomTo(scale * Math.exp(-event.deltaY / 300), event.clientX - box.left, event.clientY - box.top);
    };
    at.addEventListener("bench-order", onOrder);
    at.addEventListener("wheel", onWheel, { passive: false });
    return () => {
      at.removeEventListener("bench-order", onOrder);
      at.removeEventListener("wheel", onWheel);
    };
  });

  /** Opens a field on the selection by keyboard: `length`, `size`, `load`, `insert`. */
  const openField = (field: string): void => {
    const about = selection;
    if (about === null || readOnly || host.current === null) return;
    const found = figureAt(host.current, about, field, scale, drawing);
    if (found !== null) setOpen(found);
  };

  const onClick = (event: MouseEvent): void => {
    if (host.current === null || !(event.target instanceof Element)) return;
    const { about, figure } = thingAt(event.target, host.current, scale, drawing);
    if (about === null) {
      bench.select(null);
      return;
    }
    bench.select(about);
    if (figure !== null && !readOnly) setOpen(figure);
  };

  return (
    <div
      class="drawing-port"
      ref={port}
      onScroll={tell}
      onPointerDown={(event) => {
        startPan(event, port.current);
      }}
    >
      <div
        class="drawing"
        style={{ width: `${drawing.width * scale}px`, height: `${drawing.height * scale}px` }}
        onClick={onClick}
        onPointerMove={(event) => {
          setHovered(
            event.target instanceof Element
              ? (event.target.closest("[data-path]")?.getAttribute("data-path") ?? null)
              : null,
          );
        }}
        onFocusIn={(event) => {
          const main = event.target instanceof SVGElement ? event.target.closest(":focus-visible[data-main]") : null;
          setFocused(main?.getAttribute("data-main") ?? null);
        }}
        onFocusOut={() => {
          setFocused(null);
        }}
        onPointerLeave={() => {
          setHovered(null);
        }}
        onKeyDown={(event) => {
          travel(event, bench, drawing);
        }}
      >
        <Overlay drawing={drawing} selection={selection} hovered={hovered} focused={focused} />
        <div class="drawing-host" ref={host} />
        {open === null ? null : (
          <FigureField
            key={`${open.about} ${open.field}`}
            bench={bench}
            figure={open}
            isFar={open.x > 0.65 * drawing.width * scale}
            onClose={(back) => {
              setOpen(null);
              if (back) focusOn(host.current, selection);
            }}
          />
        )}
      </div>
    </div>
  );
}

/** The one thing of the drawing that the tab key comes to. */
function markCurrent(host: Element, about: KeyPath | null): void {
  for (const old of host.querySelectorAll('[tabindex="0"]')) old.setAttribute("tabindex", "-1");
  const now = about === null ? null : host.querySelector(`[data-main="${CSS.escape(about)}"]`);
  (now ?? host.querySelector("[data-main]"))?.setAttribute("tabindex", "0");
}

/** Puts the focus on a thing that is drawn. */
export function focusOn(host: Element | null, about: KeyPath | null): void {
  const thing = about === null ? null : host?.querySelector(`[data-main="${CSS.escape(about)}"]`);
  if (thing instanceof SVGElement) thing.focus({ preventScroll: true });
}

/** Arrows go along the copper: right to the load, left to the source, up and down along a bar. */
function travel(event: KeyboardEvent, bench: Bench, drawing: PageDrawing): void {
  if (event.ctrlKey || event.altKey || event.metaKey || !(event.target instanceof SVGElement)) return;
  const about = event.target.closest("[data-main]")?.getAttribute("data-main") ?? null;
  const ways = about === null ? undefined : drawing.travel[about];
  const next =
    event.key === "Home" ? drawing.home
    : ways === undefined ? undefined
    : event.key === "ArrowRight" ? ways.next[0]
    : event.key === "ArrowLeft" ? ways.back[0]
    : event.key === "ArrowUp" ? ways.up
    : event.key === "ArrowDown" ? ways.down
    : undefined; // prettier-ignore
  if (next === undefined) return;
  event.preventDefault();
  if (next === null) return;
  bench.select(next);
  focusOn(event.target.closest(".drawing-host"), next);
}

/** Dragging the bare ground moves the sheet. */
function startPan(event: PointerEvent, port: HTMLElement | null): void {
  if (port === null || event.pointerType === "touch" || event.button !== 0) return;
  if (event.target instanceof Element && event.target.closest("[data-path], input, button") !== null) return;
  const [x, y, left, top] = [event.clientX, event.clientY, port.scrollLeft, port.scrollTop];
  const move = (now: PointerEvent): void => {
    port.scrollTo(left + x - now.clientX, top + y - now.clientY);
  };
  const end = (): void => {
    removeEventListener("pointermove", move);
    removeEventListener("pointerup", end);
  };
  addEventListener("pointermove", move);
  addEventListener("pointerup", end);
}
