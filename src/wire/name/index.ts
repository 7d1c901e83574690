export { allNames, type KnownName } from "./all-names.ts";
export { nameWire } from "./name-wire.ts";
export { plainName } from "./plain-name.ts";
export {
  nameDialects,
  nameUses,
  type NameDialect,
  type NameUse,
  type NameWish,
  type NoWireName,
  type WireName,
} from "./wire-name.ts";
