/** What sort of document a number comes from. */
export type DocumentKind = "law" | "standard" | "code" | "circular" | "handbook" | "data sheet" | "practice" | "own";

/** A document that numbers are taken from. */
export interface Document {
  readonly title: string;
  /** Edition or year; empty where the document has none. */
  readonly edition: string;
  readonly kind: DocumentKind;
}

/**
 * Every document the project cites, under the id that code and tables use. An id names one edition: a new edition is a new line.
 * Where only quotations of a document were seen, the trust of each citation says so.
 */
export const documents = {
  // sizes and resistances
  "astm-b258": { title: "ASTM B258, diameters of wire sizes (AWG)", edition: "2018", kind: "standard" },
  "astm-b8": { title: "ASTM B8, concentric-lay-stranded copper conductors", edition: "", kind: "standard" },
  "astm-b496": { title: "ASTM B496, compact round stranded copper conductors", edition: "", kind: "standard" },
  "iec-60228-2004": { title: "IEC 60228, conductors of insulated cables", edition: "2004", kind: "standard" },
  "iec-60287-1-1": { title: "IEC 60287-1-1, current rating of cables", edition: "2006", kind: "standard" },
  "iec-60949": { title: "IEC 60949, thermally permissible short-circuit currents", edition: "1988", kind: "standard" },
  "iso-6722-1": { title: "ISO 6722-1, 60 V and 600 V single-core vehicle cables", edition: "2011", kind: "standard" },
  "sae-j1128": { title: "SAE J1127 and J1128, vehicle battery and primary cable", edition: "", kind: "standard" },
  "bs-3737": { title: "BS 3737, standard wire gauge (withdrawn)", edition: "1964", kind: "standard" },
  "din-46228": { title: "DIN 46228, bootlace ferrules", edition: "", kind: "standard" },
  "astm-b566": { title: "ASTM B566, copper-clad aluminium wire", edition: "", kind: "standard" },
  "nbs-handbook-100": { title: "NBS Handbook 100, copper wire tables", edition: "1966", kind: "handbook" },
  "ul-1426": { title: "UL 1426, electrical cables for boats", edition: "", kind: "standard" },
  "ul-4703": { title: "UL 4703, photovoltaic wire", edition: "", kind: "standard" },
  "hd-361": { title: "HD 361, designation of low-voltage cables", edition: "S3:1999", kind: "standard" },
  "en-50618": { title: "EN 50618, cables for photovoltaic systems", edition: "2014", kind: "standard" },
  "vde-0250": { title: "DIN VDE 0250, national insulated power cables", edition: "", kind: "standard" },
  "bs-6004": { title: "BS 6004, PVC insulated and sheathed cables", edition: "", kind: "standard" },
  "jis-c-3342": { title: "JIS C 3342, PVC insulated and sheathed cables (VV)", edition: "", kind: "standard" },
  "sae-j560": { title: "SAE J560 and J1067, seven-conductor trailer connection", edition: "", kind: "standard" },
  "iec-60757": { title: "IEC 60757, letter codes of colours", edition: "", kind: "standard" },
  "iec-60445-2010": { title: "IEC 60445 and 60446, colours of conductors", edition: "before 2017", kind: "standard" },
  "iec-60445-2017": { title: "IEC 60445, colours of conductors", edition: "2017", kind: "standard" },
  "din-72551": { title: "DIN 72551 and 72552, low-voltage vehicle wire and terminals", edition: "", kind: "standard" },
  // ampacity and design rules
  "33-cfr-183": { title: "33 CFR part 183 subpart I, electrical systems of boats", edition: "", kind: "law" },
  "46-cfr-183": {
    title: "46 CFR part 183, electrical installation of small passenger vessels",
    edition: "",
    kind: "law",
  },
  "46-cfr-111": { title: "46 CFR part 111, electric systems of ships", edition: "", kind: "law" },
  "abyc-e-11": { title: "ABYC E-11, AC and DC electrical systems on boats", edition: "as quoted", kind: "standard" },
  "abyc-a-28": { title: "ABYC A-28, galvanic isolators", edition: "2008", kind: "standard" },
  "abyc-e-13": { title: "ABYC E-13, lithium-ion batteries", edition: "as quoted", kind: "standard" },
  "iso-23625-2025": { title: "ISO 23625, small craft, lithium-ion batteries", edition: "2025", kind: "standard" },
  "en-1648-2": { title: "EN 1648-2, motor caravans, 12 V direct current", edition: "2018", kind: "standard" },
  "as-nzs-3001-2": {
    title: "AS/NZS 3001.2, connectable electrical installations in vehicles",
    edition: "2022",
    kind: "standard",
  },
  "iso-10133-2012": { title: "ISO 10133, small craft, extra-low-voltage DC", edition: "2012", kind: "standard" },
  "iso-13297-2020": {
    title: "ISO 13297, small craft, AC and DC installations",
    edition: "2020+A1:2022",
    kind: "standard",
  },
  "iso-13590-2018": { title: "ISO 13590, personal watercraft", edition: "2018", kind: "standard" },
  "nfpa-70-2023": { title: "NFPA 70, National Electrical Code", edition: "2023", kind: "code" },
  "nfpa-70-2017": { title: "NFPA 70, National Electrical Code", edition: "2017", kind: "code" },
  "nom-001-2012": { title: "NOM-001-SEDE, electrical installations", edition: "2012", kind: "law" },
  "csa-c22-1": { title: "Canadian Electrical Code, part I", edition: "", kind: "code" },
  "bs-7671-2018": { title: "BS 7671, wiring regulations", edition: "2018", kind: "standard" },
  "iec-60364-4-41": { title: "IEC 60364-4-41, protection against electric shock", edition: "2005", kind: "standard" },
  "iec-60364-4-42": {
    title: "IEC 60364-4-42, protection against thermal effects",
    edition: "2010+A1:2014",
    kind: "standard",
  },
  "iec-60364-4-43": { title: "IEC 60364-4-43, protection against overcurrent", edition: "2008", kind: "standard" },
  "iec-60364-5-52": { title: "IEC 60364-5-52, wiring systems", edition: "2009", kind: "standard" },
  "iec-60364-5-53": { title: "IEC 60364-5-53, devices for protection and switching", edition: "", kind: "standard" },
  "iec-60364-5-54": { title: "IEC 60364-5-54, earthing and protective conductors", edition: "2011", kind: "standard" },
  "iec-60364-7-712": { title: "IEC 60364-7-712, solar photovoltaic supply", edition: "2017", kind: "standard" },
  "iec-62548": { title: "IEC 62548, photovoltaic arrays, design", edition: "2016", kind: "standard" },
  "iec-60364-7-721": { title: "IEC 60364-7-721, caravans and motor caravans", edition: "2017", kind: "standard" },
  "as-nzs-3001-2-2022": {
    title: "AS/NZS 3001.2, connectable electrical installations",
    edition: "2022",
    kind: "standard",
  },
  "vde-0298-4-2013": {
    title: "DIN VDE 0298-4, current-carrying capacity of cables",
    edition: "2013-06",
    kind: "standard",
  },
  "faa-ac-43-13-1b": {
    title: "FAA AC 43.13-1B change 1, aircraft inspection and repair",
    edition: "2001",
    kind: "circular",
  },
  "icea-p-32-382": {
    title: "ICEA P-32-382, short-circuit characteristics of insulated cables",
    edition: "",
    kind: "standard",
  },
  // protective devices
  "iso-8820-3": { title: "ISO 8820-3, road-vehicle fuses, blade types", edition: "2015", kind: "standard" },
  "iso-8820-5": { title: "ISO 8820-5, road-vehicle fuses, bolt-down strips", edition: "", kind: "standard" },
  "sae-j1284": { title: "SAE J1284, blade fuses", edition: "", kind: "standard" },
  "sae-j1888": { title: "SAE J1888, high-current time-lag blade fuses", edition: "", kind: "standard" },
  "sae-j2077": { title: "SAE J2077, miniature blade fuses", edition: "", kind: "standard" },
  "sae-j553": { title: "SAE J553, circuit breakers", edition: "", kind: "standard" },
  "ul-248-8": { title: "UL/CSA 248-8, class J fuses", edition: "", kind: "standard" },
  "ul-248-14": { title: "UL/CSA 248-14, supplemental fuses", edition: "", kind: "standard" },
  "ul-248-15": { title: "UL/CSA 248-15, class T fuses", edition: "", kind: "standard" },
  "ul-489": { title: "UL 489, molded-case circuit breakers", edition: "", kind: "standard" },
  "ul-1077": { title: "UL 1077, supplementary protectors", edition: "", kind: "standard" },
  "ul-1500": { title: "UL 1500, ignition protection of marine products", edition: "", kind: "standard" },
  "iec-60127-2": { title: "IEC 60127-2, cartridge fuse-links", edition: "", kind: "standard" },
  "iec-60269-1": { title: "IEC 60269-1, low-voltage fuses", edition: "", kind: "standard" },
  "iec-60269-3": { title: "IEC 60269-3, fuses for unskilled persons", edition: "", kind: "standard" },
  "iec-60898-1": { title: "IEC 60898-1, circuit-breakers for AC", edition: "", kind: "standard" },
  "iec-60898-2": { title: "IEC 60898-2, circuit-breakers for AC and DC", edition: "", kind: "standard" },
  "iec-60947-1": { title: "IEC 60947-1, low-voltage switchgear, general rules", edition: "", kind: "standard" },
  "iec-60947-2": { title: "IEC 60947-2, circuit-breakers", edition: "", kind: "standard" },
  "iec-61008-1": { title: "IEC 61008-1, residual current operated circuit-breakers", edition: "", kind: "standard" },
  "ul-943": { title: "UL 943, ground-fault circuit interrupters", edition: "", kind: "standard" },
  "iec-61660-1": {
    title: "IEC 61660-1, short-circuit currents in DC auxiliary installations",
    edition: "1997",
    kind: "standard",
  },
  // drawing
  "iec-60617": { title: "IEC 60617, graphical symbols for diagrams", edition: "", kind: "standard" },
  // what is no single document
  "data-sheets": { title: "data sheets of the trade, as quoted in public articles", edition: "", kind: "data sheet" },
  textbooks: { title: "open textbooks of electrical engineering", edition: "", kind: "handbook" },
  "circuit-laws": { title: "laws of Ohm and Kirchhoff", edition: "", kind: "handbook" },
  "open-cell-data": { title: "open academic measurements of LFP cells", edition: "", kind: "data sheet" },
  "trade-practice": { title: "practice of the trade, no published source", edition: "", kind: "practice" },
  "own-derivation": { title: "computed here from published values", edition: "", kind: "own" },
} as const satisfies Readonly<Record<string, Document>>;

/** Id of a document in the list. */
export type DocumentId = keyof typeof documents;

/** Whether a text is the id of a document in the list. */
export const isDocumentId = (text: string): text is DocumentId => Object.hasOwn(documents, text);
