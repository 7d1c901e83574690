import { escapeHtml, tag } from "./html.ts";

/** A list of sentences. */
export const list = (items: readonly string[]): string =>
  items.length === 0 ? tag("p", "Nothing.") : `<ul>${items.map((text) => tag("li", text)).join("")}</ul>`;

/** A cell of a table: its lines, and whether it stands to the right. */
export interface Cell {
  readonly text: readonly string[];
  readonly isNumber: boolean;
}

/** A table that scrolls by itself where it is too wide. */
export function table(head: readonly string[], rows: readonly (readonly Cell[])[]): string {
  const cell = ({ text, isNumber }: Cell): string =>
    `<td${isNumber ? ' class="n"' : ""}>${text.map(escapeHtml).join("<br>")}</td>`;
  return [
    '<div class="wide"><table><thead><tr>',
    ...head.map((h) => tag("th", h)),
    "</tr></thead><tbody>",
    ...rows.map((row) => `<tr>${row.map(cell).join("")}</tr>`),
    "</tbody></table></div>",
  ].join("");
}
