import { breaks } from "./study-earth-faults-devices.ts";
import { shortAt } from "./study-earth-faults-shorts.ts";
import type { AlternatingBreaking } from "./study-earth-faults-shapes.ts";
import type { EarthStudying } from "./study-earth-faults-feeding.ts";

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
    const each: AlternatingBreaking["each"][number][] = [];
    feeding.forEach((of, source) => {
      const short = shortAt(studying, of, device.terminal, "greatest");
      if (short === null) return;
      const { amps, loop } = short;
      const isDeclared = of.feed.fault.limit !== null || of.feed.isDeclared;
      const own = of.feed.short.inside.least;
      each.push({ source, amps: Number.isFinite(amps) ? amps : null, isTold: isDeclared, inside: own, loop });
      volts = Math.max(volts, of.feed.volts);
      // What a supply from outside drives nobody can tell but its site.
      if (!Number.isFinite(amps) || !isDeclared) isTold = false;
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
      reachedBy: each.map((e) => e.source),
      each,
      breaks: able,
      outcome,
    };
  });
}
