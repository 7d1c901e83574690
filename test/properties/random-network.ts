import type { DcConverter, DcElement, DcNetwork } from "../../src/network/dc-network.ts";

/** Numbers in 0…1 that are the same for the same seed. */
export function seeded(seed: number): () => number {
  let s = (seed * 2654435761) >>> 0;
  return () => {
    // xorshift: the low bits are as good as the high ones
    s ^= s << 13;
    s >>>= 0;
    s ^= s >>> 17;
    s ^= s << 5;
    s >>>= 0;
    return s / 4294967296;
  };
}

export interface RandomNetworkWish {
  readonly seed: number;
  /** Nodes on either side; 2…12 if left out. */
  readonly nodes?: number;
  /** Ties beyond the tree on either side: 0 makes the build radial. Up to 4 if left out. */
  readonly ties?: number;
  readonly stores?: number;
  readonly feeds?: number;
  readonly converters?: number;
  /** Which laws the draws may have. */
  readonly laws?: readonly ("amps" | "watts" | "ohms")[];
  /** Multiplies what is drawn. */
  readonly demand?: number;
}

/**
 * A build by chance: a tree of conductors on the plus side and one on the minus side, both with ties, and between them
 * stores, feeds, draws and converters of the sizes met on boats and in vans. The minus tree begins at `m0`.
 */
export function makeRandomNetwork(wish: RandomNetworkWish): DcNetwork {
  const random = seeded(wish.seed + 1);
  const between = (lo: number, hi: number) => lo + (hi - lo) * random();
  const whole = (most: number) => Math.floor(random() * (most + 1));
  const nodes = wish.nodes ?? 2 + whole(10);
  const elements: DcElement[] = [];
  for (const side of ["p", "m"]) {
    const ohms = () => 5e-4 * 20 ** random();
    for (let i = 1; i < nodes; i++) {
      elements.push({
        kind: "resistor",
        id: `${side}${i}`,
        a: `${side}${whole(i - 1)}`,
        b: `${side}${i}`,
        ohms: ohms(),
      });
    }
    const ties = wish.ties ?? whole(4);
    for (let t = 0; t < ties && nodes > 1; t++) {
      const a = whole(nodes - 1);
      const b = whole(nodes - 1);
      if (a !== b)
        elements.push({ kind: "resistor", id: `${side}tie${t}`, a: `${side}${a}`, b: `${side}${b}`, ohms: ohms() });
    }
  }
  const port = () => ({ plus: `p${whole(nodes - 1)}`, minus: `m${whole(nodes - 1)}` });
  const stores = wish.stores ?? 1 + whole(2);
  for (let s = 0; s < stores; s++) {
    const at = s === 0 ? { plus: "p0", minus: "m0" } : port();
    elements.push({ kind: "store", id: `store${s}`, ...at, volts: between(12.5, 13.3), ohms: between(0.002, 0.02) });
  }
  const feeds = wish.feeds ?? whole(2);
  for (let f = 0; f < feeds; f++) {
    elements.push({
      kind: "feed",
      id: `feed${f}`,
      ...port(),
      volts: between(12.4, 14.6),
      amps: between(1, 60),
      ohms: between(0.001, 0.02),
    });
  }
  const laws = wish.laws ?? ["amps", "watts", "ohms"];
  const demand = wish.demand ?? 1;
  const draws = 1 + whole(8);
  for (let d = 0; d < draws; d++) {
    const law = laws[whole(laws.length - 1)] ?? "amps";
    const amps = between(0.2, 8) * demand;
    elements.push({
      kind: "draw",
      id: `draw${d}`,
      ...port(),
      law: law === "amps" ? { amps } : law === "watts" ? { watts: amps * 12 } : { ohms: 12 / amps },
    });
  }
  for (let c = 0; c < (wish.converters ?? 0); c++) elements.push(...makeConverter(c, port(), between, whole));
  return { elements, ground: "m0" };
}

/** A converter with what hangs on its output: loads of its own, or a second bank, or the very bank that feeds it. */
function makeConverter(
  c: number,
  at: { readonly plus: string; readonly minus: string },
  between: (lo: number, hi: number) => number,
  whole: (most: number) => number,
): readonly DcElement[] {
  const out = { plus: `c${c}+`, minus: `c${c}-` };
  const converter: DcConverter = {
    kind: "converter",
    id: `converter${c}`,
    in: at,
    out,
    volts: 24,
    amps: between(2, 8),
    efficiency: between(0.8, 0.98),
    idleWatts: between(0, 5),
    input: "as needed",
  };
  const kind = whole(3);
  if (kind === 0) return [converter, { kind: "draw", id: `own${c}`, ...out, law: { ohms: between(4, 30) } }];
  if (kind === 1) {
    return [
      { ...converter, volts: 28, inputAmps: between(2, 12) },
      { kind: "resistor", id: `lead${c}`, a: out.plus, b: `s${c}+`, ohms: between(0.001, 0.05) },
      { kind: "store", id: `bank${c}`, plus: `s${c}+`, minus: out.minus, volts: between(25, 27), ohms: 0.02 },
      { kind: "draw", id: `own${c}`, plus: `s${c}+`, minus: out.minus, law: { watts: between(5, 60) } },
    ];
  }
  if (kind === 2) {
    // There and back again: up to 48 V and down to the bank that it came from.
    return [
      { ...converter, volts: 48, amps: 20, efficiency: 0.93 },
      {
        kind: "converter",
        id: `back${c}`,
        in: out,
        out: { plus: `b${c}+`, minus: at.minus },
        volts: 14.2,
        amps: between(5, 20),
        efficiency: 0.9,
        input: "as needed",
      },
      { kind: "resistor", id: `lead${c}`, a: `b${c}+`, b: at.plus, ohms: between(0.001, 0.02) },
    ];
  }
  return [
    { kind: "feed", id: `module${c}`, plus: `v${c}+`, minus: `v${c}-`, volts: 38, amps: between(0.5, 9), ohms: 0.4 },
    { kind: "resistor", id: `roof${c}`, a: `v${c}+`, b: `w${c}+`, ohms: 0.05 },
    {
      kind: "converter",
      id: `converter${c}`,
      in: { plus: `w${c}+`, minus: `v${c}-` },
      out: { plus: `b${c}+`, minus: at.minus },
      volts: between(12.8, 14.4),
      amps: between(5, 30),
      efficiency: 0.97,
      input: "tracks",
      trackVolts: 31,
      idleWatts: between(0.5, 2),
    },
    { kind: "resistor", id: `lead${c}`, a: `b${c}+`, b: at.plus, ohms: between(0.001, 0.02) },
  ];
}
