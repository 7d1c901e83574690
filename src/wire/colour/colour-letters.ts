/** A colour of insulation: its letters, its name, what else people write for it. */
export interface BaseColour {
  /** Of IEC 60757 where that has the colour (`own: false`), else letters of our own: light and dark shades, tan, clear, bare. */
  readonly letters: string;
  readonly name: string;
  readonly own: boolean;
}

/** Every colour a wire may have, in the order of IEC 60757, then ours. */
export const baseColours = [
  { letters: "BK", name: "black", own: false },
  { letters: "BN", name: "brown", own: false },
  { letters: "RD", name: "red", own: false },
  { letters: "OG", name: "orange", own: false },
  { letters: "YE", name: "yellow", own: false },
  { letters: "GN", name: "green", own: false },
  { letters: "BU", name: "blue", own: false },
  { letters: "VT", name: "violet", own: false },
  { letters: "GY", name: "grey", own: false },
  { letters: "WH", name: "white", own: false },
  { letters: "PK", name: "pink", own: false },
  { letters: "GD", name: "gold", own: false },
  { letters: "TQ", name: "turquoise", own: false },
  { letters: "SR", name: "silver", own: false },
  { letters: "GNYE", name: "green-yellow", own: false },
  { letters: "LBU", name: "light blue", own: true },
  { letters: "DBU", name: "dark blue", own: true },
  { letters: "LGN", name: "light green", own: true },
  { letters: "DGN", name: "dark green", own: true },
  { letters: "LGY", name: "light grey", own: true },
  { letters: "DGY", name: "dark grey", own: true },
  { letters: "TN", name: "tan", own: true },
  { letters: "CR", name: "cream", own: true },
  { letters: "CL", name: "clear", own: true },
  { letters: "BARE", name: "bare", own: true },
] as const satisfies readonly BaseColour[];

/** Letters of a colour, as {@link baseColours} has them. */
export type ColourLetters = (typeof baseColours)[number]["letters"];

/** Names of each colour in full: English, then German, French, Spanish, Italian, Dutch, Portuguese, Russian, Japanese. */
const names: Readonly<Record<ColourLetters, string>> = {
  BK: "black schwarz noir negro nero zwart preto чёрный черный 黒",
  BN: "brown braun brun marron marrón bruin marrone marrom коричневый 茶",
  RD: "red rot rouge rojo rosso rood vermelho красный 赤",
  OG: "orange naranja arancio arancione oranje laranja оранжевый 橙",
  YE: "yellow gelb jaune amarillo giallo geel amarelo жёлтый желтый 黄",
  GN: "green grün gruen vert verde groen зелёный зеленый 緑",
  BU: "blue blau bleu azul blu blauw синий 青",
  VT: "violet purple violett lila violeta viola paars фиолетовый 紫",
  GY: "grey gray slate grau gris grigio grijs cinza серый 灰",
  WH: "white weiß weiss blanc blanco bianco wit branco белый 白",
  PK: "pink rosa rose roze розовый 桃",
  GD: "gold golden",
  TQ: "turquoise türkis turquesa turchese",
  SR: "silver silber",
  GNYE: "grüngelb gelbgrün gruengelb gelbgruen greenyellow",
  LBU: "hellblau celeste голубой 水色 lightblue",
  DBU: "dunkelblau navy darkblue",
  LGN: "hellgrün lightgreen",
  DGN: "dunkelgrün darkgreen",
  LGY: "hellgrau lightgrey lightgray",
  DGY: "dunkelgrau darkgrey darkgray",
  TN: "tan beige",
  CR: "cream ivory",
  CL: "clear transparent",
  BARE: "bare",
};

/** `name → letters`, names in small letters. */
export const colourNames: ReadonlyMap<string, ColourLetters> = new Map(
  baseColours.flatMap(({ letters }) => names[letters].split(" ").map((name) => [name, letters] as const)),
);

