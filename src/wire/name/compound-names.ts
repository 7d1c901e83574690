import type { CableCores, CableFamily, PrintedSize, WireMake } from "../make/wire-make.ts";
import { bareSize, ownSystems, sizeNames } from "./size-names.ts";
import type { NameDialect } from "./wire-name.ts";

/** The words that name a family where its type does not. */
const familyWords: Readonly<Record<CableFamily, string>> = {
  "building cable": "building cable",
  "boat cable": "boat cable",
  "flexible cord": "flexible cord",
  "harmonised cable": "flex",
  "twin and earth": "twin and earth",
  "japanese building cable": "VVF",
  "building wire": "building wire",
  "vehicle wire": "vehicle wire",
  "trailer cable": "trailer cable",
  "battery cable": "battery cable",
  "welding cable": "welding cable",
  "speaker cable": "speaker cable",
  "solar cable": "solar cable",
  "service cable": "service cable",
};

/** Words that are understood as well, where there is no room: a sleeve. */
const shortWords: Readonly<Partial<Record<CableFamily, string>>> = { "boat cable": "boat", "flexible cord": "cord" };

/** What stands behind the figures to name the kind; one empty word: nothing. */
function kindWords({ type, family }: WireMake, isShort: boolean): readonly string[] {
  if (type !== null) return [type];
  if (family === null) return [""];
  const short = isShort ? (shortWords[family] ?? null) : null;
  return short === null ? [familyWords[family]] : [short, familyWords[family]];
}

/** Whether a label names the conductors only by their size: one conductor, or nothing is said of cores. */
export const isSingle = ({ cores }: Pick<WireMake, "cores">): boolean =>
  cores === null || (cores.total === 1 && cores.ground === "none");

/**
 * Size, conductors and type of a make in one name, in the ways in which a dialect puts them; shortest first. Many of them can be read as something
 * else: who takes one reads it back.
 *
 * @param isShort the kind may be cut down to one word
 * @returns empty where nothing can be put together: no size is known
 */
export function compoundNames(make: WireMake, dialect: NameDialect, isShort = false): readonly string[] {
  const { size } = make;
  if (size === null) return [];
  const way: Way = { words: kindWords(make, isShort), dialect, isShort };
  const bare = isSingle(make) ? singleNames(make, size, way) : cableNames(make, size, make.cores, way);
  const named = make.runs === 1 ? bare : bare.flatMap((name) => runNames(name, make, size));
  return [...new Set(named)].sort((a, b) => a.length - b.length);
}

interface Way {
  /** What names the kind. */
  readonly words: readonly string[];
  readonly dialect: NameDialect;
  readonly isShort: boolean;
}

function runNames(name: string, make: WireMake, size: PrintedSize): string[] {
  const inside = isSingle(make) && size.system === "mm²" ? [`${make.runs}x(1x${bareSize(size)})`] : [];
  return [...inside, `${make.runs}x(${name})`, `${make.runs} runs of ${name}`];
}

function singleNames({ type }: WireMake, size: PrintedSize, { words, dialect }: Way): string[] {
  const sizes = sizeNames(size, dialect);
  if (type === null) return sizes.flatMap((s) => words.map((word) => `${s} ${word}`.trim()));
  const typeFirst = dialect !== "north american" && dialect !== "boat" && dialect !== "australian";
  return [
    ...(size.system === "mm²" && typeFirst ? [`${type} ${bareSize(size)}`, `${type} 1X${bareSize(size)}`] : []),
    ...sizes.flatMap((s) => (typeFirst ? [`${type} ${s}`, `${s} ${type}`] : [`${s} ${type}`, `${type} ${s}`])),
  ];
}

function cableNames(make: WireMake, size: PrintedSize, cores: CableCores | null, way: Way): string[] {
  if (cores === null) return [];
  const listed = listedNames(size, cores, way);
  if (listed.length > 0) return listed;
  if (cores.insulated === 0) return [`${size.label} bare ground`];
  if (make.family === "twin and earth") return earthNames(make, size, cores, way);
  if (make.family === "japanese building cable" && size.system === "solid diameter")
    return [`${bareSize(size)}-${cores.insulated}C`, `${bareSize(size)} mm ${cores.insulated}C`].map(
      (name) => `${make.type ?? "VVF"} ${name}`,
    );
  return size.system === "mm²" || size.system === "JIS" || size.system === "SAE metric label"
    ? metricNames(make, size, cores, way)
    : gaugeNames(make, size, cores, way);
}

/** The sizes of all conductors one by one, those of a size of their own last. */
export function eachSize(size: PrintedSize, { total, others }: CableCores): readonly PrintedSize[] {
  const times = (count: number, one: PrintedSize): PrintedSize[] =>
    Array.from({ length: Math.max(0, count) }, () => one);
  const rest = others.reduce((sum, { count }) => sum + count, 0);
  return [...times(total - rest, size), ...others.flatMap((other) => times(other.count, other.size))];
}

