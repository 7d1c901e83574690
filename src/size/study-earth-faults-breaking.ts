import { driven } from "../protect/earth-fault/fault-source.ts";
import { inSeries } from "../protect/earth-fault/impedance.ts";
import { breaks } from "./study-earth-faults-devices.ts";
import { sumHops } from "./study-earth-faults-metal.ts";
import type { AlternatingBreaking } from "./study-earth-faults-shapes.ts";
import type { EarthStudying, Feeding } from "./study-earth-faults-feeding.ts";
import { wayTo } from "./study-earth-faults-ways.ts";

/**
 * What each device has to break: the greatest current that one source drives into a short from line to neutral where it stands.
 *
 * Of a supply from outside its prospective current counts, never its earth loop: neutral may lead back better than earth does.
 *
 * Ignores shorts between two lines, which draw up to twice the volts through one conductor more.
 */
export function studyBreaking(studying: EarthStudying): AlternatingBreaking[] {
  const { finder, feeding, system } = studying;
  const parts = new Map(system.parts.map((part) => [part.id, part]));
  // Of a panel all ways of one rating break alike.
  const known = new Map<string, number | null>();
  return finder.devices.map((device, index): AlternatingBreaking => {
    let most: { readonly amps: number; readonly source: number } | null = null;
    let isTold = true;
    let volts = 0;
    // Of a source of unknown rating only metal bounds what it drives: enough to clear a device, never to condemn it.
    let unrated = 0;
    const reachedBy: number[] = [];
    feeding.forEach((of, source) => {
      const amps = shortAt(studying, of, device.terminal);
      if (amps === null) return;
      reachedBy.push(source);
      volts = Math.max(volts, of.feed.volts);
      // What a supply from outside drives nobody can tell but its site.
      if (!Number.isFinite(amps) || (of.feed.fault.limit === null && !of.feed.isDeclared)) isTold = false;
      else if (of.feed.short.limit?.amps.high === Infinity) unrated = Math.max(unrated, amps);
      else if (most === null || amps > most.amps) most = { amps, source };
    });
    const found = most as { readonly amps: number; readonly source: number } | null; // set inside the loop above
    const key = `${device.families.join()} ${device.rating ?? ""} ${volts} ${device.at.slice(0, device.at.indexOf(":"))} ${device.at.endsWith(":main")}`;
    let able = known.get(key);
    if (able === undefined) known.set(key, (able = breaks(device, volts, parts)));
    const least = found?.amps ?? 0;
    if (able !== null && unrated > able) isTold = false;
    const outcome =
      able !== null && least > able * (1 + 1e-9)
        ? "too weak"
        : able === null || !isTold || volts === 0
          ? "cannot tell"
          : "bears it";
    return {
      device: index,
      prospective: found !== null && (isTold || outcome === "too weak") ? found.amps : null,
      source: found?.source ?? null,
      reachedBy,
      breaks: able,
      outcome,
    };
  });
}

/** A short from line to neutral at a terminal, A; Infinity: nothing that is told holds it back; null: the source does not reach it. */
function shortAt({ impedance }: EarthStudying, { feed, line, neutral }: Feeding, terminal: string): number | null {
  if (!line.has(terminal)) return null;
  const way = sumHops(wayTo(line, terminal), impedance).range.cold;
  const back = `${terminal.slice(0, terminal.lastIndexOf(":"))}:N`;
  const home = sumHops(neutral.has(back) ? wayTo(neutral, back) : [], impedance).range.cold;
  return driven(feed.short, inSeries(way, home), "greatest");
}
