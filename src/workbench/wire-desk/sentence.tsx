import type { Units } from "../contract.ts";
import { installMethods, methodSays } from "../../ruleset/install-method.ts";
import { FigureBlank, SentenceLine, WordBlank, type Filling } from "./blank.tsx";
import { printTemperature } from "../look/print-in-units.ts";
import { lyings, ways } from "./question-form.ts";

/** Rule sets, as short as they are told apart. */
export const ruleSetWords = [
  ["iso-small-craft", "ISO small craft"],
  ["us-small-craft", "US small craft"],
  ["us-cabin", "US cabin"],
  ["us-rv", "US road vehicle"],
  ["iec-cabin", "IEC cabin"],
  ["iec-caravan", "IEC caravan"],
  ["au-nz-vehicle", "AU and NZ vehicle"],
  ["vehicle-practice", "vehicle practice"],
] as const;

/** Ways to install, in the words of the trade; the letters are those of IEC 60364-5-52. */
const methodWords = [
  ["", "as is usual there"],
  ...installMethods
    // What no table is carried for would only be refused.
    .filter((method) => method !== "A2" && method !== "D")
    .map((method) => [method, method.length <= 2 ? `${method}: ${methodSays[method]}` : methodSays[method]] as const),
] as const;

const metalWords = [
  ["", "tinned copper"],
  ["copper", "plain copper"],
  ["aluminium", "aluminium"],
] as const;

const strandWords = [
  ["", "finely stranded (class 5)"],
  ["class 6", "very finely stranded (class 6)"],
  ["class 2", "stranded (class 2)"],
  ["class 1", "solid (class 1)"],
  ["type 2", "stranded (type 2)"],
  ["type 3", "finely stranded (type 3)"],
] as const;

const stockWords = [
  ["", "as the rules"],
  ["mm²", "mm²"],
  ["AWG", "AWG"],
  ["SAE", "SAE"],
] as const;

/** The whole question as a sentence; each figure of it is a field. */
export function Sentence({
  filling,
  units,
  dropLimit,
}: {
  readonly filling: Filling;
  readonly units: Units;
  /** What the rule set allows, where the sentence says nothing. */
  readonly dropLimit: string;
}) {
  const { form } = filling;
  const inEngineSpace = form.lying.startsWith("engine");
  const bundled = form.lying.endsWith("bundled");
  const supply = form.volts.trim() === "" ? "12 V" : form.volts.trim();
  const starts = form.start.trim() !== "" || form.startsAbove.trim() !== "";
  return (
    <div class="desk-sentence">
      <SentenceLine filling={filling} blanks={["load", "volts"]}>
        A load of <FigureBlank filling={filling} blank="load" label="load, amps or watts" assumed="W or A" /> at{" "}
        <FigureBlank filling={filling} blank="volts" label="nominal volts" assumed="12 V" after="," />
      </SentenceLine>
      <SentenceLine filling={filling} blanks={["length"]}>
        <FigureBlank filling={filling} blank="length" label="length of the run" assumed="m or ft" /> away along the
        route,{" "}
        <WordBlank
          filling={filling}
          blank="way"
          label="how the length is meant"
          words={ways.map((w) => [w, w])}
          after=","
        />
      </SentenceLine>
      <SentenceLine filling={filling} blanks={["lying", "bundle", "ambient"]}>
        lying{" "}
        <WordBlank filling={filling} blank="lying" label="where the wire lies" words={lyings.map((l) => [l, l])} />
        {bundled && (
          <>
            {" "}
            with <FigureBlank filling={filling} blank="bundle" label="loaded conductors, its own two counted" /> loaded
            conductors in all,
          </>
        )}{" "}
        at{" "}
        <FigureBlank
          filling={filling}
          blank="ambient"
          label="air along the run"
          assumed={printTemperature(inEngineSpace ? 50 : 30, units)}
          after="."
        />
      </SentenceLine>
      <SentenceLine filling={filling} blanks={["start", "startTime", "startsAbove"]}>
        It starts with{" "}
        <FigureBlank
          filling={filling}
          blank="start"
          label="current of the start"
          assumed="no start"
          after={starts ? "" : "."}
        />
        {starts && (
          <>
            {" "}
            for <FigureBlank filling={filling} blank="startTime" label="how long the start lasts" assumed="0.5 s" /> and
            must then keep{" "}
            <FigureBlank
              filling={filling}
              blank="startsAbove"
              label="least volts at the start"
              assumed="not stated"
              after="."
            />
          </>
        )}
      </SentenceLine>
      <SentenceLine filling={filling} blanks={["leastVolts"]}>
        While it runs it needs{" "}
        <FigureBlank
          filling={filling}
          blank="leastVolts"
          label="least volts while it runs"
          assumed="not stated"
          after="."
        />
      </SentenceLine>
      <SentenceLine filling={filling} blanks={["sourceVolts", "drop"]}>
        From <FigureBlank filling={filling} blank="sourceVolts" label="volts at the panel" assumed={supply} /> at the
        panel, losing at most{" "}
        <FigureBlank filling={filling} blank="drop" label="greatest voltage drop" assumed={dropLimit} after="." />
      </SentenceLine>
      <SentenceLine filling={filling} blanks={["rules", "insulation", "cable"]}>
        Rules{" "}
        <WordBlank
          filling={filling}
          blank="rules"
          label="rule set"
          words={[["", "ISO small craft, assumed"], ...ruleSetWords]}
          after=","
        />{" "}
        insulation{" "}
        <FigureBlank
          filling={filling}
          blank="insulation"
          label="insulation bears"
          assumed={printTemperature(90, units)}
        />{" "}
        in{" "}
        <WordBlank
          filling={filling}
          blank="cable"
          label="wires or a cable"
          words={[
            ["single wires", "single wires"],
            ["one sheath", "one sheath"],
          ]}
          after=","
        />
      </SentenceLine>
      <SentenceLine filling={filling} blanks={["method", "terminals"]}>
        Installed{" "}
        <WordBlank filling={filling} blank="method" label="method of installation" words={methodWords} after="," />{" "}
        terminals{" "}
        <FigureBlank
          filling={filling}
          blank="terminals"
          label="temperature marked on the terminals"
          assumed="not marked"
          after="."
        />
      </SentenceLine>
      <SentenceLine filling={filling} blanks={["metal", "strands", "stock"]}>
        <WordBlank filling={filling} blank="metal" label="metal" words={metalWords} after="," />{" "}
        <WordBlank filling={filling} blank="strands" label="strands" words={strandWords} after="," /> bought in{" "}
        <WordBlank filling={filling} blank="stock" label="sizes that are bought" words={stockWords} after="." />
      </SentenceLine>
    </div>
  );
}
