/** Colours of the mark: ink, and the one accent. */
const INK = "#16202a";
const ACCENT = "#5b2d86";
const PAPER = "#ffffff";

/*
 *      ___
 *    /     \________
 *   |   o   |_______====    a ring terminal, its barrel, and the wire that comes from it
 *    \ ___ /
 */

/**
 * The mark of the page: a ring terminal crimped to its wire.
 *
 * @param margin of the square left free on each side, 0 … 0.25; systems that cut icons into shapes of their own keep the inner 80 %
 */
export function pageIcon(margin = 0): string {
  const scale = 1 - 2 * margin;
  const move = 512 * margin;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 512 512" width="512" height="512">
<rect width="512" height="512" fill="${PAPER}"/>
<g transform="translate(${move} ${move}) scale(${scale})">
<path d="M384 256H1024" stroke="${ACCENT}" stroke-width="56"/>
<path d="M256 212H400V300H256Z" fill="${INK}"/>
<path d="M320 212V300M352 212V300" stroke="${PAPER}" stroke-width="10"/>
<circle cx="168" cy="256" r="104" fill="${PAPER}" stroke="${INK}" stroke-width="56"/>
<circle cx="168" cy="256" r="28" fill="${ACCENT}"/>
</g>
</svg>
`;
}

export interface IconFile {
  readonly src: string;
  /** `192x192`, or `any` for a drawing. */
  readonly sizes: string;
  readonly type: "image/svg+xml" | "image/png";
  readonly purpose: "any" | "maskable";
}

/** What a browser reads to install the page: `manifest.webmanifest`. */
export function webManifest(icons: readonly IconFile[]): string {
  const manifest = {
    name: "Wireworthy",
    short_name: "Wireworthy",
    description: "From a plan of an electrical build to a sized, protected and explained wiring design.",
    lang: "en-GB",
    id: "./",
    start_url: "./",
    scope: "./",
    display: "standalone",
    background_color: PAPER,
    theme_color: PAPER,
    icons,
  };
  return `${JSON.stringify(manifest, null, 2)}\n`;
}
