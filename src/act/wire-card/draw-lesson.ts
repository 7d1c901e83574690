import { readLabel } from "../../wire/label/read-label.ts";
import type { LessonPicture, LessonStep } from "../../wire/lesson/lesson-step.ts";
import { wireLesson } from "../../wire/lesson/wire-lesson.ts";
import { drawLadder, drawSection } from "./drawings.ts";

/** A step of the taught path with its pictures. */
export interface LessonPageStep extends LessonStep {
  readonly drawn: readonly { readonly svg: string; readonly says: string }[];
}

/** The taught path of how wire is named, ready to be shown. */
export const drawLesson = (): readonly LessonPageStep[] =>
  wireLesson().map((step) => ({ ...step, drawn: drawnOf(step.picture) }));

function drawnOf(picture: LessonPicture): LessonPageStep["drawn"] {
  if (picture === null) return [];
  const labels = picture.is === "cuts" ? picture.labels : [picture.marked];
  return labels.flatMap((label) => {
    const [reading] = readLabel(label).readings;
    if (reading === undefined) return [];
    const drawn =
      picture.is === "cuts"
        ? drawSection(reading.make, { trueSize: false, isNarrow: false }, label)
        : drawLadder(reading.make.size, false);
    return drawn === null ? [] : [{ svg: drawn.svg, says: drawn.says }];
  });
}
