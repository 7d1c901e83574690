/** So long, in ms, a page that is about to be replaced waits for its work to be stored: a disk that hangs must not keep an old page alive. */
const LONGEST = 3000;

/**
 * Lets the page work without a network from its first visit on.
 *
 * When a newer version takes over, whichever tab asked for it, every tab of the old one is loaded anew: the files of the old version are gone,
 * and what it has not fetched yet would come from the new one.
 *
 * @param onNewer a newer version of the page is ready; it comes by itself once all tabs are closed, or at once by the function given
 * @param settle stores what there is; false: some of it is kept nowhere, and the page stays until a person says so
 * @param file of the worker, beside the page
 */
export async function registerWorker(
  onNewer: (takeOver: () => void) => void,
  settle: () => Promise<boolean> = () => Promise.resolve(true),
  file = "sw.js",
  page: Window = window,
): Promise<void> {
  // Missing on pages that were not served over a secure connection, whatever the types say.
  const workers = (page.navigator as Partial<Navigator>).serviceWorker; // as above
  if (workers === undefined) return;
  // Without a controller this is the first visit, and nothing older is shown.
  let wasControlled = workers.controller !== null;
  let going = false;
  const reload = (): void => {
    page.location.reload();
  };
  workers.addEventListener("controllerchange", () => {
    const isNewer = wasControlled && !going;
    wasControlled = true;
    if (!isNewer) return;
    going = true;
    const patience = new Promise<boolean>((resolve) => {
      setTimeout(resolve, LONGEST, false);
    });
    void Promise.race([settle().catch(() => false), patience]).then((isKept) => {
      if (isKept) reload();
      else onNewer(reload);
    });
  });
  try {
    const registration = await workers.register(file);
    const tell = (worker: ServiceWorker): void => {
      onNewer(() => {
        worker.postMessage("take over");
      });
    };
    if (registration.waiting !== null && workers.controller !== null) tell(registration.waiting);
    registration.addEventListener("updatefound", () => {
      const worker = registration.installing;
      worker?.addEventListener("statechange", () => {
        if (worker.state === "installed" && workers.controller !== null) tell(worker);
      });
    });
  } catch {
    // The page works all the same, as long as there is a network.
  }
}
