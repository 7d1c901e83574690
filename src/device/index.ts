export { ambientShare } from "./ambient-derating.ts";
export { conventional, type ConventionalCurrent, type ConventionalCurrents } from "./conventional.ts";
export { deviceMarks, type ByPart, type DeviceMarks } from "./device-marks.ts";
export {
  deviceFamilies,
  deviceFamily,
  deviceFamilyIds,
  isDeviceFamilyId,
  readDeviceFamily,
  type DeviceFamily,
  type DeviceFamilyId,
  type DeviceKind,
  type Reset,
  type Supply,
} from "./family.ts";
export { greatestVolts, interruptRating, type InterruptQuestion, type InterruptRating } from "./interrupt-rating.ts";
export { letThrough, type LetThrough } from "./let-through.ts";
export { preArcing, type PreArcing, type Stated } from "./melting-energy.ts";
export { openingBand, type BandMethod, type OpeningBand, type OpeningBound } from "./opening-band.ts";
export { gatesOf, greatestOpeningTime, leastOpeningTime, type Gate, type OpeningTime } from "./opening-time.ts";
export { deviceResistance, type DeviceResistance } from "./resistance.ts";
export { nextStandardRating, standardRatingAtLeast, standardRatingAtMost } from "./standard-ratings.ts";
export { carriesStart, judgeStart, leastRatingForStart, START_MARGIN, type StartVerdict } from "./start.ts";
