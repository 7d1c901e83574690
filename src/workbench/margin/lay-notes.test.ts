import fc from "fast-check";
import { test } from "vitest";
import assert from "node:assert/strict";
import { drawLeaders, layNotes } from "./lay-notes.ts";

const note = fc.record({ target: fc.integer({ min: -50, max: 900 }), height: fc.integer({ min: 20, max: 120 }) });
const some = fc
  .array(note, { minLength: 1, maxLength: 12 })
  .map((list) => [...list].sort((a, b) => a.target - b.target).map((n, i) => ({ ...n, key: String(i) })));

test("notes that fit never overlap, stay inside and keep the order of their targets", () => {
  fc.assert(
    fc.property(some, fc.integer({ min: 0, max: 600 }), (notes, more) => {
      const room = notes.reduce((sum, n) => sum + n.height + 8, 0) + more;
      const laid = layNotes(notes, room, 8);
      laid.forEach(({ top }, i) => {
        const height = notes[i]?.height ?? 0;
        assert.ok(top >= 0 && top + height <= room);
        const next = laid[i + 1];
        if (next !== undefined) assert.ok(top + height + 8 <= next.top + 1e-9);
      });
    }),
  );
});

type Stretch = readonly [readonly [number, number], readonly [number, number]];

/** Whether two level or upright stretches meet. */
function meet([[ax, ay], [bx, by]]: Stretch, [[cx, cy], [dx, dy]]: Stretch): boolean {
  const within = (v: number, p: number, q: number) => v >= Math.min(p, q) && v <= Math.max(p, q);
  const overlap = (p: number, q: number, r: number, s: number) =>
    Math.max(Math.min(p, q), Math.min(r, s)) <= Math.min(Math.max(p, q), Math.max(r, s));
  const [levelA, levelC] = [ay === by, cy === dy];
  if (levelA && levelC) return ay === cy && overlap(ax, bx, cx, dx);
  if (!levelA && !levelC) return ax === cx && overlap(ay, by, cy, dy);
  return levelA ? within(cx, ax, bx) && within(ay, cy, dy) : within(ax, cx, dx) && within(cy, ay, by);
}

test("leaders never cross", () => {
  fc.assert(
    fc.property(some, (notes) => {
      const room = notes.reduce((sum, n) => sum + n.height + 8, 0) + 300;
      // Two things at one height would share a line: the drawing keeps rows apart.
      const apart = notes.map((n, i) => ({ ...n, target: n.target + i * 3 }));
      const laid = layNotes(apart, room, 8);
      const ends = laid.map(({ key, top }, i) => ({ key, x: 0, from: apart[i]?.target ?? 0, to: top + 12 }));
      const lines = drawLeaders(ends, { left: 10, right: 46 }, 6).map(({ points }) =>
        points.slice(1).map((p, i): Stretch => [points[i] ?? p, p]),
      );
      lines.forEach((a, i) => {
        lines.slice(i + 1).forEach((b) => {
          for (const s of a) for (const t of b) assert.ok(!meet(s, t), JSON.stringify({ ends, s, t }));
        });
      });
    }),
  );
});
