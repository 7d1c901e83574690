import type { Fitness } from "../make/wire-make.ts";
import type { TypeCode } from "./type-code.ts";

const fitWords: Readonly<Record<keyof Fitness, readonly [yes: string, no: string]>> = {
  wet: ["for wet places", "not for wet places"],
  oil: ["oil-resistant", "not oil-resistant"],
  sun: ["sunlight-resistant", "not for sunlight"],
  flame: ["flame-tested", "not flame-tested"],
  flexible: ["may be moved in use", "for fixed wiring"],
};

/** Order in which fitness is told. */
const fitOrder = ["wet", "oil", "sun", "flame", "flexible"] as const satisfies readonly (keyof Fitness)[];

/**
 * What a fitness says, fact by fact, known ones only.
 *
 * @example
 * sayFitness({ wet: true, oil: null, sun: null, flame: null, flexible: false }) //=> ["for wet places", "for fixed wiring"]
 */
export function sayFitness(fitness: Fitness): readonly string[] {
  return fitOrder.flatMap((fact) => {
    const known = fitness[fact];
    return known === null ? [] : [fitWords[fact][known ? 0 : 1]];
  });
}

/** Facts of a type as a sentence: `SOOW is flexible cord, …: 600 V, 60 °C, for wet places.` */
export function sayType(type: Omit<TypeCode, "says">): string {
  const { code, name, voltsSay, temperatureC, wetTemperatureC, stranding, metal, plating } = type;
  const facts = [
    ...(voltsSay === null ? [] : [/[A-Z]$/.test(voltsSay) ? voltsSay.replace(" ", " V ") : `${voltsSay} V`]),
    ...(temperatureC === null ? [] : [`${temperatureC} °C`]),
    ...(wetTemperatureC === null || wetTemperatureC === temperatureC ? [] : [`${wetTemperatureC} °C when wet`]),
    ...(stranding?.name == null ? [] : [`${stranding.name} conductor`]),
    ...(plating === null ? [] : [plating]),
    ...(metal === null ? [] : [metal]),
    ...sayFitness(type.fitness),
  ];
  const article = /^[aeiou]/i.test(name) ? "an" : "a";
  return `${code} is ${article} ${name}${facts.length === 0 ? "" : `: ${facts.join(", ")}`}.`;
}