/** `4/0-4/0-2/0`: feeders are named conductor by conductor. */
function listedNames(size: PrintedSize, cores: CableCores, { words }: Way): string[] {
  if (cores.others.length === 0) return [];
  const list = eachSize(size, cores).map(bareSize).join("-");
  return [list, ...words.map((word) => `${list} ${word}`.trim())];
}

/** `2.5 mm² twin and earth`, `1.5 mm² three core and earth`, by its number `6242Y`; the thinner earth behind a stroke where it is known. */
function earthNames(
  { type }: WireMake,
  size: PrintedSize,
  { insulated, groundSize }: CableCores,
  { isShort }: Way,
): string[] {
  const sizes = [size.label, ...(groundSize === null ? [] : [`${bareSize(size)}/${bareSize(groundSize)} mm²`])];
  const two = isShort ? ["T&E", "twin and earth"] : ["twin and earth"];
  const words = insulated === 2 ? two : insulated === 3 ? ["three core and earth", "3 core and earth"] : [];
  const own = type === null || type === "T&E" ? [] : [type, `${insulated}C+E ${type}`];
  return [...words, ...own].flatMap((word) => sizes.map((s) => `${s} ${word}`));
}

/** `3G2.5`: G holds a green-yellow conductor, X none, and where a letter of the type tells, x only means `times`. */
function metricNames(
  { type, family }: WireMake,
  size: PrintedSize,
  cores: CableCores,
  { words, dialect }: Way,
): string[] {
  const { insulated, total, ground, groundSize } = cores;
  const sign = ground === "insulated" ? "G" : ground === "none" ? "X" : "x";
  const s = bareSize(size);
  const unit = size.system === "JIS" ? " SQ" : " mm²";
  const behind = groundSize !== null ? `/${bareSize(groundSize)}` : "";
  const counts = ground === "concentric" ? [`${insulated}x${s}${behind || `/${s}`}`] : [`${total}${sign}${s}${behind}`];
  if (type !== null && /-[JO]$/.test(type)) counts.unshift(`${total}x${s}${behind}`);
  if (size.system === "JIS") counts.push(`${s}SQ-${insulated}C`, `${s}SQ x ${insulated}C`);
  const flex =
    dialect === "british" && ground === "insulated" ? [`${total}-core ${s} mm² flex`, `${total}-core ${s} flex`] : [];
  // A typeless European cable is what figures with G or X mean by themselves.
  const kinds = type === null && family === "harmonised cable" ? [""] : words;
  const plain = [
    ...counts.flatMap((count) => [count, `${count}${unit}`]),
    ...(ground === "none" ? [`${total}-core ${s}${unit} without ground`] : []),
  ];
  return [
    ...(type === null && (family === null || family === "harmonised cable") ? flex : []),
    ...kinds.flatMap((word) => plain.map((count) => (type === null ? `${count} ${word}` : `${word} ${count}`).trim())),
  ];
}

/** `12/2 w/G NM-B`, `14/3 boat cable`: what the second number counts hangs on the words behind it. */
function gaugeNames({ family }: WireMake, size: PrintedSize, cores: CableCores, { words, isShort }: Way): string[] {
  const { insulated, total, ground } = cores;
  const g = bareSize(size);
  const withGround = ground === "bare" ? " w/G" : "";
  // Building cable counts what is insulated, but for a green one.
  const isGreenExtra = family === "building cable" && ground === "insulated";
  const count = isGreenExtra ? insulated - 1 : family === "building cable" || ground === "bare" ? insulated : total;
  const without = isGreenExtra
    ? " with insulated ground"
    : ground === "none" && (family === "building cable" || family === null)
      ? " without ground"
      : "";
  const pairs = /^\d+$/.test(g) ? [`${g}/${count}`] : [`${g}-${count}`];
  return words.flatMap((word) => [
    ...(family === "boat cable" && ground === "insulated"
      ? // Behind a boat cable `w/G` is easily taken for one wire more.
        pairs.map((pair) => `${pair} ${total === 3 ? "triplex" : "w/G"} ${word}`)
      : []),
    ...pairs.map((pair) => `${pair}${withGround} ${word}${without}`.trim()),
    `${size.label} ${count}C${withGround} ${word}${without}`.trim(),
    `${size.label} ${count}-conductor${withGround} ${word}${without}`.trim(),
    ...(without === "" ? [] : pairs.map((pair) => `${pair} ${word}`.trim())),
    ...(ground === "bare" && isShort ? pairs.map((pair) => `${pair} w/G`) : []),
  ]);
}

/** Whether a dialect thinks in the system of a size. */
export const isOwnSize = (size: PrintedSize, dialect: NameDialect): boolean =>
  ownSystems[dialect].includes(size.system);
