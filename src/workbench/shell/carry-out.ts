import type { Bench, BenchState } from "../contract.ts";
import { circuitOf, openCurves } from "../faults/place.ts";
import type { KeyCommand } from "../settings/keys.ts";
import { orderDrawing } from "../sheet/order-drawing.ts";

/** Does what a key or a verb of the page asks. @param byHand a button of that name was pressed @returns whether there was something to do */
export function carryOut(bench: Bench, does: KeyCommand, byHand = true): boolean {
  const { state } = bench;
  switch (does) {
    case "go-one-line":
      bench.go("one-line");
      return true;
    case "go-states":
      bench.go("states");
      return true;
    case "go-schedules":
      bench.go("schedules");
      return true;
    case "go-faults":
      return showFaults(bench);
    case "go-findings":
      bench.go("findings");
      return true;
    case "go-wire-desk":
      bench.go("wire-desk");
      return true;
    case "undo":
      bench.undo();
      return true;
    case "redo":
      bench.redo();
      return true;
    case "save":
      void bench.saveFile();
      return true;
    case "print":
      print();
      return true;
    case "back":
      bench.back();
      return true;
    case "next-region":
      nextRegion();
      return true;
    case "text-beside":
      if (state.view === "text") bench.go("one-line");
      else bench.showText(!state.textBeside);
      return true;
    case "rub-out":
      return backOneStep(bench);
    case "next-finding":
      bench.stepFinding(1);
      return true;
    case "previous-finding":
      bench.stepFinding(-1);
      return true;
    case "apply-cure":
      if (state.pencil === null) {
        bench.say("no cure is in pencil: open a note first");
        return true;
      }
      bench.ink();
      return true;
    case "why":
      return askWhy(bench);
    case "next-state":
    case "previous-state":
      stepState(bench, does === "next-state" ? 1 : -1);
      return true;
    case "pin":
    case "unpin":
      return onSelection(bench, (about) => bench.act({ do: does, about }));
    case "remove":
      // A key held down, or pressed on a button elsewhere, takes nothing away.
      if (!isOnDrawing() && !byHand) return false;
      return onSelection(bench, (about) => bench.act({ do: "remove", about }));
    case "flip":
      return flip(bench);
    case "length":
      selectWireOfLoad(bench);
      orderDrawing("field:length");
      return true;
    case "name":
      orderDrawing("field:name");
      return true;
    case "insert-device":
      orderDrawing("field:insert");
      return true;
    case "circuit-from-here":
      orderDrawing("field:add-load");
      return true;
    case "zoom-in":
      orderDrawing("in");
      return true;
    case "zoom-out":
      orderDrawing("out");
      return true;
    case "zoom-fit":
      orderDrawing("fit");
      return true;
    case "read-as-list":
      dispatchEvent(new CustomEvent("bench-show", { detail: "list" }));
      return true;
    case "open":
      return openNoteOfSelection(bench);
    default:
      return false;
  }
}

/** With a circuit chosen on the drawing, when its devices open; else the map of all. */
function showFaults(bench: Bench): true {
  const { selection, plan, view } = bench.state;
  const circuit = plan === null || selection === null || view !== "one-line" ? null : circuitOf(plan, selection);
  if (circuit === null) bench.go("faults");
  else openCurves(bench, circuit);
  return true;
}

/** A load has no length; the wire that feeds it has. */
function selectWireOfLoad(bench: Bench): void {
  const { selection, plan } = bench.state;
  if (selection === null || !selection.startsWith("parts.")) return;
  const id = selection.slice("parts.".length);
  const own = plan?.design.circuits.find((c) => c.to === id || c.loads.some(({ part }) => part === id));
  if (own !== undefined) bench.select(`circuits.${own.id}`);
}

const isOnDrawing = (): boolean =>
  document.activeElement === document.body || document.activeElement instanceof SVGElement;

/** Esc: first what is in pencil goes, then the open note, then the view that was laid over the sheet, then the selection. */
function backOneStep(bench: Bench): boolean {
  const { pencil, openNote, view, selection } = bench.state;
  if (pencil !== null) bench.rubOut();
  else if (openNote !== null) bench.openNote(null);
  else if (view === "why") bench.back();
  else if (selection !== null) bench.select(null);
  else return false;
  return true;
}

function askWhy(bench: Bench): boolean {
  const { selection, openNote } = bench.state;
  if (openNote !== null) bench.why(`${openNote.rule} ${openNote.about}`);
  else if (selection === null) {
    bench.say("nothing is selected: choose a wire or a part first");
    return true;
  } else bench.why(selection.replace(/^(?:circuits|parts)\./, ""));
  return true;
}

function onSelection(
  bench: Bench,
  does: (about: string) => Promise<{ readonly ok: boolean; readonly message?: string; readonly hint?: string }>,
): boolean {
  const { selection } = bench.state;
  if (selection === null) return false;
  void does(selection).then((outcome) => {
    if (!outcome.ok)
      bench.say([outcome.message, outcome.hint].filter((w) => w !== undefined && w !== "").join("; "), "assertive");
  });
  return true;
}

/** A load on or off in the state of the strip; a switch over. */
function flip(bench: Bench): boolean {
  const { operatingState } = bench.state;
  if (operatingState === null) {
    bench.say("choose an operating state first: contacts stand at rest");
    return true;
  }
  return onSelection(bench, (about) => bench.act({ do: "flip", about, state: operatingState }));
}

function stepState(bench: Bench, by: 1 | -1): void {
  const { plan, operatingState } = bench.state;
  const ids: BenchState["operatingState"][] = [...(plan?.states ?? []).map(({ id }) => id), null];
  const next = ids[(ids.indexOf(operatingState) + by + ids.length) % ids.length];
  if (next !== undefined) {
    bench.setState(next);
    bench.say(next === null ? "contacts at rest" : `state: ${next}`);
  }
}

function openNoteOfSelection(bench: Bench): boolean {
  const { selection, plan } = bench.state;
  const active = document.activeElement;
  // A button that has the focus is pressed by Enter; only what is drawn opens its note.
  if (selection === null || !(active instanceof SVGElement)) return false;
  const finding = plan?.findings.find(({ about }) => about === selection || about.startsWith(`${selection}.`));
  if (finding === undefined) bench.say(`no finding of ${selection.split(".").slice(1).join(".")}`);
  else bench.openNote({ rule: finding.rule, about: finding.about });
  return true;
}

/** F6: head, state, sheets, drawing, margin, plan line, and round again. */
function nextRegion(): void {
  const regions = [...document.querySelectorAll<HTMLElement>("header, nav, main, aside, footer")].filter(
    (el) => el.offsetParent !== null || el.tagName === "HEADER",
  );
  const at = regions.findIndex((region) => region.contains(document.activeElement));
  for (let i = 1; i <= regions.length; i++) {
    const region = regions[(at + i + regions.length) % regions.length];
    const first = region?.querySelector<HTMLElement | SVGElement>(
      '[tabindex="0"], button:not([tabindex="-1"]), input, a[href], select, textarea',
    );
    if (first !== null && first !== undefined) {
      first.focus();
      return;
    }
  }
}
