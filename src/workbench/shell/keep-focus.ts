import type { Bench } from "../contract.ts";

/**
 * Keeps a keyboard's place: when what had the focus goes away with a change, the focus goes to what stands for it: the next button of the same
 * place, the selection in the drawing, the sheet. @returns what stops it
 */
export function keepFocus(bench: Bench): () => void {
  let last: { readonly element: Element; readonly places: readonly Element[] } | null = null;
  const see = ({ target }: FocusEvent): void => {
    if (!(target instanceof Element)) return;
    const places: Element[] = [];
    for (let at = target.parentElement; at !== null && at !== document.body; at = at.parentElement) places.push(at);
    last = { element: target, places };
  };
  const look = (): void => {
    if (last === null || last.element.isConnected || document.activeElement !== document.body) return;
    const { places } = last;
    last = null;
    const place = places.find((p) => p.isConnected);
    const near = place?.id === "sheet" ? null : place?.querySelector<HTMLElement>("button, input, a[href]");
    const { selection } = bench.state;
    const drawn = selection === null ? null : document.querySelector(`[data-main="${CSS.escape(selection)}"]`);
    const to = near ?? drawn ?? document.querySelector("#sheet");
    if (to instanceof HTMLElement || to instanceof SVGElement) to.focus({ preventScroll: true });
  };
  const stop = bench.subscribe(() => {
    // After the views have followed.
    requestAnimationFrame(() => requestAnimationFrame(look));
  });
  addEventListener("focusin", see);
  return () => {
    stop();
    removeEventListener("focusin", see);
  };
}
