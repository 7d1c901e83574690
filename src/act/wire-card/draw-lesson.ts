import { readLabel } from "../../wire/label/read-label.ts";
import type { LessonPicture, LessonStep } from "../../wire/lesson/lesson-step.ts";
import { wireLesson } from "../../wire/lesson/wire-lesson.ts";
import type { WireMake } from "../../wire/make/wire-make.ts";
import { drawLadder, drawSectionsAlike } from "./drawings.ts";
import type { ShownDrawing } from "./wire-card-shape.ts";

/** A step of the taught path with its pictures. */
export interface LessonPageStep extends LessonStep {
  readonly drawn: readonly { readonly svg: string; readonly says: string }[];
}

/** The taught path of how wire is named, ready to be shown. */
export const drawLesson = (): readonly LessonPageStep[] =>
  wireLesson().map((step) => ({ ...step, drawn: drawnOf(step.picture) }));

function drawnOf(picture: LessonPicture): LessonPageStep["drawn"] {
  if (picture === null) return [];
  const makeOf = (label: string): readonly WireMake[] =>
    readLabel(label)
      .readings.slice(0, 1)
      .map(({ make }) => make);
  const drawn: readonly ShownDrawing[] =
    picture.is === "cuts"
      ? drawSectionsAlike(
          picture.labels.flatMap((title) => makeOf(title).map((make) => ({ make, title }))),
          { isNarrow: false },
        )
      : makeOf(picture.marked).map(({ size }) => drawLadder(size, false));
  return drawn.map(({ svg, says }) => ({ svg, says }));
}
