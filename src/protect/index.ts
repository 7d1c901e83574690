export {
  chooseDevice,
  familiesFor,
  STEADY_SHARE,
  steadyShare,
  type DeviceFound,
  type DeviceNeed,
  type DevicePlace,
} from "./choose-device.ts";
export { findPush, type Push } from "./find-push.ts";
