import type { LessonStep } from "./lesson-step.ts";
import { stepsOfCables } from "./steps-of-cables.ts";
import { stepsOfSizes } from "./steps-of-sizes.ts";

/**
 * The way from “a bigger number is a thinner wire” to an order line that can be filled in one way only. Every figure in it is computed from the
 * tables when it is asked for, and every label in it is read by `readLabel`.
 *
 * @returns the steps in their order; each asks before it tells
 * @example
 * wireLesson()[0].title //=> "A bigger number is a thinner wire"
 */
export const wireLesson = (): readonly LessonStep[] => [...stepsOfSizes(), ...stepsOfCables()];
