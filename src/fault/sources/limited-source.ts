import type { Trust } from "../../explain/index.ts";
import type { Converter, Feed } from "../../system/element.ts";
import { sourceFigure, type SourceFigure } from "./source-figure.ts";
import type { Range } from "./store-source.ts";

/** A source that pushes no more than a limit into a fault: alternator, charger, converter, solar module or controller. */
export interface LimitedSource {
  readonly part: string;
  /** Volts that it holds, or those of its open circuit. */
  readonly volts: number;
  readonly amps: Range;
  /** It says of itself that it limits itself; a machine of which nobody knows it is counted at the limit of its kind all the same. */
  readonly limitsItself: boolean | "unknown";
  /** How long it goes on pushing into a fault. */
  readonly lasts: string;
  readonly trust: Trust;
}

/** An alternator or a solar module as a source of fault current. */
export function feedSource(feed: Feed): LimitedSource {
  const isSolar = feed.runsWith === "sun";
  const times = sourceFigure(
    isSolar ? "PV source circuit greatest current over short-circuit current" : "alternator greatest output over rated",
  );
  return {
    ...limited(feed, feed.amps, times),
    lasts: isSolar ? "as long as there is light" : "as long as it turns and its field is fed",
  };
}

/** A charger, DC-DC converter or solar controller as a source at its output. */
export const converterSource = (converter: Converter): LimitedSource => ({
  ...limited(converter, converter.amps, sourceFigure("charger or DC-DC converter contribution to a fault over rated")),
  lasts:
    "as long as its input is fed and it does not switch itself off; its output capacitors add a peak of milliseconds",
});

/**
 * One that also pushes back, as a source at its input: by its power, which losses only make less.
 *
 * @param volts that the system at its input is charged to
 */
export function inputSource(converter: Converter, volts: number): LimitedSource {
  const { volts: out, amps, efficiency, inputAmps } = converter;
  const rated = inputAmps ?? {
    low: (out.low * amps.low) / efficiency.high / volts,
    high: (out.high * amps.high) / efficiency.low / volts,
  };
  const times = sourceFigure("charger or DC-DC converter contribution to a fault over rated");
  return { ...converterSource(converter), volts, amps: spread(rated, times) };
}

function limited(element: Feed | Converter, rated: Range, times: SourceFigure): Omit<LimitedSource, "lasts"> {
  return {
    part: element.part,
    volts: element.volts.high,
    amps: spread(rated, times),
    limitsItself: element.selfLimited,
    trust: times.trust,
  };
}

const spread = (rated: Range, times: SourceFigure): Range => ({
  low: rated.low * times.low,
  high: rated.high * times.high,
});
