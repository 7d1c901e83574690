/** What a drawing needs to know of a font. */
export interface Font {
  readonly unitsPerEm: number;
  readonly capHeight: number;
  /** Advance width of a character in units of the font; null: it has no glyph. */
  readonly advance: (codePoint: number) => number | null;
  /** Every character that has a glyph, in rising order. */
  readonly characters: readonly number[];
}

/**
 * Reads widths from a TrueType font.
 *
 * @source OpenType 1.9: tables head (unitsPerEm), hhea and hmtx (advances), OS/2 (sCapHeight), cmap formats 4 and 12
 */
export function readFont(bytes: Uint8Array): Font {
  const data = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const u16 = (at: number) => data.getUint16(at);
  const u32 = (at: number) => data.getUint32(at);
  const tables = new Map<string, number>();
  for (let i = 0; i < u16(4); i++) {
    const at = 12 + 16 * i;
    tables.set(String.fromCharCode(...bytes.subarray(at, at + 4)), u32(at + 8));
  }
  const table = (tag: string): number => {
    const at = tables.get(tag);
    if (at === undefined) throw new Error(`the font has no table ${tag}`);
    return at;
  };
  const metrics = u16(table("hhea") + 34);
  const widthOf = (glyph: number) => u16(table("hmtx") + 4 * Math.min(glyph, metrics - 1));
  const glyphs = readCharacters(data, table("cmap"));
  return {
    unitsPerEm: u16(table("head") + 18),
    capHeight: u16(table("OS/2") + 88),
    advance: (codePoint) => {
      const glyph = glyphs.get(codePoint);
      return glyph === undefined ? null : widthOf(glyph);
    },
    characters: [...glyphs.keys()].sort((a, b) => a - b),
  };
}

/** Character → glyph, of the Unicode map that reaches furthest. */
function readCharacters(data: DataView, cmap: number): Map<number, number> {
  const u16 = (at: number) => data.getUint16(at);
  const u32 = (at: number) => data.getUint32(at);
  const maps = Array.from({ length: u16(cmap + 2) }, (_, i) => {
    const at = cmap + 4 + 8 * i;
    return { platform: u16(at), encoding: u16(at + 2), start: cmap + u32(at + 4) };
  }).filter(({ platform, encoding }) => platform === 0 || (platform === 3 && (encoding === 1 || encoding === 10)));
  const glyphs = new Map<number, number>();
  for (const { start } of maps) {
    if (u16(start) === 12) {
      for (let group = 0; group < u32(start + 12); group++) {
        const at = start + 16 + 12 * group;
        for (let c = u32(at); c <= u32(at + 4); c++) glyphs.set(c, u32(at + 8) + c - u32(at));
      }
    } else if (u16(start) === 4) {
      const twice = u16(start + 6);
      for (let segment = 0; segment < twice; segment += 2) {
        const end = u16(start + 14 + segment);
        const first = u16(start + 16 + twice + segment);
        const delta = u16(start + 16 + 2 * twice + segment);
        const rangeAt = start + 16 + 3 * twice + segment;
        const range = u16(rangeAt);
        for (let c = first; c <= end && c < 0xffff; c++) {
          const listed = range === 0 ? c : u16(rangeAt + range + 2 * (c - first));
          const glyph = range !== 0 && listed === 0 ? 0 : (listed + delta) & 0xffff;
          if (glyph !== 0) glyphs.set(c, glyph);
        }
      }
    }
  }
  return glyphs;
}
