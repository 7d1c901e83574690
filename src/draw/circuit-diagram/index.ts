export { CIRCUIT_DIAGRAM_CAUTION, drawCircuitDiagram } from "./draw-circuit-diagram.ts";
