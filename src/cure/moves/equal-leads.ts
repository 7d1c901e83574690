import { known } from "../../plan/index.ts";
import type { Edit } from "../../plan/text/index.ts";
import { leadsOf, type Lead } from "../banks.ts";
import type { Case, Move, Series } from "../case.ts";
import { thickerSizes } from "../conductor-sizes.ts";
import { inPlaceOf } from "../path-text.ts";
import { put, takeOff, textOf, textsOf } from "../write.ts";

/** Leads of one bank, or conductors in parallel, cut to one length; then of one size; then with devices alike. Or one thicker conductor. */
export const equalLeads: Move = (at) =>
  leadsOf(at).flatMap((group) => (at.part === undefined ? [alike(at, group), single(at, group)] : [alike(at, group)]));

function alike({ document }: Case, group: readonly Lead[]): Series {
  const longest = [...group].sort((a, b) => b.circuit.run.lengthM.high - a.circuit.run.lengthM.high)[0];
  const length = longest === undefined ? null : textOf(document, ["circuits", longest.circuit.id, "length"]);
  if (longest === undefined || length === null) return [];
  const lengths = group
    .filter((l) => l.circuit.run.lengthM.high !== longest.circuit.run.lengthM.high)
    .map((l) => put(document, ["circuits", l.circuit.id, "length"], length));
  const thickest = [...group].sort(
    (a, b) => (b.circuit.design.size?.areaMm2 ?? 0) - (a.circuit.design.size?.areaMm2 ?? 0),
  )[0];
  const size = thickest?.circuit.design.size;
  const sizes = group
    .filter((l) => size !== null && size !== undefined && l.circuit.design.size?.label !== size.label)
    .map((l) => put(document, ["circuits", l.circuit.id, "wire"], size?.label ?? ""));
  const devices = devicesAlike(document, group);
  const steps: readonly (readonly Edit[])[] = [
    lengths,
    [...lengths, ...sizes],
    [...lengths, ...devices],
    [...lengths, ...sizes, ...devices],
  ];
  return steps
    .filter((edits, i) => edits.length > 0 && steps.findIndex((s) => s.length === edits.length) === i)
    .map((edits) => ({ edits }));
}

/** The device of the lead that has one, at all the others too. */
function devicesAlike(document: Case["document"], group: readonly Lead[]): readonly Edit[] {
  const fuseOf = (l: Lead): readonly string[] => textsOf(document, ["circuits", l.circuit.id, "fuse"]);
  const guarded = group.find((l) => fuseOf(l).some((words) => /\d\s*A/.test(words)));
  const words = guarded === undefined ? undefined : fuseOf(guarded)[0];
  if (guarded === undefined || words === undefined) return [];
  return group
    .filter((l) => l !== guarded && !fuseOf(l).some((w) => /\d\s*A/.test(w)))
    .map((l) => {
      const [head = "", place = ""] = words.split(/(?= (?:at|from) )/);
      const [, said = " at ", part = ""] = /^( (?:at|from) )(.*)$/.exec(place) ?? [];
      return put(document, ["circuits", l.circuit.id, "fuse"], head + said + inPlaceOf(part, guarded.unit, l.unit));
    });
}

/** One conductor, thicker, in the place of several. */
function single(at: Case, group: readonly Lead[]): Series {
  const own = at.circuits[0];
  if (own === undefined || known(own.plan?.facts.path) === undefined) return [];
  const others = group.filter((l) => l.circuit.id !== own.id);
  const gone = others.flatMap((l) => takeOff(at.document, ["circuits", l.circuit.id]));
  return thickerSizes(at, own).map((label) => ({
    edits: [put(at.document, ["circuits", own.id, "wire"], label), ...gone],
  }));
}
