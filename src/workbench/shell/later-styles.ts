let coming: Promise<void> | null = null;

/**
 * The styles of all views that come after the first picture, in one sheet.
 *
 * @returns resolves once they hold; also where they could not be read, since a plain view is better than none
 */
export function laterStyles(): Promise<void> {
  coming ??= new Promise((resolve) => {
    const link = document.createElement("link");
    link.rel = "stylesheet";
    link.href = new URL("later.css", document.baseURI).href;
    for (const ends of ["load", "error"] as const) {
      link.addEventListener(ends, () => {
        resolve();
      });
    }
    document.head.append(link);
  });
  return coming;
}
