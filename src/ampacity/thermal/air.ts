/** What natural convection needs to know about air. */
export interface AirProperties {
  /** Thermal conductivity, W/(m·K). */
  readonly conductivity: number;
  /** Kinematic viscosity, m²/s. */
  readonly viscosity: number;
  /** Thermal diffusivity, m²/s. */
  readonly diffusivity: number;
}

/** Standard atmosphere at sea level, Pa. */
export const SEA_LEVEL_PRESSURE = 101_325;

/** Gas constant of dry air, J/(kg·K). */
const GAS_CONSTANT = 287.05;
/** Specific heat at constant pressure near room temperature, J/(kg·K). */
const SPECIFIC_HEAT = 1006;

/**
 * Dry air at the temperature of the film around a warm body.
 *
 * Ignores moisture, which changes the loss of a wire by less than 1 %.
 *
 * @param filmK mean of surface and air, K; 230…600
 * @param pressure of the air, Pa; > 0
 * @accuracy about 2 % against tables of air from −40 to 300 °C
 * @source Sutherland's law for viscosity and the usual fit for conductivity, as in textbooks of heat transfer; from memory, and
 * proved only through the published ratings that the whole model meets
 * @example air at 300 K: textbooks print 0.0263 W/(m·K) and 1.59e-5 m²/s
 * airProperties(300, 101325).conductivity //=> 0.02625
 * airProperties(300, 101325).viscosity //=> 0.0000157
 */
export function airProperties(filmK: number, pressure: number): AirProperties {
  const conductivity = (2.646e-3 * filmK ** 1.5) / (filmK + 245.4 * 10 ** (-12 / filmK));
  const dynamicViscosity = (1.716e-5 * (filmK / 273.15) ** 1.5 * (273.15 + 110.4)) / (filmK + 110.4);
  const density = pressure / (GAS_CONSTANT * filmK);
  return {
    conductivity,
    viscosity: dynamicViscosity / density,
    diffusivity: conductivity / (density * SPECIFIC_HEAT),
  };
}
