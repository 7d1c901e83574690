import { cite, weakestTrust, type Citation, type Trust } from "../explain/index.ts";
import { mainBonding, oneSizeBelow, toElectrode } from "../protect/earth-fault/bond-size.ts";
import {
  electrodeConductorAC,
  electrodeConductorDC,
  type ElectrodeConductor,
  type ElectrodeIs,
} from "../protect/earth-fault/earth-electrode-size.ts";
import {
  besideLive,
  boatGround,
  equipmentGround,
  layingApart,
  type ProtectiveArea,
} from "../protect/earth-fault/protective-size.ts";
import { earthingRules } from "../ruleset/earthing-rules.ts";
import type { RuleSet } from "../ruleset/index.ts";
import type { EarthLead } from "../system/index.ts";
import type { Metal } from "../wire/index.ts";

/** What a rule set asks of a conductor that carries current only in a fault. */
export interface LeadAsk {
  /** Before the next size on sale. */
  readonly areaMm2: number;
  /** What it follows from: `one size below the 35 mm² of D1`. */
  readonly says: string;
  readonly source: Citation;
  readonly trust: Trust;
}

/** A conductor that a lead follows. */
export interface Followed {
  readonly circuit: string;
  /** Of copper, those in parallel added. */
  readonly areaMm2: number;
  readonly label: string;
}

/** What a lead is asked by. */
export interface LeadAsked {
  readonly lead: Pick<EarthLead, "to" | "onMinus">;
  readonly ruleSet: Pick<RuleSet, "id">;
  /** Largest live conductor: of direct current the plus. Of a case that of its own part. */
  readonly largest: Followed;
  /** Largest device of the same circuits, A; null: none is rated. */
  readonly rating: number | null;
  readonly metal: Metal;
  /** Whether something guards the lead against damage. */
  readonly isGuarded: boolean;
  readonly electrode: ElectrodeIs;
  /** Sizes on sale, mm². */
  readonly shelf: readonly number[];
}

const practice = (clause: string): Citation => cite("trade-practice", clause, "practice");
const PLUS = practice("a bond no more than one size below the largest plus");
const ofNec = (clause: string, trust: Trust): Citation => cite("nfpa-70-2023", clause, trust);

const named = ({ label, circuit }: Followed): string => `the ${label} of ${circuit}`;
const ask = (areaMm2: number, says: string, source: Citation): LeadAsk => ({
  areaMm2,
  says,
  source,
  trust: source.trust,
});
const ofArea = ({ areaMm2, says, source, trust }: ProtectiveArea, { largest }: LeadAsked): LeadAsk => ({
  areaMm2,
  says: `${says} (${largest.circuit})`,
  source,
  trust: weakestTrust(trust, source.trust),
});
const electrode = (
  found: Omit<ElectrodeConductor, "size"> & { readonly areaMm2: number },
  { largest }: LeadAsked,
  clause?: string,
): LeadAsk => ({
  areaMm2: found.areaMm2,
  says: `beside ${named(largest)}`,
  source: clause === undefined ? found.source : ofNec(clause, "memory"),
  trust: found.trust,
});
const steps = (asked: LeadAsked, to: ElectrodeIs, clause?: string): LeadAsk => {
  const { size, trust, source } = electrodeConductorAC(asked.largest.areaMm2, asked.metal, to);
  return electrode({ areaMm2: size.areaMm2, trust, source }, asked, clause);
};
/** By the device ahead; nothing, where none is rated. */
function byDevice(asked: LeadAsked): LeadAsk[] {
  const { rating, metal, largest } = asked;
  const found =
    rating === null ? null : equipmentGround({ rating, metal, liveMm2: largest.areaMm2, leastLiveMm2: null });
  return found === null ? [] : [ofArea(found, asked)];
}
/** By the live conductors, and strong enough to lie by itself. */
function byItself(asked: LeadAsked): LeadAsk[] {
  const { largest, isGuarded, ruleSet } = asked;
  const beside = besideLive(largest.areaMm2);
  const { areaMm2, says, source } = layingApart(isGuarded);
  return [
    ofArea({ ...beside, source: earthingRules(ruleSet)?.protective.source ?? beside.source }, asked),
    ask(areaMm2, says, source),
  ];
}
/** What the set names whatever else there is. */
const floor = ({ ruleSet }: LeadAsked): LeadAsk[] => {
  const bonding = earthingRules(ruleSet)?.bonding ?? null;
  return bonding === null ? [] : [ask(bonding.size.areaMm2, `${bonding.size.label} ${bonding.says}`, bonding.source)];
};
const below = ({ largest, shelf }: LeadAsked, source: Citation): LeadAsk =>
  ask(oneSizeBelow(largest.areaMm2, shelf), `no more than one size below ${named(largest)}`, source);

