/** Tells the drawing that is on the page what a key or a button asks of it: `in`, `out`, `fit`, `field:length`. */
export function orderDrawing(order: string): void {
  document.querySelector(".drawing-port")?.dispatchEvent(new CustomEvent("bench-order", { detail: order }));
}
