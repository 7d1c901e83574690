import { cite } from "../../explain/index.ts";
import type { StoreUnit, Value } from "../../system/index.ts";
import type { PartView } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { banksOf, nameOf } from "./banks.ts";
import { nameSome } from "./name-some.ts";

const pair = (second: string): string =>
  `parts:\n  B2: { kind: battery, ${second} }\ncircuits:\n  W20: { path: B2 → SW1, length: 0.8 m }\n  W21: { path: B2:− → BN, length: 0.6 m }`;

export const mixedString = defineRule({
  id: "battery/mixed-string",
  title: "Mixed string",
  severity: "should",
  danger: "the weakest unit is charged too far and drained too far, and takes the others with it",
  why: `Units that share one current or one voltage have to be alike: chemistry, volts, capacity, and the year they were made where it is stated.
    Batteries that work apart in one state and are joined in another are banks of their own; only their chemistry has to agree.`,
  silent: ["a bank of one unit that never meets another bank", "years that are not stated"],
  sources: [{ cite: cite("trade-practice", "units of one bank are alike", "practice") }],
  messages: {
    differ: "the units of {place} differ in {what}: {list}",
    meet: "{place} and {other} are joined ({state}), and are of two chemistries: {list}",
  },
  cures: ["matched-unit"],
  examples: {
    good: [
      { says: "one battery", plan: "" },
      {
        says: "two alike",
        plan: pair(
          "chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, management: { continuous: 200 A, peak: 400 A, peak time: 5 s }",
        ),
      },
      {
        says: "two banks that meet only through a converter",
        plan: "parts:\n  B2: { kind: battery, chemistry: AGM, capacity: 90 Ah }\n  DCDC: { kind: DC-DC charger, output: 20 A }\ncircuits:\n  W20: { path: B2 → DCDC:in, length: 1 m }\n  W21: { path: B2:− → BN, length: 1 m }\n  W22: { path: DCDC:out → BP, length: 1 m }",
      },
    ],
    bad: [
      {
        says: "another chemistry",
        plan: pair("chemistry: AGM, nominal: 12 V, capacity: 200 Ah"),
        fails: "differ",
        about: "parts.B1",
      },
      {
        says: "two banks of two chemistries that a selector can join",
        plan: `parts:
  B2: { kind: battery, chemistry: AGM, capacity: 90 Ah }
  SEL: { kind: selector switch, rated: 300 A }
  B2 lamp: { kind: light, running: 1 A }
circuits:
  W01: { path: B1 → SEL:1, length: 0.8 m }
  W02: { path: SEL:out → BP, length: 0.4 m }
  W20: { path: B2 → SEL:2, length: 0.8 m }
  W21: { path: B2:− → BN, length: 0.6 m }
  W22: { path: B2 → B2 lamp, length: 1 m }
states:
  at anchor: { on: [lamp, B2 lamp], SEL: 1, charge: 40 % }
  emergency: { on: [lamp], SEL: both, charge: 40 % }`,
        fails: "meet",
        about: "parts.B1",
      },
      {
        says: "nobody knows what one unit is",
        plan: pair("chemistry: unknown, nominal: 12.8 V, capacity: 200 Ah"),
        fails: "cannot tell",
        about: "parts.B1",
      },
    ],
  },
  judge(build, report) {
    const banks = banksOf(build);
    const met = new Set<unknown>();
    for (const { banks: two, state } of banks.meetings) {
      const [one, other] = two;
      const [a, b] = two.map(({ first }) => chemistryOf(first));
      if (a === undefined || a === "unknown" || b === undefined || b === "unknown") {
        const unsure = two.flatMap(({ first }) =>
          /^(?:unknown)?$/.test(chemistryOf(first) ?? "")
            ? [needed(`the chemistry of ${first.id}`, first.subject)]
            : [],
        );
        report.cannotTell(one.first.subject, unsure, { state });
      } else if (a !== b)
        report.fail(one.first.subject, "meet", {
          state,
          words: { place: nameOf(one), other: nameOf(other), list: `${one.first.id} ${a}, ${other.first.id} ${b}` },
        });
      else report.pass(one.first.subject, { state });
      met.add(one);
    }
    for (const bank of banks.list) {
      const { subject } = bank.first;
      if (bank.parts.length < 2) {
        if (!met.has(bank)) report.notApplicable(subject, "it is one unit, and meets no other bank");
        continue;
      }
      const missing = bank.parts.flatMap(missingOf);
      const what = traits.find(({ of }) => new Set(bank.parts.flatMap((p) => of(unitOf(p)) ?? [])).size > 1);
      if (what !== undefined) {
        const list = nameSome(bank.parts.map((p) => `${p.id} ${what.of(unitOf(p)) ?? "not stated"}`));
        report.fail(subject, "differ", { words: { place: nameOf(bank), what: what.is, list } });
      } else if (missing.length > 0) report.cannotTell(subject, missing);
      else report.pass(subject);
    }
  },
});

interface Unit extends StoreUnit {
  readonly volts: number;
  readonly strings: number;
}

function unitOf({ elements }: PartView): Unit {
  const store = elements.find((e) => e.is === "store");
  return { ...store?.unit, volts: store?.nominalVolts ?? 0, strings: store?.strings ?? 1 };
}

const chemistryOf = (part: PartView): string | undefined => unitOf(part).chemistry;

const printed = (value: Value | "unknown" | undefined, per: number, unit: string): string | undefined =>
  value === undefined || value === "unknown"
    ? undefined
    : `${[...new Set([value.low, value.high])].map((x) => Number((x / per).toPrecision(4))).join("…")} ${unit}`;

/** What has to be alike, in words that print it; undefined where it is not known. */
const traits: readonly { readonly is: string; readonly of: (unit: Unit) => string | undefined }[] = [
  { is: "chemistry", of: ({ chemistry }) => (chemistry === "unknown" ? undefined : chemistry) },
  { is: "volts", of: ({ volts }) => `${Number(volts.toPrecision(4))} V` },
  { is: "capacity", of: ({ capacityCoulombs, strings }) => printed(capacityCoulombs, 3600 / strings, "Ah") },
  { is: "age", of: ({ made }) => (made === undefined || made === "unknown" ? undefined : `made in ${made}`) },
];

function missingOf(part: PartView): readonly Needed[] {
  const { chemistry, capacityCoulombs, made } = unitOf(part);
  const need = (fact: string): Needed => needed(`${fact} of ${part.id}`, part.subject);
  return [
    ...(chemistry === undefined || chemistry === "unknown" ? [need("the chemistry")] : []),
    ...(capacityCoulombs === undefined || capacityCoulombs === "unknown" ? [need("the capacity")] : []),
    ...(made === "unknown" ? [need("the year of make")] : []),
  ];
}
