import type { FileLink } from "./build.ts";
import type { Clock } from "./clock.ts";
import type { FileHandle, Files, OpenedFile } from "./file.ts";
import type { BuildRow } from "./keeper-shape.ts";
import { isPenTaken, type PenHost } from "./one-pen.ts";
import type { Store } from "./store.ts";

/**
 * All builds that are kept, last changed first.
 *
 * @param session of the tab that asks
 * @returns null if the store does not answer
 */
export async function listRows(
  store: Store,
  pens: PenHost,
  clock: Clock,
  session: string,
): Promise<readonly BuildRow[] | null> {
  const listed = await store.list();
  if (!listed.ok) return null;
  return Promise.all(
    listed.value.map(async (head) => {
      const isOpen = head.openBy !== null && head.openBy !== session;
      const openElsewhere = isOpen && (await isPenTaken(head.id, pens, clock));
      return { ...head, openElsewhere, crashed: isOpen && !openElsewhere };
    }),
  );
}

/** The build that a file belongs to already: by the browser's keys, or where there are none by its name and what stood in it. */
export async function ownerOf(file: OpenedFile, store: Store, files: Files): Promise<string | null> {
  const listed = await store.list();
  for (const head of listed.ok ? listed.value : []) {
    if (head.file?.name !== file.name) continue;
    const kept = await store.handle(head.id);
    const handle = kept.ok ? (kept.value as FileHandle | null) : null; // only `keepHandle` puts one there
    const isSame =
      file.handle === null || handle === null ? head.file.text === file.text : await files.isSame(handle, file.handle);
    if (isSame) return head.id;
  }
  return null;
}

/** What a build remembers of a file that was just opened. */
export function linkOf({ name, text, form, modified, handle, damagedLine }: OpenedFile): FileLink {
  const linked = handle !== null && damagedLine === null;
  return { name, text, form, modified: linked ? modified : 0, savedAt: modified, how: linked ? "linked" : "read" };
}
