/** A document that numbers are taken from. */
export interface Document {
  readonly title: string;
  /** Edition or year; empty where the document has none. */
  readonly edition: string;
}

/**
 * Every document the project cites, under the id that code and tables use. An id names one edition: a new edition is a new line.
 * Where only quotations of a document were seen, the trust of each citation says so.
 */
export const documents = {
  // sizes and resistances
  "astm-b258": { title: "ASTM B258, diameters of wire sizes (AWG)", edition: "2018" },
  "astm-b8": { title: "ASTM B8, concentric-lay-stranded copper conductors", edition: "" },
  "astm-b496": { title: "ASTM B496, compact round stranded copper conductors", edition: "" },
  "iec-60228-2004": { title: "IEC 60228, conductors of insulated cables", edition: "2004" },
  "iec-60287-1-1": { title: "IEC 60287-1-1, current rating of cables", edition: "2006" },
  "iec-60949": { title: "IEC 60949, thermally permissible short-circuit currents", edition: "1988" },
  "iso-6722-1": { title: "ISO 6722-1, 60 V and 600 V single-core vehicle cables", edition: "2011" },
  "sae-j1128": { title: "SAE J1127 and J1128, vehicle battery and primary cable", edition: "" },
  "bs-3737": { title: "BS 3737, standard wire gauge (withdrawn)", edition: "1964" },
  "din-46228": { title: "DIN 46228, bootlace ferrules", edition: "" },
  "astm-b566": { title: "ASTM B566, copper-clad aluminium wire", edition: "" },
  "nbs-handbook-100": { title: "NBS Handbook 100, copper wire tables", edition: "1966" },
  "ul-1426": { title: "UL 1426, electrical cables for boats", edition: "" },
  "ul-4703": { title: "UL 4703, photovoltaic wire", edition: "" },
  "hd-361": { title: "HD 361, designation of low-voltage cables", edition: "S3:1999" },
  "en-50618": { title: "EN 50618, cables for photovoltaic systems", edition: "2014" },
  "vde-0250": { title: "DIN VDE 0250, national insulated power cables", edition: "" },
  "bs-6004": { title: "BS 6004, PVC insulated and sheathed cables", edition: "" },
  "jis-c-3342": { title: "JIS C 3342, PVC insulated and sheathed cables (VV)", edition: "" },
  "sae-j560": { title: "SAE J560 and J1067, seven-conductor trailer connection", edition: "" },
  "iec-60757": { title: "IEC 60757, letter codes of colours", edition: "" },
  "iec-60445-2010": { title: "IEC 60445 and 60446, colours of conductors", edition: "before 2017" },
  "iec-60445-2017": { title: "IEC 60445, colours of conductors", edition: "2017" },
  "din-72551": { title: "DIN 72551 and 72552, low-voltage vehicle wire and terminals", edition: "" },
  // ampacity and design rules
  "33-cfr-183": { title: "33 CFR part 183 subpart I, electrical systems of boats", edition: "" },
  "46-cfr-183": {
    title: "46 CFR part 183, electrical installation of small passenger vessels",
    edition: "",
  },
  "46-cfr-111": { title: "46 CFR part 111, electric systems of ships", edition: "" },
  "abyc-e-11": { title: "ABYC E-11, AC and DC electrical systems on boats", edition: "as quoted" },
  "abyc-a-28": { title: "ABYC A-28, galvanic isolators", edition: "2008" },
  "abyc-e-13": { title: "ABYC E-13, lithium-ion batteries", edition: "as quoted" },
  "iso-23625-2025": { title: "ISO 23625, small craft, lithium-ion batteries", edition: "2025" },
  "en-1648-2": { title: "EN 1648-2, motor caravans, 12 V direct current", edition: "2018" },
  "as-nzs-3001-2": {
    title: "AS/NZS 3001.2, connectable electrical installations in vehicles",
    edition: "2022",
  },
  "iso-10133-2012": { title: "ISO 10133, small craft, extra-low-voltage DC", edition: "2012" },
  "iso-13297-2020": {
    title: "ISO 13297, small craft, AC and DC installations",
    edition: "2020+A1:2022",
  },
  "iso-13590-2018": { title: "ISO 13590, personal watercraft", edition: "2018" },
  "nfpa-70-2023": { title: "NFPA 70, National Electrical Code", edition: "2023" },
  "nfpa-70-2017": { title: "NFPA 70, National Electrical Code", edition: "2017" },
  "nom-001-2012": { title: "NOM-001-SEDE, electrical installations", edition: "2012" },
  "csa-c22-1": { title: "Canadian Electrical Code, part I", edition: "" },
  "bs-7671-2018": { title: "BS 7671, wiring regulations", edition: "2018" },
  "iec-60364-4-41": { title: "IEC 60364-4-41, protection against electric shock", edition: "2005" },
  "iec-60364-4-42": {
    title: "IEC 60364-4-42, protection against thermal effects",
    edition: "2010+A1:2014",
  },
  "iec-60364-4-43": { title: "IEC 60364-4-43, protection against overcurrent", edition: "2008" },
  "iec-60364-5-52": { title: "IEC 60364-5-52, wiring systems", edition: "2009" },
  "iec-60364-5-53": { title: "IEC 60364-5-53, devices for protection and switching", edition: "" },
  "iec-60364-5-54": { title: "IEC 60364-5-54, earthing and protective conductors", edition: "2011" },
  "iec-60364-7-712": { title: "IEC 60364-7-712, solar photovoltaic supply", edition: "2017" },
  "iec-62548": { title: "IEC 62548, photovoltaic arrays, design", edition: "2016" },
  "iec-60364-7-721": { title: "IEC 60364-7-721, caravans and motor caravans", edition: "2017" },
  "as-nzs-3001-2-2022": {
    title: "AS/NZS 3001.2, connectable electrical installations",
    edition: "2022",
  },
  "vde-0298-4-2013": {
    title: "DIN VDE 0298-4, current-carrying capacity of cables",
    edition: "2013-06",
  },
  "faa-ac-43-13-1b": {
    title: "FAA AC 43.13-1B change 1, aircraft inspection and repair",
    edition: "2001",
  },
  "icea-p-32-382": {
    title: "ICEA P-32-382, short-circuit characteristics of insulated cables",
    edition: "",
  },
  // protective devices
  "iso-8820-3": { title: "ISO 8820-3, road-vehicle fuses, blade types", edition: "2015" },
  "iso-8820-5": { title: "ISO 8820-5, road-vehicle fuses, bolt-down strips", edition: "" },
  "sae-j1284": { title: "SAE J1284, blade fuses", edition: "" },
  "sae-j1888": { title: "SAE J1888, high-current time-lag blade fuses", edition: "" },
  "sae-j2077": { title: "SAE J2077, miniature blade fuses", edition: "" },
  "sae-j553": { title: "SAE J553, circuit breakers", edition: "" },
  "ul-248-8": { title: "UL/CSA 248-8, class J fuses", edition: "" },
  "ul-248-14": { title: "UL/CSA 248-14, supplemental fuses", edition: "" },
  "ul-248-15": { title: "UL/CSA 248-15, class T fuses", edition: "" },
  "ul-489": { title: "UL 489, molded-case circuit breakers", edition: "" },
  "ul-1077": { title: "UL 1077, supplementary protectors", edition: "" },
  "ul-1500": { title: "UL 1500, ignition protection of marine products", edition: "" },
  "iec-60127-2": { title: "IEC 60127-2, cartridge fuse-links", edition: "" },
  "iec-60269-1": { title: "IEC 60269-1, low-voltage fuses", edition: "" },
  "iec-60269-3": { title: "IEC 60269-3, fuses for unskilled persons", edition: "" },
  "iec-60898-1": { title: "IEC 60898-1, circuit-breakers for AC", edition: "" },
  "iec-60898-2": { title: "IEC 60898-2, circuit-breakers for AC and DC", edition: "" },
  "iec-60947-1": { title: "IEC 60947-1, low-voltage switchgear, general rules", edition: "" },
  "iec-60947-2": { title: "IEC 60947-2, circuit-breakers", edition: "" },
  "iec-61008-1": { title: "IEC 61008-1, residual current operated circuit-breakers", edition: "" },
  "ul-943": { title: "UL 943, ground-fault circuit interrupters", edition: "" },
  "iec-61660-1": {
    title: "IEC 61660-1, short-circuit currents in DC auxiliary installations",
    edition: "1997",
  },
  // drawing
  "iec-60617": { title: "IEC 60617, graphical symbols for diagrams", edition: "" },
  // what is no single document
  "data-sheets": { title: "data sheets of the trade, as quoted in public articles", edition: "" },
  textbooks: { title: "open textbooks of electrical engineering", edition: "" },
  "circuit-laws": { title: "laws of Ohm and Kirchhoff", edition: "" },
  "open-cell-data": { title: "open academic measurements of LFP cells", edition: "" },
  "trade-practice": { title: "practice of the trade, no published source", edition: "" },
  "own-derivation": { title: "computed here from published values", edition: "" },
} as const satisfies Readonly<Record<string, Document>>;

/** Id of a document in the list. */
export type DocumentId = keyof typeof documents;

/** Whether a text is the id of a document in the list. */
export const isDocumentId = (text: string): text is DocumentId => Object.hasOwn(documents, text);
