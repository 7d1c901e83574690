import type { CableCores, CableFamily, Ground, PrintedSize } from "../make/wire-make.ts";
import type { TypeCode } from "../type/index.ts";
import type { Draft } from "./draft.ts";
import type { LabelContext } from "./label-reading.ts";

/** What a label's number of cores comes to, one way of several. */
export interface DecidedCores {
  readonly cores: CableCores | null;
  readonly family: CableFamily | null;
  readonly by: readonly string[];
  readonly traps: readonly string[];
  readonly home: readonly LabelContext[] | null;
}

interface Counted {
  readonly insulated: number;
  readonly extra?: number;
  readonly ground: Ground;
}

type CountedWithTrap = Counted & { readonly trap?: string };

const ONE_MORE = "one bare wire more than the number counts is the ground";
const GREEN_COUNTED = "one of the counted conductors is the green one";

/** What the number counts in a kind of cable; null: the kind does not tell. */
function countIn(family: CableFamily | null, count: number, draft: Draft): CountedWithTrap {
  const green = draft.colours.some((colour) => colour.some((letters) => letters === "GN" || letters === "GNYE"));
  switch (family) {
    case "building cable":
      return draft.single.ground === "without"
        ? { insulated: count, ground: "none" }
        : { insulated: count, extra: 1, ground: "bare", trap: ONE_MORE };
    case "twin and earth":
      return { insulated: count, extra: 1, ground: "bare", trap: ONE_MORE };
    case "flexible cord":
      return count >= 3
        ? { insulated: count, ground: "insulated", trap: GREEN_COUNTED }
        : { insulated: count, ground: "none" };
    case "boat cable":
      if (count <= 2) return { insulated: count, ground: "none" };
      return {
        insulated: count,
        ground: green || draft.single.ground === "said" || draft.single.isTriplex === true ? "insulated" : "not stated",
      };
    case "speaker cable":
    case "trailer cable":
    case "battery cable":
    case "welding cable":
    case "solar cable":
    case "vehicle wire":
      return { insulated: count, ground: "none" };
    default:
      return { insulated: count, ground: green && count >= 3 ? "insulated" : count <= 2 ? "none" : "not stated" };
  }
}

/** Conductors listed one by one: which of them is bare, the type tells; none where the type is not made so. */
function decideFeeder(type: TypeCode | null, listed: number, odd: number): readonly Counted[] {
  if (type?.code === "SEU") return listed === 3 && odd < 2 ? [{ insulated: 2, extra: 1, ground: "none" }] : [];
  if (type?.code !== "SER") return [{ insulated: listed, ground: "not stated" }];
  const four: Counted = { insulated: 3, extra: 1, ground: "bare" };
  if (listed === 4 && odd < 3) return [four];
  // Most is made of three and a ground; of two and a ground there is some, and lists leave one out.
  return listed === 3 && odd < 2 ? [{ insulated: 2, extra: 1, ground: "bare" }, four] : [];
}

/** What the kind is read as, where it is the type that says what is counted. */
function countByType(type: TypeCode, count: number, draft: Draft): CountedWithTrap | null {
  if (type.code === "SEU") return { insulated: count, extra: 1, ground: "none" };
  if (type.ground === "none") return { insulated: count, ground: "none" };
  // Tray cable is made with a ground and without; the number counts the others.
  if (/^TC(?:-|$)/.test(type.code) && draft.single.ground !== "said") return { insulated: count, ground: "not stated" };
  if (type.counts === "ground extra") {
    const ground = type.ground === "not stated" ? "bare" : type.ground;
    return draft.single.ground === "without"
      ? { insulated: count, ground: "none" }
      : {
          insulated: ground === "insulated" ? count + 1 : count,
          extra: ground === "insulated" ? 0 : 1,
          ground,
          trap: ONE_MORE,
        };
  }
  if (type.ground === "insulated") return { insulated: count, ground: count >= 3 ? "insulated" : "none" };
  return null;
}

const cores = (counted: Counted, draft: Draft, groundSize: PrintedSize | null = null): CableCores => ({
  insulated: counted.insulated,
  total: counted.insulated + (counted.extra ?? 0),
  ground: counted.ground,
  groundSize,
  others: draft.single.others ?? [],
  paired: draft.single.paired === true,
});

/** Building cable is made of these gauges and numbers of conductors. */
const isBuildingSize = (size: PrintedSize | null, count: number): boolean =>
  size === null || (size.areaMm2 > 2 && size.areaMm2 < 34 && count <= 4);

const OTHER_COUNTS: readonly { readonly family: CableFamily; readonly home: readonly LabelContext[] }[] = [
  { family: "building cable", home: ["building"] },
  { family: "boat cable", home: ["boat"] },
  { family: "flexible cord", home: ["cord"] },
];

/**
 * The conductors of a cable: what the number on the label counts.
 *
 * @param size of the conductors; building cable begins at 14 AWG
 */
