import type { Facts, Option } from "./part.ts";

/** Words of the trade and what they say; phrases before the words they begin with. Blanks stand for hyphens as well. */
const WORDS: readonly (readonly [words: string, facts: Facts, more?: Omit<Option, "facts">])[] = [
  ["boat cable|marine cable|marine boat cable|boat wire|marine wire", { family: "boat cable" }],
  ["marine|boat|marine grade", { maybeFamily: "boat cable" }],
  ["building cable|house cable|nm cable", { family: "building cable" }],
  ["house wire|indoor cable", { maybeFamily: "building cable" }],
  ["building wire", { family: "building wire" }],
  [
    "flexible cord|extension cord|extension lead|power cord|portable cord|rubber cord|service cord|cordage|cabtyre|shore power cord|shore cord",
    { family: "flexible cord" },
  ],
  ["cord|cords", { maybeFamily: "flexible cord" }],
  ["welding cable|welding lead|welding wire|weld cable|welding", { family: "welding cable" }],
  ["battery cable|battery cables|battery lead|starter cable|battery wire|battery", { family: "battery cable" }],
  ["speaker cable|speaker wire|loudspeaker cable|speaker", { family: "speaker cable" }],
  ["trailer cable|trailer wire|trailer", { family: "trailer cable" }],
  ["solar cable|solar wire|photovoltaic|solar", { family: "solar cable" }],
  ["automotive cable|automotive wire|automotive", { maybeFamily: "vehicle wire", isAutomotive: true }],
  [
    "primary wire|primary|vehicle cable|vehicle wire|car wire|hook up wire|hookup wire",
    { maybeFamily: "vehicle wire" },
  ],
  ["service cable|service entrance|feeder cable|feeder|mobile home feeder|quadruplex", { family: "service cable" }],
  [
    "sprinkler wire|sprinkler|irrigation wire|irrigation|doorbell wire|thermostat wire|thermostat cable|thermostat|bell wire|alarm wire|alarm cable|alarm|landscape lighting cable|landscape lighting|landscape wire|landscape",
    { ground: "without" },
  ],
  ["bare|bare wire|uninsulated", { uninsulated: true }],
  ["bare ground|bare earth", { uninsulated: true, isGround: true }],
  ["auto|auto cable|auto wire|auto electrical cable", { maybeFamily: "vehicle wire", isAutoCable: true }],
  ["bonding|ground|earth|grounding|earthing|gnd|grd", { isGround: true }],
  ["sae", { saeGauge: true }],
  ["re", { strandName: "solid" }],
  ["se", { strandName: "solid" }],
  ["rm|sm", { strandName: "stranded" }],
  ["kupferlitze", { metal: "copper", strandName: "stranded" }],
  ["litze|mehrdrähtig|feindrähtig", { strandName: "stranded" }],
  ["kupfer|cuivre|rame|cobre|медь|медный", { metal: "copper" }],
  ["blank", { plating: "plain" }],
  ["verzinnt|étamé|stagnato", { plating: "tinned" }],
  ["duplex", { count: 2 }],
  ["triplex", { count: 3, maybeFamily: "boat cable", isTriplex: true }],
  ["in parallel|parallel runs|per pole|per phase|per leg", { isParallel: true }],
  ["twin core|2 core|twin|figure 8|zip|paired core", { count: 2 }],
  ["single core|single conductor|1 conductor", { count: 1 }],
  [
    "with ground|w/g|w/ground|w/ ground|w / ground|w/gnd|wg|+ground|+ ground|plus ground|& ground|and ground|w/grd|w/bare ground|with bare ground",
    { ground: "said" },
  ],
  ["and earth|+e|+ earth|& earth", { ground: "and", groundKind: "bare" }],
  ["no ground|without ground|w/o ground", { ground: "without" }],
  ["solid|sol|solid core|solid conductor", { strandName: "solid" }],
  [
    "stranded|str|strd|fine stranded|finely stranded|fine strand|multi strand|multistrand|stranding",
    { strandName: "stranded" },
  ],
  ["flexible|flex|extra flexible|super flex|ultra flexible", { fit: "flexible" }],
  ["tinsel", { strandName: "tinsel" }],
  ["tinned copper|tinned annealed copper|tc|tac|sn cu|cu sn|tinned cu|tcu|tcw", { metal: "copper", plating: "tinned" }],
  ["tinned|tin plated|sn", { plating: "tinned" }],
  ["bare copper|plain copper|untinned copper|plain annealed copper|pac|bc", { metal: "copper", plating: "plain" }],
  ["untinned|plain", { plating: "plain" }],
  [
    "copper|cu|ofc|etp|oxygen free copper|oxygen free|pure copper|all copper|100% copper|annealed copper",
    { metal: "copper" },
  ],
  ["copper clad aluminium|copper clad aluminum|copper clad|cca", { metal: "copper-clad aluminium" }],
  ["aluminium|aluminum|al|alu|alum|aa 8000", { metal: "aluminium" }],
  ["flat|flat cable", { form: "flat" }],
  ["round", { form: "round" }],
  [
    "oil resistant ii|gasoline and oil resistant ii|gasoline and oil resistant|oil resistant|oil res|gas and oil resistant",
    { fit: "oil" },
  ],
  ["sunlight resistant|sun resistant|sun res|uv resistant", { fit: "sun" }],
  ["wet location|wet locations|wet", { fit: "wet" }],
  ["fr|frls|flame retardant|vw 1|vw1|ft1|ft2|ft4", { fit: "flame" }],
  ["a spec|b spec", { sellersSeries: true }],
  [
    "tape|sheeting|film|door|doors|prehung|pipe|pipes|npt|pex|nipple|hose|tube|tubing|screw|screws|bolt|bolts|nut|nuts|sheet|sheet metal|galvanized|galvanised|stainless|steel|shotgun|needle|jack|plug|fuse|drill|drill bit|timber|lumber|wood|nail|nails|rope|chain|washer|rivet|staple|staples|cable tie|cable ties|plugs|jacks|screwdriver",
    { otherThing: true },
  ],
  [
    "ring|rings|lug|lugs|stud|studs|terminal|terminals|ring terminal|screw|eye terminal|butt connector|hole",
    { fitting: "a terminal" },
  ],
  ["emt|conduit|breaker|breakers|relay|relays|switch|switches|mcb|rcd|rcbo|gfci", { nearThing: true }],
  ["reel|roll|drum|spool|coil", { quantity: { value: 1, unit: "reel", metres: null } }],
  [
    "lszh|lsf|lsoh|ls0h|rv|mast|pump|wall|in wall|fed|pole|pin|both|ends|enamelled|enameled|thin wall|thinwall|thick wall|heavy wall|lamp|lighting|armoured|armored|swa|screened|shielded|foil|drain wire|kabel|leitung|ader|cavo|câble|fil|cable|cables|wire|wires|wiring|conductor|conductors|core|cores|insulated|insulation|jacket|jacketed|sheathed|sheath|per|for|of|the|a|an|and|with|in|or|to|at|size|gauge|grade|type|dc|ac|electrical|electric|power|supply|line|lead|leads|safety|low voltage|high strand count|pvc|xlpe|rubber|silicone|epdm|neoprene|ul|csa|listed|ce|rohs|made|usa|heavy duty|hd|by|foot|metre|meter|m|ft|each|ea|qty|x|max|rated|dry|or dry|premium|multi|multicore|multi core|mains|length|sold|oem|awm|about|approx|cut|new|class|volt|volts|stock|bulk|strand|strands|crimp|no|on|run|runs|circuit|feed|branch|positive|negative|plus|minus|pos|neg|from|is|please|need|want|de|du|des|pour|da|di|von|für|zu|zum|van|voor|mit|mc4|anl|mrbf|mega|midi|led|bow|bus|ev|sub|vhf|cb|led|usb|gps|mppt|bms|din|rv|uk|eu|single|singles|i need|i have|i want|can i|do i|should i|i use|i ran|i run|if i|i am|it|my|by|dry|so|do|did|he|we|us|go|be|as|up|all|any|are|was|has|had|have|use|used|can|may|get|got|run|ran|too|not less than|no less than|not smaller than|double insulated",
    {},
  ],
];

