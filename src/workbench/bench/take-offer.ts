import type { AskOffer, ViewId as AskView } from "../../act/index.ts";
import type { Bench, Outcome, ViewId } from "../contract.ts";
import { openCurves } from "../faults/place.ts";

const DONE: Outcome = { ok: true };

/** Does what was chosen in the ask field. */
export async function takeOffer(bench: Bench, offer: AskOffer): Promise<Outcome> {
  switch (offer.kind) {
    case "go":
      bench.select(offer.about);
      if (offer.line !== undefined) bench.showText(true);
      else if (bench.state.view !== "schedules" && bench.state.view !== "text") bench.go("one-line");
      return DONE;
    case "act":
      return bench.act(offer.request);
    case "needs":
      return { ok: false, message: offer.needs, hint: "" };
    case "why":
      bench.why(offer.about.replace(/^(?:circuits|parts)\./, ""));
      return DONE;
    case "curves":
      openCurves(bench, offer.about.replace(/^circuits\./, ""));
      return DONE;
    case "view":
      return show(bench, offer.view);
    case "question":
    case "name":
      bench.go("wire-desk");
      return DONE;
    case "what-if": {
      const { state, battery } = offer.whatIf;
      if (state !== null && state !== bench.state.operatingState) bench.setState(state);
      if (battery === undefined)
        return { ok: false, message: "only the charge of the battery can be tried so far", hint: "" };
      bench.setWhatIfCharge(battery);
      return DONE;
    }
    case "page":
      return command(bench, offer.command);
    case "told":
      return { ok: false, message: offer.message, hint: offer.hint };
  }
}

/** Views under the names that the ask field has for them; those that are not here yet are told so. */
const views: Partial<Record<AskView, ViewId>> = {
  "one-line": "one-line",
  circuits: "schedules",
  states: "states",
  schedules: "schedules",
  faults: "faults",
  findings: "findings",
  text: "text",
  start: "start",
  "wire-desk": "wire-desk",
};

function show(bench: Bench, view: AskView): Outcome {
  const to = views[view];
  if (to !== undefined) {
    bench.go(to);
    return DONE;
  }
  if (view === "list") bench.go("one-line");
  else if (view !== "units" && view !== "keys")
    return { ok: false, message: `there is no view of that name yet: ${view}`, hint: "" };
  dispatchEvent(new CustomEvent("bench-show", { detail: view }));
  return DONE;
}

function command(
  bench: Bench,
  wanted: Extract<AskOffer, { readonly kind: "page" }>["command"],
): Outcome | Promise<Outcome> {
  switch (wanted) {
    case "save":
      return bench.saveFile();
    case "save-as":
      return bench.saveAs();
    case "open":
      return bench.openFile();
    case "undo":
      bench.undo();
      return DONE;
    case "redo":
      bench.redo();
      return DONE;
    case "rub-out":
      bench.rubOut();
      return DONE;
    case "new":
      bench.go("start");
      return DONE;
  }
}
