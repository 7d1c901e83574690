/** The page. Opens what its address names, or Start; everything else is in bench/ and shell/. */
import { render } from "preact";
import { createBench } from "./bench/create-bench.ts";
import { openKeep } from "./bench/open-keep.ts";
import { openBrowserStore } from "./keep/browser-store.ts";
import { pageClock } from "./keep/clock.ts";
import { browserFiles } from "./keep/file.ts";
import { openKeeper } from "./keep/keeper.ts";
import { registerWorker } from "./keep/register-worker.ts";
import { browserPenHost } from "./keep/one-pen.ts";
import { watchPage } from "./keep/watch-page.ts";
import { readSettings, showSettings } from "./settings/settings.ts";
import { addressOf, moveAddress, readAddress } from "./shell/address.ts";
import { App, fetchViewsAhead } from "./shell/app.tsx";
import { KeepNotices } from "./shell/keep-notices.tsx";
import { StartPage } from "./shell/start-page.tsx";
import { openWorkers } from "./worker/client.ts";
import "./look/tokens.css";

const settings = readSettings();
showSettings(settings);
const { hash } = location;
const wanted = readAddress(hash);

const keeper = openKeeper({
  store: await openBrowserStore(),
  files: browserFiles(),
  pens: browserPenHost(),
  clock: pageClock,
  newId: () => crypto.randomUUID(),
});
watchPage(keeper);
const bench = createBench({
  workers: (hear) => openWorkers(() => new Worker(new URL("worker.js", document.baseURI), { type: "module" }), hear),
  keep: openKeep(keeper, pageClock),
  units: settings.units,
  spokenLength: () => readSettings().spoken,
  fetchExample: async (name) => {
    const answer = await fetch(new URL(`examples/${name}.yaml`, document.baseURI));
    if (!answer.ok) throw new Error(`${answer.status}`);
    return answer.text();
  },
  onPlace: () => {
    history.replaceState(null, "", moveAddress(location.hash, addressOf(bench.state)));
  },
});

const root = document.querySelector("#bench");
/** A newer version of the page that can be taken; whether the plan that the address names is gone. */
const told = { takeOver: null as (() => void) | null, isGone: false };
function show(): void {
  if (root === null) return;
  const notices = <KeepNotices bench={bench} keeper={keeper} takeOver={told.takeOver} />;
  const start = <StartPage bench={bench} keeper={keeper} isGone={told.isGone} />;
  render(<App bench={bench} start={start} notices={notices} />, root);
}
show();
void registerWorker((takeOver) => {
  told.takeOver = takeOver;
  show();
}, keeper.settle);
// After the first picture, when there is nothing else to do.
setTimeout(fetchViewsAhead, 1500);

const opened = wanted.build !== null && wanted.view !== "start" && (await bench.openBuild(wanted.build));
told.isGone = wanted.build !== null && wanted.view !== "start" && !opened;
if (told.isGone) show();
if (opened) {
  // What its view had put there went while the plan was opened.
  history.replaceState(null, "", hash);
  if (wanted.view !== null) bench.go(wanted.view);
  if (wanted.operatingState !== null) bench.setState(wanted.operatingState);
  if (wanted.selection !== null) bench.select(wanted.selection);
} else if (wanted.view === "wire-desk") bench.go("wire-desk");
else {
  // `wireworthy page PLAN` lends a copy of the plan that it was called with.
  const lent = new URLSearchParams(location.search).get("plan");
  const answer = lent === null ? null : await fetch(new URL("plan", document.baseURI)).catch(() => null);
  if (lent !== null && answer?.ok === true) await bench.openText(await answer.text(), lent.replace(/\.ya?ml$/i, ""));
}