interface Phrase {
  readonly text: string;
  readonly options: readonly Option[];
}

/** Every phrase by its first two signs, the longest first. */
const byStart: ReadonlyMap<string, readonly Phrase[]> = (() => {
  const all = new Map<string, Phrase[]>();
  for (const [words, facts, more] of WORDS)
    for (const text of words.split("|")) {
      const key = text.slice(0, 2);
      const list = all.get(key) ?? [];
      list.push({ text, options: [{ facts, ...more }] });
      all.set(key, list);
    }
  for (const list of all.values()) list.sort((a, b) => b.text.length - a.text.length);
  return all;
})();

const isWordSign = (code: number): boolean => (code >= 97 && code <= 122) || (code >= 48 && code <= 57) || code > 127;

/** Whether a figure before a place goes on behind a point: `ft1.5`. */
const runsOn = (low: string, end: number): boolean =>
  /[.,]/.test(low.charAt(end)) && /\d/.test(low.charAt(end - 1)) && /\d/.test(low.charAt(end + 1));

/**
 * The longest phrase of the trade at a place.
 *
 * @param low small letters, blanks for hyphens
 */
export function phraseAt(
  low: string,
  start: number,
): { readonly end: number; readonly options: readonly Option[] } | null {
  for (const length of [2, 1]) {
    for (const { text, options } of byStart.get(low.slice(start, start + length)) ?? []) {
      const end = start + text.length;
      if (low.startsWith(text, start) && !isWordSign(low.charCodeAt(end)) && !runsOn(low, end)) return { end, options };
    }
  }
  return null;
}
