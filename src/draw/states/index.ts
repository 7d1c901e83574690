/** The states of an alternating side: told in words, and drawn. */
export { dangersOf, type StateDanger } from "./dangers.ts";
export { gatherNames, gatherStates, type StatesInOne } from "./gather-states.ts";
export { moverName, namesOf } from "./thing-names.ts";
export { tellStates, type ToldJoins, type ToldState, type ToldStates } from "./tell-states.ts";
export { drawStates, type StatesOn } from "./draw-states.ts";
