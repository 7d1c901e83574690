import { cite, type Citation } from "../explain/index.ts";
import { ratio } from "../quantity/index.ts";
import type { DropClass, DropRules } from "./drop-class.ts";

const practice = (clause: string) => cite("trade-practice", clause, "practice");
const least = (because: DropClass["because"], limit: number, source: Citation): DropClass => ({
  because,
  limit: ratio(limit),
  source,
});

const critical = least("critical", 0.03, practice("critical loads of alternating current"));

/** Where a set says nothing of drop at alternating current: what buildings are held to, as a custom. */
export const customaryDropAC: DropRules = {
  classes: [critical],
  rest: least("rest", 0.05, practice("drop of alternating current, as in buildings")),
};

/** The American code advises: 5 % over feeder and branch circuit together. */
export const necDropAC: DropRules = {
  classes: [critical],
  rest: least("rest", 0.05, cite("nfpa-70-2023", "210.19, informational note", "memory")),
};

const publicSource = cite("iec-60364-5-52", "Table G.52.1, public source", "read");

/** Behind a public supply, as a camping place is. */
export const iecPublicDropAC: DropRules = {
  classes: [critical, least("lighting", 0.03, publicSource)],
  rest: least("rest", 0.05, publicSource),
};
