import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { AskField } from "../ask/ask-field.tsx";
import { CardsView } from "../cards/cards-view.tsx";
import type { Bench, ViewId } from "../contract.ts";
import { SheetView } from "../sheet/sheet-view.tsx";
import { PlanLine } from "../text/plan-line.tsx";
import { TextBeside } from "../text/text-beside.tsx";
import { useBench } from "../use-bench.ts";
import { Head } from "./head.tsx";
import { LiveRegion } from "./live-region.tsx";
import { listenToKeys } from "./listen-to-keys.ts";
import { Stack } from "./stack.tsx";
import { StateStrip } from "./state-strip.tsx";
import { keepFocus } from "./keep-focus.ts";
import { later } from "./later.tsx";
import { lazyView } from "./lazy-view.tsx";
import "./app.css";

const UnitsMenu = later(async () => (await import("../settings/units-menu.tsx")).UnitsMenu);
const KeysHelp = later(async () => (await import("../settings/keys-help.tsx")).KeysHelp);
const StatesView = lazyView(async () => (await import("../states/states-view.tsx")).StatesView);
const SchedulesView = lazyView(async () => (await import("../schedules/schedules-view.tsx")).SchedulesView);
const FaultsView = lazyView(async () => (await import("../faults/faults-view.tsx")).FaultsView);
const FindingsView = lazyView(async () => (await import("../findings/findings-view.tsx")).FindingsView);
const WhyView = lazyView(async () => (await import("../why/why-view.tsx")).WhyView);
const TextView = lazyView(async () => (await import("../text/text-view.tsx")).TextView);
const WireDeskView = lazyView(async () => (await import("../wire-desk/wire-desk-view.tsx")).WireDeskView);

/** Fetches the views that are not needed for the first picture, so that none is waited for when it is wanted. */
export function fetchViewsAhead(): void {
  for (const { ahead } of [StatesView, SchedulesView, FaultsView, FindingsView, WhyView, TextView, WireDeskView])
    ahead().catch(() => undefined); // it is told when the view is opened
}

interface AppProps {
  readonly bench: Bench;
  /** Start, which needs to know what is kept. */
  readonly start: ComponentChildren;
  /** What is to be said about where the plan is kept. */
  readonly notices: ComponentChildren;
}

/** The whole page: head, state strip, stack of sheets, the sheet on top, the plan line. */
export function App({ bench, start, notices }: AppProps) {
  const { open, view, textBeside, plan } = useBench(bench);
  const isPhone = useMedia("(max-width: 700px)");
  useEffect(() => listenToKeys(bench), [bench]);
  useEffect(() => keepFocus(bench), [bench]);
  useEffect(() => {
    document.title = open
      ? `${plan?.name === undefined || plan.name === "" ? "Plan" : plan.name} · Wireworthy`
      : "Wireworthy";
  }, [open, plan?.name]);
  if (view === "start" || (!open && view !== "wire-desk")) {
    return (
      <>
        <div class="app-notices">{notices}</div>
        {start}
        <KeysHelp bench={bench} />
        <LiveRegion bench={bench} />
      </>
    );
  }
  return (
    <div class={`app${open ? "" : " app-no-plan"}`}>
      <a
        class="skip"
        href="#sheet"
        onClick={(event) => {
          event.preventDefault();
          focusFirst("#sheet");
        }}
      >
        To the sheet
      </a>
      <Head bench={bench} ask={<AskField bench={bench} />} menu={<UnitsMenu bench={bench} />} />
      <div class="app-notices">{notices}</div>
      {open ? <StateStrip bench={bench} folded={isPhone} /> : null}
      <div class="app-desk">
        {open ? <Stack bench={bench} /> : null}
        {textBeside && view !== "text" && open ? <TextBeside bench={bench} /> : null}
        <div class="app-sheet" id="sheet" tabIndex={-1}>
          <View bench={bench} view={view} isPhone={isPhone} />
        </div>
      </div>
      {open ? <PlanLine bench={bench} /> : null}
      <KeysHelp bench={bench} />
      <LiveRegion bench={bench} />
    </div>
  );
}

function View({ bench, view, isPhone }: { readonly bench: Bench; readonly view: ViewId; readonly isPhone: boolean }) {
  switch (view) {
    case "start":
    case "one-line":
      return isPhone ? <CardsView bench={bench} /> : <SheetView bench={bench} />;
    case "states":
      return (
        <Main>
          <StatesView.View bench={bench} />
        </Main>
      );
    case "schedules":
      return (
        <Main>
          <SchedulesView.View bench={bench} />
        </Main>
      );
    case "faults":
      return (
        <Main>
          <FaultsView.View bench={bench} />
        </Main>
      );
    case "findings":
      return (
        <Main>
          <FindingsView.View bench={bench} />
        </Main>
      );
    case "why":
      return (
        <Main>
          <WhyView.View bench={bench} />
        </Main>
      );
    case "text":
      return <TextView.View bench={bench} />;
    case "wire-desk":
      return <WireDeskView.View bench={bench} />;
  }
}

/** What a view that is not a sheet of its own stands in. */
const Main = ({ children }: { readonly children: ComponentChildren }) => <main class="app-main">{children}</main>;

export function useMedia(query: string): boolean {
  const [matches, setMatches] = useState(() => matchMedia(query).matches);
  useEffect(() => {
    const list = matchMedia(query);
    const look = (): void => {
      setMatches(list.matches);
    };
    list.addEventListener("change", look);
    return () => {
      list.removeEventListener("change", look);
    };
  }, [query]);
  return matches;
}

function focusFirst(selector: string): void {
  const region = document.querySelector(selector);
  const first = region?.querySelector<HTMLElement | SVGElement>(
    '[tabindex="0"], button, input, a[href], select, textarea',
  );
  (first ?? (region instanceof HTMLElement ? region : null))?.focus();
}
