/** On what a conductor is, as far as mixing it up matters. */
export type Potential =
  | "AC live"
  | "AC neutral"
  | "protective"
  | "functional earth"
  | "DC positive"
  /** Fed through a switch, a sender or a fuse of its own. */
  | "DC circuit"
  | "DC negative";

/** What colour schemes give a colour to, with the potential that it has. */
export const wireFunctions = {
  line: "AC live",
  "line 2": "AC live",
  "line 3": "AC live",
  neutral: "AC neutral",
  "protective earth": "protective",
  "functional earth": "functional earth",
  "DC positive": "DC positive",
  "DC negative": "DC negative",
  "DC bonding": "protective",
  "starting circuit": "DC circuit",
  "bilge blower": "DC circuit",
  "navigation lights": "DC circuit",
  tachometer: "DC circuit",
  "charge light": "DC circuit",
  pumps: "DC circuit",
  "accessory feed": "DC circuit",
  ignition: "DC circuit",
  "cabin lights": "DC circuit",
  "instrument lights": "DC circuit",
  "oil pressure": "DC circuit",
  "water temperature": "DC circuit",
  "fuel gauge": "DC circuit",
  "tilt down, trim in": "DC circuit",
  "tilt up, trim out": "DC circuit",
  "side and tail lamps": "DC circuit",
  "main and dip beam": "DC circuit",
  "clearance lamps": "DC circuit",
  "tail lamps": "DC circuit",
  "stop lamps": "DC circuit",
  "left turn": "DC circuit",
  "right turn": "DC circuit",
  "reverse lamps": "DC circuit",
  "electric brake": "DC circuit",
  "auxiliary feed": "DC circuit",
  "trailer 12 V feed": "DC positive",
} as const satisfies Readonly<Record<string, Potential>>;

/** What a conductor is for. */
export type WireFunction = keyof typeof wireFunctions;

/** Whether a text names a function that schemes know. */
export const isWireFunction = (text: string): text is WireFunction => Object.hasOwn(wireFunctions, text);

/** The kinds of system that schemes speak of; wires of a vehicle and of a trailer come with it and keep their colour. */
export const wireSystems = ["AC", "DC", "vehicle", "trailer"] as const;

/** A kind of system. */
export type WireSystem = (typeof wireSystems)[number];

/** Whether a text names a system. */
export const isWireSystem = (text: string): text is WireSystem => (wireSystems as readonly string[]).includes(text); // wider, to search it
