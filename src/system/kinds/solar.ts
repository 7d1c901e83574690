import { count, known, quantity, quantityIn, recordOf, text, word, yesNo } from "../../plan/index.ts";
import { defineKind } from "../kind.ts";
import { fallEachKelvin } from "../solar-volts.ts";
import { exactly } from "../value.ts";
import { arrayIsolator } from "./array-isolator.ts";
import { chargerFacts, chargingVolts, outputAmps, selfLimitedOf, treatment } from "./charging.ts";

export const solarModule = defineKind({
  name: "solar module",
  also: ["solar panel", "module", "array"],
  says: "one framed set of solar cells, or an array of them",
  symbol: { usual: "pv_module", several: "pv_array" },
  facts: {
    rated: { value: quantity("power", { min: 0 }), doc: "Rated power." },
    Voc: { value: quantity("voltage", { above: 0 }), doc: "Open-circuit volts at 25 °C." },
    Vmp: { value: quantity("voltage", { above: 0 }), doc: "Volts at maximum power." },
    Isc: { value: quantity("current", { min: 0 }), doc: "Short-circuit current." },
    Imp: { value: quantity("current", { min: 0 }), doc: "Current at maximum power." },
    "Voc per kelvin": {
      value: quantityIn(["per kelvin", "voltage per kelvin"], {}),
      doc: "Change of the open-circuit volts with temperature, as a share or in volts; it falls as the module warms, with or without a sign.",
    },
    "Vmp per kelvin": {
      value: quantityIn(["per kelvin", "voltage per kelvin"], {}),
      doc: "Change of the volts at maximum power with temperature. Left out: as many volts for each kelvin as open circuit, up to a quarter more.",
    },
    "in series": { value: count(1, 40), doc: "Modules in series in each string; the figures are for one module." },
    "strings in parallel": { value: count(1, 40), doc: "Strings in parallel." },
    "largest fuse": { value: quantity("current", { min: 0 }), doc: "Largest series fuse that the maker allows." },
    "system volts": {
      value: quantity("voltage", { min: 0 }),
      doc: "Greatest volts of a string that the maker allows.",
    },
    "string fuse": {
      value: recordOf(
        {
          rated: { value: quantity("current", { above: 0 }), doc: "Rating." },
          "DC volts": { value: quantity("voltage", { min: 0 }), doc: "Direct volts that it can break." },
        },
        "a fuse in each string",
      ),
      doc: "Fuse in each of its strings, where they meet: `{ rated: 20 A, DC volts: 600 V }`. Left out: there is none.",
    },
    mounting: {
      value: word(["glued", "close", "racked"], { flush: "close", rails: "racked" }),
      doc: "How it lies: glued to a roof or deck, close to it, or on a rack with air behind. It decides how hot its cells get.",
    },
    connectors: { value: text(), doc: "Maker and family of the plug-in connectors on its own leads." },
    "mated with": { value: text(), doc: "Maker and family of the halves that they are plugged into." },
    "on building": { value: yesNo(), doc: "Whether it is fixed to a building, or its lines go through one." },
    "rapid shutdown": {
      value: yesNo(),
      doc: "`yes`: from outside the building its lines can be brought down to harmless volts within seconds.",
    },
    earthing: {
      value: word(["none", "solid", "through a detector"]),
      doc: "How its minus is joined to earth, where it is.",
    },
  },
  traits: () => ({ charges: true, solar: true }),
  ports: () => [{ name: "", current: "DC", shape: "pair" }],
  elements({ part, facts, read, t }) {
    const series = known(facts["in series"]) ?? 1;
    const strings = known(facts["strings in parallel"]) ?? 1;
    const voc = read.needed(facts.Voc, "Voc", 0);
    const isc = read.needed(facts.Isc, "Isc", 0);
    const vmp = read.stated(facts.Vmp, "Vmp");
    const slope = read.stated(facts["Voc per kelvin"], "Voc per kelvin");
    const perKelvin = slope === undefined ? undefined : fallEachKelvin(facts["Voc per kelvin"], facts.Voc);
    return [
      {
        is: "feed",
        id: part,
        part,
        plus: t("", "+"),
        minus: t("", "−"),
        volts: { ...voc, low: voc.low * series, high: voc.high * series },
        amps: { ...isc, low: isc.low * strings, high: isc.high * strings },
        runsWith: "sun",
        selfLimited: true,
        ...(perKelvin === undefined ? {} : { voltsPerKelvin: perKelvin }),
        ...(vmp === undefined ? {} : { bestVolts: { ...vmp, low: vmp.low * series, high: vmp.high * series } }),
      },
    ];
  },
});

export const solarController = defineKind({
  name: "solar controller",
  also: ["charge controller", "MPPT controller"],
  says: "a controller between solar modules and a bank",
  symbol: { usual: "solar_controller" },
  facts: {
    ...chargerFacts,
    ...treatment,
    "input current": {
      value: quantity("current", { min: 0 }),
      doc: "Greatest short-circuit current of the modules that its maker allows.",
    },
    "input limit": {
      value: quantity("voltage", { min: 0 }),
      doc: "Greatest volts at its input, at open circuit in the cold.",
    },
    "input above battery": {
      value: quantity("voltage", { min: 0 }),
      doc: "By how many volts its input may be above its battery, where its maker limits that.",
    },
    "starts above battery": {
      value: quantity("voltage", { min: 0 }),
      doc: "By how many volts its input has to be above its battery before it starts; else 5 V.",
    },
    "runs above battery": {
      value: quantity("voltage", { min: 0 }),
      doc: "By how many volts its input has to stay above its battery while it runs; else 1 V.",
    },
    "back-feed": {
      value: yesNo(),
      doc: "`yes`: its battery can push back through it into the modules.",
    },
    isolator: arrayIsolator,
    "ground-fault guard": {
      value: yesNo(),
      doc: "Whether it detects a fault of the modules to earth and isolates them.",
    },
    "surge arrester": { value: yesNo(), doc: "Whether it holds one, or one stands beside it." },
    efficiency: { value: quantity("ratio", { above: 0, max: 1 }), doc: "Output power over input power; else 96 %." },
  },
  traits: () => ({ charges: true }),
  ports: () => [
    { name: "in", current: "DC", shape: "pair" },
    { name: "out", current: "DC", shape: "pair" },
  ],
  elements({ part, facts, read, t, nominal }) {
    const volts = read.orElse(facts["charging volts"], chargingVolts(nominal));
    return [
      {
        is: "converter",
        id: part,
        part,
        inPlus: t("in", "+"),
        inMinus: t("in", "−"),
        outPlus: t("out", "+"),
        outMinus: t("out", "−"),
        inCurrent: "DC",
        outCurrent: "DC",
        volts,
        amps: outputAmps(read, facts.output, volts),
        efficiency: read.orElse(facts.efficiency, {
          id: "solar-controller-efficiency",
          value: 0.96,
          says: "solar controllers pass on 96 % of what their modules give",
          trust: "practice",
          pin: "efficiency",
          bounds: [0.9, 0.99],
        }),
        idleWatts: exactly(0, "derived"),
        input: "tracks",
        runsWith: "sun",
        selfLimited: selfLimitedOf(read, facts["self-limited"]),
        bothWays: facts["back-feed"] !== undefined && facts["back-feed"].value !== false,
      },
    ];
  },
});
