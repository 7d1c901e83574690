/** The ways in which a plan may be changed to cure a fault, each with what is done in the words of the trade. */
export const cureMoves = {
  "next-size": "take the next thicker wire",
  "upstream-size": "take thicker wire for the feeder on the way that loses most",
  "hotter-insulation": "take wire whose insulation bears more heat",
  "fit-insulation": "take wire that is fit for where it lies",
  "looser-bundle": "take it out of the bundle",
  stranded: "take finer strands",
  copper: "take copper",
  sheathe: "lay it in a sheath",
  "as-drawn": "buy the size that is drawn, or draw the size that is bought",
  "smaller-device": "take the next smaller device",
  "larger-device": "take the next larger device",
  "device-at-source": "put a device where a source feeds it",
  "device-nearer": "move the device to its source",
  "device-made-for-it": "take a device that is made for it",
  "own-circuit": "give it a circuit and a device of its own",
  "ahead-of-switch": "feed it from ahead of the switch, with a device of its own",
  "behind-switch": "feed it from behind the switch",
  "larger-part": "take a part of a higher rating",
  "equal-leads": "make the leads equal",
  "matched-unit": "make the units alike",
  "another-unit": "add a unit",
  stagger: "do not run all of it at once",
  "name-rule-set": "name a rule set",
} as const;

export type CureMove = keyof typeof cureMoves;
