/** A note that is to be placed beside the drawing; px from the top of the margin. */
export interface NoteToLay {
  readonly key: string;
  /** Where its place in the drawing is. */
  readonly target: number;
  readonly height: number;
}

export interface LaidNote {
  readonly key: string;
  readonly top: number;
}

/**
 * Places notes beside what they speak of: in the order of their targets, each at its target's height where that is free, else below the one before
 * it; where the foot is too near the last ones move up.
 *
 * @param notes sorted by target; together no higher than `room`
 * @param gap between two notes
 * @example
 * layNotes([{ key: "a", target: 10, height: 40 }, { key: "b", target: 20, height: 40 }], 200, 8).map(({ top }) => top) //=> [10,58]
 */
export function layNotes(notes: readonly NoteToLay[], room: number, gap: number): LaidNote[] {
  const tops: number[] = [];
  let free = 0;
  for (const note of notes) {
    const top = Math.max(free, note.target);
    tops.push(top);
    free = top + note.height + gap;
  }
  let foot = room;
  for (let i = notes.length - 1; i >= 0; i--) {
    const note = notes[i];
    if (note === undefined) continue;
    tops[i] = Math.max(0, Math.min(tops[i] ?? 0, foot - note.height));
    foot = (tops[i] ?? 0) - gap;
  }
  return notes.map(({ key }, i) => ({ key, top: tops[i] ?? 0 }));
}

/** From a place in the drawing to its note; px in the frame of the gutter. */
export interface Leader {
  readonly key: string;
  readonly points: readonly (readonly [x: number, y: number])[];
}

/**
 * Lines from places to notes that never cross: each runs level, turns once in the gutter, and runs level again. Those that go down turn the
 * earlier the lower they start, those that go up the later.
 *
 * @param ends from top to bottom on both sides: where each starts and at which height its note is
 * @param gutter width between drawing and notes
 * @param apart least distance of two turns
 */
export function drawLeaders(
  ends: readonly { readonly key: string; readonly x: number; readonly from: number; readonly to: number }[],
  gutter: { readonly left: number; readonly right: number },
  apart: number,
): Leader[] {
  const width = gutter.right - gutter.left;
  const step = Math.min(apart, width / (ends.length + 1));
  return ends.map(({ key, x, from, to }, i) => {
    if (Math.abs(from - to) < 0.5) return { key, points: [[x, from], [gutter.right, to]] }; // prettier-ignore
    const down = to > from;
    const turn = down ? gutter.right - step * (i + 1) : gutter.left + step * (i + 1);
    return { key, points: [[x, from], [turn, from], [turn, to], [gutter.right, to]] }; // prettier-ignore
  });
}
