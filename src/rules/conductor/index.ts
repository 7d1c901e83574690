import type { Rule } from "../rule.ts";
import { ampacityAboveItsTerminal } from "./ampacity-above-its-terminal.ts";
import { coiledLead } from "./coiled-lead.ts";
import { conductorBelowMinimumSize } from "./conductor-below-minimum-size.ts";
import { excessVoltageDrop } from "./excess-voltage-drop.ts";
import { failingStart } from "./failing-start.ts";
import { foreignAmpacityTable } from "./foreign-ampacity-table.ts";
import { hotBundle } from "./hot-bundle.ts";
import { impossibleLength } from "./impossible-length.ts";
import { insulationVoltageTooLow } from "./insulation-voltage-too-low.ts";
import { misreadSize } from "./misread-size.ts";
import { overloadedConductor } from "./overloaded-conductor.ts";
import { shrunkenSubstitute } from "./shrunken-substitute.ts";
import { smotheredConductor } from "./smothered-conductor.ts";
import { solidWireWhereItMoves } from "./solid-wire-where-it-moves.ts";
import { starvedLoad } from "./starved-load.ts";
import { thinContinuousMargin } from "./thin-continuous-margin.ts";
import { thinlyStrandedConductor } from "./thinly-stranded-conductor.ts";
import { unevenParallelConductors } from "./uneven-parallel-conductors.ts";
import { unsuitedInsulation } from "./unsuited-insulation.ts";
import { wrongMetal } from "./wrong-metal.ts";

export const conductorRules: readonly Rule[] = [
  overloadedConductor,
  hotBundle,
  thinContinuousMargin,
  ampacityAboveItsTerminal,
  smotheredConductor,
  excessVoltageDrop,
  starvedLoad,
  failingStart,
  conductorBelowMinimumSize,
  wrongMetal,
  solidWireWhereItMoves,
  unsuitedInsulation,
  insulationVoltageTooLow,
  misreadSize,
  shrunkenSubstitute,
  impossibleLength,
  unevenParallelConductors,
  thinlyStrandedConductor,
  foreignAmpacityTable,
  coiledLead,
];
