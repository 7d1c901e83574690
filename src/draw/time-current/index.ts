/** When the devices of a chain open, over the current. */
export { drawTimeCurrent, type TimeCurrentSheet } from "./draw-time-current.ts";
export { deviceName, plotCircuit } from "./plot-circuit.ts";
export { plotDevice, type DeviceInChain } from "./plot-device.ts";
export type { PlotConductor, PlotDevice, PlotMarker, PlotPoint, PlotPulse, TimeCurrentPlot } from "./plot.ts";