/** Least of a conductor that earths a case on the direct-current side, 16 AWG, mm²; and of a bond where no set names one. */
const LEAST_CASE = 1.309;
const LEAST_BOND = 6;

/**
 * What a rule set asks of a bond or earth conductor of direct current, each demand by itself: the greatest counts.
 *
 * Sets that say nothing of it are helped out by practice: whatever a plus shorts to comes back by the bond, so that this may be no more than one size below it.
 */
export function direct(asked: LeadAsked): LeadAsk[] {
  const { ruleSet, lead, largest } = asked;
  const isCase = lead.to === "case";
  switch (ruleSet.id) {
    case "us-small-craft":
      return isCase
        ? [
            below(asked, cite("abyc-e-11", "E-9.21.2.1, an older text", "article")),
            ask(LEAST_CASE, "16 AWG at least", cite("abyc-e-11", "E-9.21.2.1, an older text", "article")),
          ]
        : [below(asked, cite("abyc-e-11", "11.18, bonding conductors", "memory")), ...floor(asked)];
    case "us-rv":
      if (isCase) return byDevice(asked);
      return [
        ask(largest.areaMm2, `not thinner than ${named(largest)}`, ofNec("552.10(C)", "article")),
        ...floor(asked),
      ];
    case "us-cabin":
      if (isCase) return byDevice(asked);
      return [
        electrode(
          electrodeConductorDC(largest.areaMm2, lead.to === "electrode" ? asked.electrode : "other"),
          asked,
          lead.to === "electrode" ? undefined : "250.168",
        ),
      ];
    case "iec-cabin":
      if (lead.to === "electrode") return [ofArea(toElectrode(largest.areaMm2), asked)];
      return [...byItself(asked), ...(lead.to === "metal" ? floor(asked) : [])];
    default:
      return isCase
        ? [below(asked, PLUS), ask(LEAST_CASE, "16 AWG at least", PLUS)]
        : [
            below(asked, PLUS),
            ...(floor(asked).length > 0 ? floor(asked) : [ask(LEAST_BOND, `${LEAST_BOND} mm² at least`, PLUS)]),
          ];
  }
}

/** The same of alternating current. */
export function alternating(asked: LeadAsked): LeadAsk[] {
  const { ruleSet, lead, largest, rating } = asked;
  const isMetal = lead.to === "metal";
  const bonded = isMetal ? floor(asked) : [];
  switch (ruleSet.id) {
    case "us-cabin":
    case "us-rv": {
      if (lead.to === "electrode") return [steps(asked, asked.electrode)];
      if (lead.to === "neutral" || (isMetal && ruleSet.id === "us-cabin"))
        return [steps(asked, "other", lead.to === "neutral" ? "250.28(D)" : "250.104")];
      return [...byDevice(asked), ...bonded];
    }
    case "us-small-craft":
      return [ofArea(boatGround(rating ?? 0, largest.areaMm2), asked), ...bonded];
    default:
      if (lead.to === "electrode") return [ofArea(toElectrode(largest.areaMm2), asked)];
      if (lead.to === "neutral") return [ofArea(besideLive(largest.areaMm2), asked)];
      // Half of the protective conductor is enough where no source's fault comes back by it.
      if (isMetal && ruleSet.id === "iec-cabin" && !lead.onMinus) return [ofArea(mainBonding(largest.areaMm2), asked)];
      return [...byItself(asked), ...bonded];
  }
}
