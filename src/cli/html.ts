import { holdFigures } from "./text-width.ts";

/** Text as it may stand in HTML, between tags or in a quoted attribute; what steers a page or turns its writing becomes a dot. */
export const escapeHtml = (text: string): string =>
  holdFigures(text)
    .replace(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2060-\u206f]/g, "·")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll("'", "&#39;");

/** A tag with text in it. */
export const tag = (name: string, text: string, className = ""): string =>
  `<${name}${className === "" ? "" : ` class="${className}"`}>${escapeHtml(text)}</${name}>`;
