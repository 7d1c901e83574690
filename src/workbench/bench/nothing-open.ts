import type { BenchState } from "../contract.ts";

/** The bench before a plan is opened, and after one is closed. */
export const NOTHING_OPEN: Omit<BenchState, "units"> = {
  open: false,
  text: "",
  revision: 0,
  plan: null,
  drawing: null,
  working: false,
  broken: null,
  view: "start",
  textBeside: false,
  selection: null,
  operatingState: null,
  whatIfCharge: null,
  openNote: null,
  pencil: null,
  whySubject: null,
  undoName: null,
  redoName: null,
  kept: { says: "", level: "calm" },
  readOnly: false,
  said: { text: "", level: "polite", count: 0 },
  fileName: null,
  buildId: null,
};
