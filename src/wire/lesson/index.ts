/** A taught path through the names of wire: every figure is computed when it is asked for. */
export type { LessonChoice, LessonPicture, LessonQuestion, LessonStep } from "./lesson-step.ts";
export { wireLesson } from "./wire-lesson.ts";
