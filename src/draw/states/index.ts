/** The states of an alternating side: told in words, and drawn. */
export { dangersOf, type StateDanger } from "./dangers.ts";
export { moverName, namesOf, type ThingNames } from "./thing-names.ts";
export {
  sayPositions,
  tellStates,
  type ToldJoins,
  type ToldMoment,
  type ToldState,
  type ToldStates,
} from "./tell-states.ts";
export { drawStates, type StatesOn } from "./draw-states.ts";
