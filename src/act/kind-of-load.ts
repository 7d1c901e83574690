/** Words of a name that say what it is. The first that fits counts; what none fits is a load. */
const KINDS: readonly (readonly [RegExp, string])[] = [
  [/\bbilge pump\b/, "bilge pump"],
  [/\b(?:bilge |engine room )?blower\b/, "bilge blower"],
  [
    /\b(?:nav(?:igation)?|masthead|anchor|steaming|stern|port|starboard|tricolou?r) (?:light|lamp)s?\b/,
    "navigation light",
  ],
  [/\b(?:lights?|lamps?|lighting|leds?)\b/, "light"],
  [/\b(?:sockets?|outlets?|receptacles?|usb(?:-[ac])?)\b/, "outlet"],
  [/\b(?:plotter|vhf|ais|radar|radio|instruments?|display|router|modem|gps|sounder)\b/, "electronics"],
];

/**
 * The kind of part that a load is, by its name.
 *
 * @example
 * kindOfLoad("reading lights aft") //=> "light"
 * kindOfLoad("kettle socket") //=> "outlet"
 * kindOfLoad("fridge") //=> "load"
 */
export const kindOfLoad = (name: string): string =>
  KINDS.find(([pattern]) => pattern.test(name.toLowerCase()))?.[1] ?? "load";
