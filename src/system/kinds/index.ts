import type { Kind } from "../kind.ts";
import {
  adapter,
  earthElectrode,
  galvanicIsolator,
  generator,
  isolationTransformer,
  shoreInlet,
  transferSwitch,
} from "./alternating.ts";
import { battery } from "./battery.ts";
import {
  breakerPart,
  busBar,
  fusePart,
  relay,
  residualPart,
  selectorSwitch,
  shunt,
  switchKind,
} from "./distribution.ts";
import { inverter, inverterCharger } from "./inverters.ts";
import { loads } from "./loads.ts";
import { combiner, fuseBlock, panel } from "./panel.ts";
import { solarController, solarModule } from "./solar.ts";
import { alternator, charger, dcDcCharger, dcDcConverter } from "./sources.ts";
import { structure } from "./structure.ts";

/** Every kind of part there is. A new one is a definition and its name here. */
export const kinds: readonly Kind[] = [
  battery,
  alternator,
  charger,
  dcDcCharger,
  dcDcConverter,
  solarModule,
  solarController,
  inverter,
  inverterCharger,
  switchKind,
  relay,
  selectorSwitch,
  shunt,
  fusePart,
  breakerPart,
  residualPart,
  busBar,
  combiner,
  structure,
  panel,
  fuseBlock,
  ...loads,
  shoreInlet,
  adapter,
  generator,
  galvanicIsolator,
  isolationTransformer,
  transferSwitch,
  earthElectrode,
];