/** Letters that every dialect reads alike: IEC 60757, the American shortenings, the German two letters that no other list has. */
export const clearLetters: Readonly<Record<string, ColourLetters>> = {
  ...Object.fromEntries(baseColours.filter(({ own }) => !own).map(({ letters }) => [letters, letters])),
  BLK: "BK",
  BLCK: "BK",
  SW: "BK",
  BRN: "BN",
  BRWN: "BN",
  BR: "BN",
  RED: "RD",
  RT: "RD",
  ORG: "OG",
  ORN: "OG",
  ORNG: "OG",
  YEL: "YE",
  YLW: "YE",
  YL: "YE",
  GE: "YE",
  GRN: "GN",
  BLU: "BU",
  VIO: "VT",
  VI: "VT",
  PUR: "VT",
  PPL: "VT",
  PRP: "VT",
  GRY: "GY",
  GRA: "GY",
  WHT: "WH",
  WHI: "WH",
  WT: "WH",
  WS: "WH",
  PNK: "PK",
  RS: "PK",
  TAN: "TN",
  LBL: "LBU",
  LBLU: "LBU",
  LTBLU: "LBU",
  DBL: "DBU",
  DBLU: "DBU",
  DKBLU: "DBU",
  LTGRN: "LGN",
  DKGRN: "DGN",
  LTGRY: "LGY",
  DKGRY: "DGY",
};

/** A reading of letters that dialects read differently. */
export interface DialectReading {
  readonly letters: ColourLetters;
  /** Who reads them so. */
  readonly by: string;
}

const one = (letters: ColourLetters, by: string): DialectReading => ({ letters, by });

/**
 * Letters that mean one colour here and another there, each with its readers (memory). Single letters are here even where dialects agree: one letter of
 * a label is too little to call a colour.
 */
export const ambiguousLetters: Readonly<Record<string, readonly DialectReading[]>> = {
  B: [one("BK", "Japanese, American and British car letters"), one("BU", "letters of some makers")],
  BL: [
    one("BU", "German letters (DIN 47002), some Japanese and American lists"),
    one("BK", "some American and marine lists"),
  ],
  GR: [one("GY", "German and Japanese letters"), one("GN", "American letters")],
  G: [one("GN", "Japanese, American and British letters"), one("GY", "letters of some makers")],
  L: [one("BU", "Japanese letters"), one("VT", "letters for lilac")],
  LG: [one("LGN", "Japanese and British letters"), one("LGY", "letters for light grey")],
  LB: [one("LBU", "American letters")],
  DB: [one("DBU", "American letters")],
  DG: [one("DGN", "American letters for dark green"), one("DGY", "letters for dark grey")],
  K: [one("PK", "British letters"), one("BK", "electronics and printing letters")],
  N: [one("BN", "British letters"), one("BU", "a neutral, not a colour")],
  OR: [one("OG", "American letters")],
  O: [one("OG", "Japanese, American and British letters")],
  P: [one("PK", "Japanese and American letters"), one("VT", "British and American letters for purple")],
  PU: [one("VT", "American letters")],
  R: [one("RD", "Japanese, American and British letters")],
  S: [one("GY", "British and telephone letters for slate"), one("SR", "letters for silver")],
  SB: [one("LBU", "Japanese letters for sky blue")],
  T: [one("TN", "American letters"), one("TQ", "letters for turquoise")],
  TN: [one("TN", "American letters")],
  U: [one("BU", "British letters")],
  V: [one("VT", "Japanese and American letters")],
  W: [one("WH", "Japanese, American and British letters")],
  Y: [one("YE", "Japanese, American and British letters")],
};

const nameOf = new Map<string, string>(baseColours.map(({ letters, name }) => [letters, name]));

/**
 * The name of a base colour or tracer.
 *
 * @example
 * nameOfLetters("BN") //=> "brown"
 */
export const nameOfLetters = (letters: string): string => nameOf.get(letters) ?? letters;
