import type { Celsius } from "../../quantity/index.ts";
import { airProperties, SEA_LEVEL_PRESSURE } from "./air.ts";

/** What a warm surface loses its heat to. */
export interface Surroundings {
  /** Temperature of still air, °C. */
  readonly ambientC: Celsius;
  /** Temperature of the walls that the surface radiates to, °C; that of the air where left out. A hot engine feeds heat in. */
  readonly wallC?: Celsius;
  /** Emissivity of the surface, 0…1; 0.9, plastic and rubber, where left out. */
  readonly emissivity?: number;
  /** Pressure of the air, Pa; sea level where left out. 0 is a vacuum: radiation alone. */
  readonly pressure?: number;
}

/** Emissivity of plastic and rubber; textbooks, from memory. Bright metal is 0.3 or less. */
export const PLASTIC_EMISSIVITY = 0.9;

/** Stefan–Boltzmann constant, W/(m²·K⁴). */
const STEFAN_BOLTZMANN = 5.670374e-8;
/** Acceleration of free fall, m/s². */
const GRAVITY = 9.80665;
const kelvin = (celsius: number): number => celsius + 273.15;

/**
 * Heat that a horizontal cylinder gives to still air.
 *
 * Ignores draught, walls nearer than a third of its diameter and slope: a vertical wire loses a little less near its top.
 *
 * @param diameter m; 0.0005…0.2
 * @param surfaceC °C; below the air's, heat flows in and the result is negative
 * @returns W/m
 * @accuracy the correlation is good to about 10 % for wires
 * @source Churchill and Chu, natural convection from a horizontal cylinder, Ra ≤ 1e12; textbooks, from memory
 * @example
 * convectionLoss(0.01, 60, { ambientC: celsius(30) }) //=> 8.01
 */
export function convectionLoss(diameter: number, surfaceC: number, surroundings: Surroundings): number {
  const { ambientC, pressure = SEA_LEVEL_PRESSURE } = surroundings;
  const rise = surfaceC - ambientC;
  if (rise === 0 || pressure === 0) return 0;
  const filmK = kelvin((surfaceC + ambientC) / 2);
  const { conductivity, viscosity, diffusivity } = airProperties(filmK, pressure);
  const rayleigh = (GRAVITY * Math.abs(rise) * diameter ** 3) / (filmK * viscosity * diffusivity);
  const prandtl = viscosity / diffusivity;
  const nusselt = (0.6 + (0.387 * rayleigh ** (1 / 6)) / (1 + (0.559 / prandtl) ** (9 / 16)) ** (8 / 27)) ** 2;
  // h = Nu·k/D over the circumference π·D: the diameter cancels.
  return Math.PI * nusselt * conductivity * rise;
}

/**
 * Heat that a cylinder radiates to walls that surround it on all sides.
 *
 * @param diameter m
 * @param surfaceC °C
 * @returns W/m; negative towards hotter walls
 * @source law of Stefan and Boltzmann, grey surface, large enclosure
 * @example
 * radiationLoss(0.01, 60, { ambientC: celsius(30) }) //=> 6.209
 */
export function radiationLoss(diameter: number, surfaceC: number, surroundings: Surroundings): number {
  const { ambientC, wallC = ambientC, emissivity = PLASTIC_EMISSIVITY } = surroundings;
  return Math.PI * diameter * emissivity * STEFAN_BOLTZMANN * (kelvin(surfaceC) ** 4 - kelvin(wallC) ** 4);
}

/**
 * Heat that a cylinder loses by convection and radiation together; it rises with the surface temperature.
 *
 * @param diameter m
 * @param surfaceC °C
 * @returns W/m
 */
export const surfaceLoss = (diameter: number, surfaceC: number, surroundings: Surroundings): number =>
  convectionLoss(diameter, surfaceC, surroundings) + radiationLoss(diameter, surfaceC, surroundings);
