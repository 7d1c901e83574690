import type { Keeper } from "./keeper.ts";

/** Tells a keeper what happens to its page: looked away from, come back to, left. */
export function watchPage(keeper: Keeper, page: Window = window): void {
  page.document.addEventListener("visibilitychange", () => {
    // On phones this is often the last that a page hears.
    if (page.document.visibilityState === "hidden") keeper.hidden();
    else keeper.shown();
  });
  page.addEventListener("focus", keeper.focused);
  page.addEventListener("pagehide", keeper.parting);
  page.addEventListener("pageshow", (event) => {
    if (event.persisted) keeper.shown();
  });
  page.addEventListener("beforeunload", (event) => {
    // What is kept nowhere else would be gone. In all other cases nothing is lost, and nothing is asked.
    if (keeper.current()?.saving.kept === "not") event.preventDefault();
  });
}
