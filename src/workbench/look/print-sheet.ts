import type { ShownDrawing } from "../../act/wire-card/index.ts";
import "./print-sheet.css";

/**
 * Prints the sides of a sheet alone, on paper of their own size and at true size. The page stands aside while the browser prints, and comes back whatever is
 * chosen there.
 */
export function printSheet(sides: readonly ShownDrawing[]): void {
  const [first] = sides;
  if (first === undefined) return;
  const { width, height } = first;
  const sheet = document.createElement("div");
  sheet.className = "sheet-printed";
  // Our own drawings: what they write is escaped there.
  sheet.innerHTML = sides.map(({ svg }) => svg).join("");
  const style = document.createElement("style");
  style.textContent = `@page { size: ${width}mm ${height}mm; margin: 0 }`;
  document.head.append(style);
  document.body.append(sheet);
  document.body.classList.add("sheet-printing");
  addEventListener(
    "afterprint",
    () => {
      document.body.classList.remove("sheet-printing");
      sheet.remove();
      style.remove();
    },
    { once: true },
  );
  print();
}
