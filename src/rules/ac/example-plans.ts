type Lines = Readonly<Record<string, string | null>>;

/** What an example changes of the usual build; null takes an entry away. */
export interface Changes {
  /** Rule set of the alternating side. */
  readonly set?: string;
  readonly system?: string;
  readonly parts?: Lines;
  readonly circuits?: Lines;
  /** Further sections. */
  readonly more?: string;
}

const PARTS: Lines = {
  INL: "kind: shore inlet, rated: 16 A",
  CU: "kind: consumer unit, main: { residual device: 30 mA, poles: 2, rated: 16 A }, ways: { 1: breaker 10 A 2-pole, 2: breaker 10 A 2-pole }",
  INV: "kind: inverter, rated: 1200 VA, neutral–earth join: always",
  TS: "kind: transfer switch, poles: 2, rated: 16 A, inputs: [shore, inverter], off: yes",
  sockets: "kind: outlet, running: 3 A",
};

const CIRCUITS: Lines = {
  W20: "path: INL → CU:in, length: 1 m",
  W21: "path: CU:1 → TS:shore, length: 2 m",
  W22: "path: INV:out → TS:inverter, length: 1 m, breaker: 10 A 30 mA 2-pole at INV",
  W23: "path: TS:out → sockets, length: 3 m",
  W24: "path: BP → INV, length: 1 m",
};

const lines = (usual: Lines, changed: Lines = {}): string =>
  Object.entries({ ...usual, ...changed })
    .flatMap(([key, text]) => (text === null ? [] : [`  ${key}: { ${text} }`]))
    .join("\n");

/** A plan for examples: shore power through a consumer unit, and an inverter, on a transfer switch with one outlet; with what is changed of it. */
export const shoreAndInverter = ({ set, system, parts, circuits, more }: Changes = {}): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: ${set ?? "iso-small-craft 2020+A1:2022"} }
systems:
  AC: { ${system ?? "kind: AC, nominal: 230 V, cores: [L, N, PE]"} }
parts:
${lines(PARTS, parts)}
circuits:
${lines(CIRCUITS, circuits)}${more === undefined ? "" : `\n${more}`}`;

/** A plan for examples: one source and one load on a board, without shore and inverter. */
export const oneSource = ({ parts, circuits, ...rest }: Changes): string =>
  shoreAndInverter({
    ...rest,
    parts: { INL: null, INV: null, TS: null, ...parts },
    circuits: { W21: null, W22: null, W23: "path: CU:1 → sockets, length: 3 m", W24: null, ...circuits },
  });
