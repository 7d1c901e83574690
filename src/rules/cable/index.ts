import type { Rule } from "../rule.ts";
import { ambiguousCableName } from "./ambiguous-cable-name.ts";
import { cordUsedAsFixedWiring } from "./cord-used-as-fixed-wiring.ts";
import { longBareTail } from "./long-bare-tail.ts";
import { missingCore } from "./missing-core.ts";
import { mixedAcAndDcCable } from "./mixed-ac-and-dc-cable.ts";
import { outsideDiameterOffItsGland } from "./outside-diameter-off-its-gland.ts";
import { protectiveCoreInService } from "./protective-core-in-service.ts";
import { reducedEarthCore } from "./reduced-earth-core.ts";
import { splitCircuit } from "./split-circuit.ts";
import { unsuitedJacket } from "./unsuited-jacket.ts";

export const cableRules: readonly Rule[] = [
  missingCore,
  ambiguousCableName,
  protectiveCoreInService,
  mixedAcAndDcCable,
  unsuitedJacket,
  reducedEarthCore,
  cordUsedAsFixedWiring,
  splitCircuit,
  longBareTail,
  outsideDiameterOffItsGland,
];
