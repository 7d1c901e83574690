/**
 * Lets the page work without a network from its first visit on.
 *
 * @param onNewer a newer version of the page is ready; it comes by itself once all tabs are closed, or at once by the function given
 * @param file of the worker, beside the page
 */
export async function registerWorker(
  onNewer: (takeOver: () => void) => void,
  file = "sw.js",
  page: Window = window,
): Promise<void> {
  // Missing on pages that were not served over a secure connection, whatever the types say.
  const workers = (page.navigator as Partial<Navigator>).serviceWorker; // as above
  if (workers === undefined) return;
  try {
    const registration = await workers.register(file);
    const tell = (worker: ServiceWorker): void => {
      onNewer(() => {
        workers.addEventListener("controllerchange", () => {
          page.location.reload();
        });
        worker.postMessage("take over");
      });
    };
    // Without a controller this is the first visit, and nothing older is shown.
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
