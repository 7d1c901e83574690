import type { Trust } from "../explain/index.ts";
import { JOINT_OHMS } from "../size/model.ts";
import type { Built } from "./built.ts";
import { withUnit } from "./print-number.ts";

/** What the method itself assumes, beside the defaults that a plan may pin. */
export interface Assumed {
  readonly id: string;
  readonly says: string;
  readonly trust: Trust;
  readonly pin: string;
  readonly about: readonly string[];
}

export const JOINTS: Assumed = {
  id: "joint-resistance",
  says: `each joint ${withUnit(JOINT_OHMS, "Ω")}: one at each end of a conductor, one on each side of a device set in it`,
  trust: "practice",
  pin: "",
  about: [],
};

const ofMethod: readonly Assumed[] = [
  JOINTS,
  {
    id: "steady-share",
    says: "a device is loaded with no more than 80 % of its rating for hours",
    trust: "practice",
    pin: "",
    about: [],
  },
  {
    id: "start-margin",
    says: "a device has to stay closed 1.5 times as long as a start lasts",
    trust: "practice",
    pin: "",
    about: [],
  },
];

/** Everything that was assumed: by the plan's silence, and by the method. */
export const assumedIn = ({ design }: Pick<Built, "design">): readonly Assumed[] => [
  ...design.assumptions,
  ...ofMethod,
];
