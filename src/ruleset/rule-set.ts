import type { Citation } from "../explain/index.ts";
import type { AmpacityRules } from "./ampacity-rules.ts";
import type { ConductorRules } from "./conductor-rules.ts";
import type { DeviceDistanceRules } from "./device-distance.ts";
import type { DeviceSizeRules } from "./device-limit.ts";
import type { DropRules } from "./drop-class.ts";
import type { LeastSizeRules } from "./least-size.ts";

/** An edition whose numbers a rule set carries. */
export interface Edition {
  /** As a plan names it and a page prints it. */
  readonly name: string;
  /** Other names that mean the same numbers. */
  readonly also?: readonly string[];
  /** First and last year that the same numbers stand for, where the edition is known by its year. */
  readonly years?: readonly [from: number, to: number];
  /** What was seen of it. */
  readonly says: string;
}

/** How conductors of solar modules are counted. */
export interface SolarRules {
  /** Times the short-circuit current. */
  readonly factor: number;
  /** So many times that the table gives before any correction, for it flows for hours; absent: where the set asks no such thing, or asks it of every current. */
  readonly forHours?: number;
  readonly source: Citation;
}

/** A body of rules that a plan can be judged by, with its numbers. Plain data. */
export interface RuleSet {
  /** Kebab-case, as a plan names it. */
  readonly id: string;
  readonly title: string;
  /** The first one is meant when a plan names none. */
  readonly editions: readonly [Edition, ...Edition[]];
  /** What it binds and what it does not, in words. */
  readonly scope: string;
  /** What a reader has to know before leaning on its numbers. */
  readonly cautions: readonly string[];
  /** Of direct current, and of alternating current where `ampacityAC` is absent. */
  readonly ampacity: AmpacityRules;
  readonly ampacityAC?: AmpacityRules;
  /** What the short-circuit current of solar modules is counted as, for they give more in bright cold light; absent: itself. */
  readonly solar?: SolarRules;
  readonly deviceSize: DeviceSizeRules;
  readonly deviceDistance: DeviceDistanceRules;
  /** Of direct current, and of alternating current where `dropAC` is absent. */
  readonly drop: DropRules;
  readonly dropAC?: DropRules;
  readonly leastSize: LeastSizeRules;
  readonly conductor: ConductorRules;
}
