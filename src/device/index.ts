export { ambientShare } from "./ambient-derating.ts";
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
export { gatesOf, greatestOpeningTime, leastOpeningTime, type Gate, type OpeningTime } from "./opening-time.ts";
export { deviceResistance, type DeviceResistance } from "./resistance.ts";
export { nextStandardRating, standardRatingAtLeast, standardRatingAtMost } from "./standard-ratings.ts";
export { carriesStart, judgeStart, leastRatingForStart, START_MARGIN, type StartVerdict } from "./start.ts";
