import { test } from "vitest";
import assert from "node:assert/strict";
import { cleanText } from "./clean-text.ts";
import { inks } from "./inks.ts";
import { lineCap } from "./line-cap.ts";
import type { Item, Scene, Shape } from "./scene.ts";
import { writeSvg } from "./write-svg.ts";

const sceneOf = (...shapes: readonly Shape[]): Scene => ({
  width: 210,
  height: 297,
  title: "One-line",
  says: "What feeds what.",
  items: [{ role: "symbol", about: "parts.fridge", name: "fridge, 4 A", shapes }],
});
const pen = { ink: "ink", width: 0.25 } as const;

test("a sheet has its size in millimetres, a title and a sentence", () => {
  const svg = writeSvg(sceneOf());
  assert.match(svg, /width="210mm" height="297mm" viewBox="0 0 210 297"/);
  assert.match(svg, /<title>One-line<\/title>\n<desc>What feeds what\.<\/desc>/);
});

test("each item says what it stands for; what repeats another is hidden from readers who cannot see it", () => {
  const items: readonly Item[] = [
    { role: "wire", about: "circuits.W13", name: "feeder", shapes: [] },
    { role: "caption", about: null, name: "", shapes: [] },
  ];
  const svg = writeSvg({ ...sceneOf(), items });
  assert.match(svg, /<g data-role="wire" data-path="circuits\.W13" role="img"><title>feeder<\/title><\/g>/);
  assert.match(svg, /<g data-role="caption" aria-hidden="true"><\/g>/);
});

test("shapes are written as they are, to a hundredth of a millimetre", () => {
  const cases: [Shape, string][] = [
    [{ is: "polyline", points: [[1 / 3, -0.001], [2, 3]], stroke: pen }, '<path d="M0.33 0L2 3" class="s-ink" stroke-width="0.25"/>'], // prettier-ignore
    [{ is: "polyline", points: [[0, 0], [1, 0], [1, 1]], closed: true, fill: "warn" }, '<path d="M0 0L1 0L1 1Z" class="f-warn"/>'], // prettier-ignore
    [{ is: "rectangle", from: [5, 7], to: [1, 2], radius: 1, fill: "paper", stroke: pen }, '<rect x="1" y="2" width="4" height="5" rx="1" class="s-ink f-paper" stroke-width="0.25"/>'], // prettier-ignore
    [{ is: "ellipse", centre: [1, 2], radii: [3, 4] }, '<ellipse cx="1" cy="2" rx="3" ry="4"/>'],
    [{ is: "arc", from: [0, 0], to: [2, 0], radius: 1.5, large: true, sweep: false, stroke: pen }, '<path d="M0 0A1.5 1.5 0 1 0 2 0" class="s-ink" stroke-width="0.25"/>'], // prettier-ignore
    [{ is: "polyline", points: [[0, 0], [9, 0]], stroke: { ...pen, dash: [1, 0.6] } }, '<path d="M0 0L9 0" class="s-ink" stroke-width="0.25" stroke-dasharray="1 0.6" stroke-linecap="butt"/>'], // prettier-ignore
    // 2.5 mm of 698 thousandths.
    [{ is: "text", at: [1, 2], text: "F1", capMm: 2.5, weight: "semibold", anchor: "end", ink: "ink2" }, '<text x="1" y="2" font-size="3.58" text-anchor="end" font-weight="600" class="f-ink2">F1</text>'], // prettier-ignore
  ];
  for (const [shape, text] of cases)
    assert.ok(writeSvg(sceneOf(shape)).includes(`<title>fridge, 4 A</title>${text}</g>`), text);
});

test("the same scene gives the same text, without ids that could meet another drawing's", () => {
  const scene = sceneOf({ is: "ellipse", centre: [1, 2], radii: [3, 4], stroke: pen });
  assert.equal(writeSvg(scene), writeSvg(structuredClone(scene)));
  assert.doesNotMatch(writeSvg(scene), /\sid=/);
});

test("a plan cannot put markup, style or a change of direction into a drawing", () => {
  const evil = `"/><script>alert(1)</script>&'\u0000\u202e`;
  const text: Shape = { is: "text", at: [0, 0], text: evil, capMm: 2, weight: "regular", anchor: "start", ink: "ink" };
  const scene: Scene = {
    ...sceneOf(),
    title: evil,
    says: evil,
    items: [{ role: "mark", about: evil, name: evil, shapes: [text] }],
  };
  const svg = writeSvg(scene);
  assert.doesNotMatch(svg, /<script|\u0000|\u202e/);
  const safe = "&quot;/&gt;&lt;script&gt;alert(1)&lt;/script&gt;&amp;&#39;�";
  assert.equal(svg.split(safe).length - 1, 5);
  const url = `x"}*{fill:url(http://evil)}</style><script>`;
  const faced = writeSvg(scene, { embedFont: { regular: url, semibold: "data:font/ttf;base64,AA+/=" } });
  assert.doesNotMatch(faced, /<script|url\("x"|<\/style>.*<\/style>/s);
  assert.ok(faced.includes("url(&quot;data:font/ttf;base64,AA+/=&quot;)"));
});

test("a place that is no number is our own defect, and thrown", () => {
  assert.throws(() => writeSvg(sceneOf({ is: "polyline", points: [[NaN, 0]], stroke: pen })), RangeError);
});

test("inks are variables that a page may set, light on paper whatever the screen", () => {
  const svg = writeSvg(sceneOf());
  assert.ok(svg.includes(".s-ink{stroke:#14202B;stroke:var(--ww-ink,#14202B)}"));
  assert.match(svg, /@media print\{\.wireworthy\{--ww-ink:#14202B!important/);
  assert.doesNotMatch(svg, /prefers-color-scheme/);
  assert.match(
    writeSvg(sceneOf(), { darkScreens: true }),
    /@media screen and \(prefers-color-scheme:dark\)\{\.wireworthy\{--ww-ink:#E8EDF0/,
  );
});

/** WCAG 2.1, relative luminance and contrast ratio. */
const luminance = (colour: string): number => {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const share = parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const contrast = (a: string, b: string): number => {
  const [dark = 0, light = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
};

test("what is read has the contrast that WCAG 2.1 asks of text, on paper and on a dark screen, and so in grey", () => {
  for (const theme of ["light", "dark"] as const) {
    const on = (ink: keyof typeof inks) => contrast(inks[ink][theme], inks.paper[theme]);
    // 1.4.6 for running text, 1.4.3 for the rest, 1.4.11 for lines with a meaning.
    for (const ink of ["ink", "ink2"] as const) assert.ok(on(ink) >= 7, `${ink} ${theme}`);
    for (const ink of ["fail", "warn", "pass", "unknown", "focus", "frame"] as const)
      assert.ok(on(ink) >= 4.5, `${ink} ${theme}`);
    // Hairlines only part cells.
    assert.ok(on("hair") >= 1.5 && on("hair") < 3, theme);
  }
});

test("dashes have flat ends so that their gaps stay, dots round ones", () => {
  assert.equal(lineCap(pen), "round");
  assert.equal(lineCap({ ...pen, dash: [1, 0.6] }), "butt");
  assert.equal(lineCap({ ...pen, dash: [3, 0.8, 0.1, 0.8] }), "round");
});

test("what no paper can show is replaced by one sign", () => {
  assert.equal(cleanText("a\tb\u{d800}c"), "a�b�c");
  assert.equal(cleanText("冷蔵庫 Ω ½ é"), "冷蔵庫 Ω ½ é");
});