export function decideCores(
  draft: Draft,
  family: CableFamily | null,
  size: PrintedSize | null,
  context: LabelContext | null,
): readonly DecidedCores[] {
  const { single } = draft;
  const type = draft.types.find(({ counts }) => counts !== null) ?? draft.types[0] ?? null;
  const typeCores = draft.types.find((each) => each.cores !== null && each.counts !== "single")?.cores ?? null;
  const plain = { family, by: [], traps: [], home: null };
  const count = single.count ?? typeCores ?? (family === "twin and earth" ? 2 : null);
  if (single.uninsulated === true && count === null && draft.colours.length === 0)
    return [
      {
        ...plain,
        cores: { ...cores({ insulated: 0, extra: 1, ground: single.isGround === true ? "bare" : "none" }, draft) },
      },
    ];
  if (count === null) return [{ ...plain, cores: null }];
  if (single.groundSize !== undefined) {
    const twin = family === "twin and earth";
    const ground: Ground = twin
      ? "bare"
      : type?.ground === "concentric"
        ? "concentric"
        : (single.groundKind ?? "not stated");
    return ground === "not stated"
      ? [
          { ...plain, cores: cores({ insulated: count, extra: 1, ground: "concentric" }, draft, single.groundSize) },
          { ...plain, cores: cores({ insulated: count + 1, ground: "insulated" }, draft, single.groundSize) },
        ]
      : [{ ...plain, cores: cores({ insulated: count, extra: 1, ground }, draft, single.groundSize) }];
  }
  if (single.others !== undefined)
    return decideFeeder(type, count, single.others.length).map((counted) => ({
      ...plain,
      cores: cores(counted, draft),
    }));
  if (single.ground === "with") return [{ ...plain, cores: cores({ insulated: count, ground: "insulated" }, draft) }];
  if (single.ground === "and" && (type?.ground === "insulated" || single.groundKind === "insulated"))
    return [{ ...plain, cores: cores({ insulated: count + 1, ground: "insulated" }, draft) }];
  if (single.ground === "and")
    return [
      {
        ...plain,
        cores: cores({ insulated: count, extra: 1, ground: single.groundKind ?? "bare" }, draft),
        traps: [ONE_MORE],
      },
    ];
  const byType = type === null ? null : countByType(type, count, draft);
  if (byType !== null)
    return [{ ...plain, cores: cores(byType, draft), traps: byType.trap === undefined ? [] : [byType.trap] }];
  if (single.countByX === true) {
    // The letter decides in a harmonised code, elsewhere `x` is only “times”.
    const isHarmonised = type !== null && /^[HA]\d\d/.test(type.code);
    if (isHarmonised || count <= 2) return [{ ...plain, cores: cores({ insulated: count, ground: "none" }, draft) }];
    if (family === null || family === "harmonised cable")
      return [
        {
          ...plain,
          cores: cores({ insulated: count, ground: "not stated" }, draft),
          traps: ["in a harmonised code `x` is without a green-yellow core, in German lists it is only “times”"],
        },
      ];
  }
  if (single.ground === "without") return [{ ...plain, cores: cores({ insulated: count, ground: "none" }, draft) }];
  if (family !== null) {
    const counted = countIn(family, count, draft);
    return [{ ...plain, cores: cores(counted, draft), traps: counted.trap === undefined ? [] : [counted.trap] }];
  }
  if (single.ground === "said") {
    const building = { insulated: count, extra: 1, ground: "bare" } as const;
    // With two conductors or written `12-3 w/G` it is building cable that is meant: elsewhere nobody says it.
    if (count === 2 || (single.countByFamily === true && context !== "boat" && context !== "cord"))
      return [
        {
          ...plain,
          family: "building cable",
          cores: cores(building, draft),
          by: ["`with ground` is said of building cable, whose ground is not counted"],
          traps: [ONE_MORE],
        },
      ];
    return [
      { ...plain, cores: cores({ insulated: count, ground: "insulated" }, draft), home: ["boat", "cord"] },
      { ...plain, family: "building cable", cores: cores(building, draft), home: ["building"], traps: [ONE_MORE] },
    ];
  }
  if (single.countByFamily === true) return byFamily(draft, count, size, context);
  const counted = countIn(null, count, draft);
  return [{ ...plain, cores: cores(counted, draft) }];
}

/** `12/3`: the same figures are other wires in other kinds of cable. */
function byFamily(
  draft: Draft,
  count: number,
  size: PrintedSize | null,
  context: LabelContext | null,
): readonly DecidedCores[] {
  const hinted = draft.maybeFamilies.find((each) => each === "boat cable") ?? draft.maybeFamilies[0];
  if (hinted !== undefined && hinted !== "building cable") {
    const counted = countIn(hinted, count, draft);
    return [
      {
        family: hinted,
        cores: cores(counted, draft),
        by: [],
        traps: counted.trap === undefined ? [] : [counted.trap],
        home: null,
      },
    ];
  }
  if (!isBuildingSize(size, count) && context !== "boat" && context !== "cord" && context !== "building")
    return [
      {
        family: null,
        cores: cores(countIn(null, count, draft), draft),
        by: ["building cable, which leaves out the ground, is not made so; all other kinds count every conductor"],
        traps: [],
        home: null,
      },
    ];
  const kinds =
    context === "vehicle" ? [...OTHER_COUNTS, { family: "vehicle wire", home: ["vehicle"] } as const] : OTHER_COUNTS;
  return kinds
    .filter(({ family }) => family !== "building cable" || isBuildingSize(size, count) || context === "building")
    .map(({ family, home }) => {
      const counted = countIn(family, count, draft);
      return {
        family,
        cores: cores(counted, draft),
        by: [],
        traps: counted.trap === undefined ? [] : [counted.trap],
        home,
      };
    });
}
