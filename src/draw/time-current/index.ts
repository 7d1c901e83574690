/** When the devices of a chain open, over the current. */
export { drawTimeCurrent } from "./draw-time-current.ts";
export { deviceName, plotCircuit } from "./plot-circuit.ts";
export { plotDevice, type DeviceInChain } from "./plot-device.ts";
export type { PlotPoint, TimeCurrentPlot } from "./plot.ts";
