/** Words in the names of loads that say which symbol serves better than the plain one of their kind; the first that fits counts. */
const BY_WORD: readonly (readonly [RegExp, string])[] = [
  [/\b(?:fridge|freezer|refrigerator|cool ?box)/i, "refrigerator"],
  [/\b(?:windlass|winch|capstan)/i, "windlass"],
  [/\b(?:pump|toilet|watermaker)\b/i, "pump"],
  [/\b(?:fan|blower|ventilator|conditioner)\b/i, "fan"],
  [/\b(?:heater|hob|oven|kettle|boiler|heating)\b/i, "heater"],
  [/\b(?:VHF|radio|AIS|stereo|router)\b/i, "radio"],
  [/\b(?:horn)\b/i, "horn"],
  [/\bUSB/i, "usb"],
  [/\b(?:light|lights|lamp|floodlight)\b/i, "lamp"],
  [/\b(?:monitor|plotter|instruments?|display|autopilot|controls)\b/i, "display"],
];

/** Symbols that a kind sets on purpose and no word replaces. */
const FIRM = new Set(["lamp", "nav_light", "pump", "fan", "starter", "socket_ac"]);

/**
 * The symbol that the name of a load suggests; nothing is decided by it but the picture.
 *
 * @example
 * symbolByName("fridge and freezer", "load") //=> "refrigerator"
 * symbolByName("deck light", "nav_light") //=> null
 */
export function symbolByName(name: string, usual: string): string | null {
  if (FIRM.has(usual)) return null;
  return BY_WORD.find(([word]) => word.test(name))?.[1] ?? null;
}
