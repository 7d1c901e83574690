export { allNames, type KnownName, type NameStanding } from "./all-names.ts";
export { nameWire } from "./name-wire.ts";
export { homeDialect, plainName } from "./plain-name.ts";
export {
  nameDialects,
  nameUses,
  type NameDialect,
  type NameUse,
  type NameWish,
  type NoWireName,
  type WireName,
} from "./wire-name.ts";
