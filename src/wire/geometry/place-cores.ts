/** Where equal circles lie beside each other in a round cable. */
export interface PlacedCores {
  /** Centres, in units of the radius of one circle, inner layers first. */
  readonly centres: readonly (readonly [x: number, y: number])[];
  /** Circle round all of them over one of them: the cabling factor. */
  readonly factor: number;
}

const known: PlacedCores[] = [];

/** How far a layer may stand off its kernel, in radii: cores are laid about something. Eight about one (0.61) is done, nine about one (0.92) is not. */
const STAND_OFF = 0.65;

/**
 * Cores of equal thickness laid up in a round cable: up to five in a ring, more in layers about the smallest kernel.
 *
 * Fillers are not drawn. Makers of cable lay cores so that the cable stays round, which for 8 and 9 cores takes a little more room than this.
 *
 * @param count 1 or more
 * @returns centres and the cabling factor: 1, 2, 2.155, 2.414, 2.701, 3, 3, 3.305, 3.613, 4, 4.155 (12), 4.414 (14), 4.701 (16), 5 (19)
 * @accuracy exact for the layers chosen; denser heaps without layers exist from 10 up, but are not cabled
 * @source geometry of circles; the factors of IEC 60502-1 annex A are these rounded, but 3.45 and 3.80 for 8 and 9
 * @example
 * placeCores(3).factor //=> 2.1547
 * placeCores(12).factor //=> 4.1547
 */
export function placeCores(count: number): PlacedCores {
  for (let n = known.length + 1; n <= count; n++) known.push(lay(n));
  const placed = known[count - 1];
  if (placed === undefined) throw new RangeError(`a cable of ${count} cores cannot be laid up`);
  return placed;
}

function lay(count: number): PlacedCores {
  const ring = (n: number, radius: number, turn: number): [number, number][] =>
    Array.from({ length: n }, (_, i) => {
      const angle = turn + (2 * Math.PI * i) / n - Math.PI / 2;
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    });
  if (count === 1) return { centres: [[0, 0]], factor: 1 };
  // Two cores lie side by side, others have one on top.
  const touching = (n: number): number => (n === 1 ? 0 : 1 / Math.sin(Math.PI / n));
  let best: PlacedCores = {
    centres: ring(count, touching(count), count === 2 ? Math.PI / 2 : 0),
    factor: touching(count) + 1,
  };
  for (let kernel = 1; kernel < count; kernel++) {
    const inner = known[kernel - 1];
    if (inner === undefined || count - kernel < 2) break;
    const radius = Math.max(inner.factor + 1, touching(count - kernel));
    if (radius <= inner.factor + 1 + STAND_OFF && radius + 1 < best.factor - 1e-9)
      best = { centres: [...inner.centres, ...ring(count - kernel, radius, 0)], factor: radius + 1 };
  }
  return best;
}
