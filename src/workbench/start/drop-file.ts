import { useEffect, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";

/** No plan is longer; a film that was dropped by mistake is not read into the page. */
const MOST_BYTES = 8_000_000;

/** What is said of a file before it is opened; null: nothing stands against it. */
export function refusalOf(file: { readonly name: string; readonly size: number }): string | null {
  if (file.size === 0) return `${file.name} is empty`;
  if (file.size > MOST_BYTES) {
    return `${file.name} has ${Math.round(file.size / 1e6)} MB; a plan is text of less than ${MOST_BYTES / 1e6} MB`;
  }
  return null;
}

/** Takes a file that is dropped anywhere on the page. @returns whether one hangs over it, and what is said of the last one */
export function useDroppedFile(bench: Bench): { readonly over: boolean; readonly says: string } {
  const [over, setOver] = useState(false);
  const [says, setSays] = useState("");
  useEffect(() => {
    const holdsFile = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") === true;
    const drag = (event: DragEvent): void => {
      if (!holdsFile(event)) return;
      event.preventDefault();
      setOver(true);
    };
    const leave = (event: DragEvent): void => {
      if (event.relatedTarget === null) setOver(false);
    };
    const drop = (event: DragEvent): void => {
      if (!holdsFile(event)) return;
      event.preventDefault();
      setOver(false);
      const file = event.dataTransfer?.files[0];
      if (file !== undefined) void open(file);
    };
    const open = async (file: File): Promise<void> => {
      const refused = refusalOf(file);
      if (refused !== null) {
        setSays(`${refused}. Drop a plan, such as sloop.yaml.`);
        return;
      }
      const opened = await bench.openDropped(file);
      setSays(opened.ok ? "" : `${file.name}: ${opened.message}`);
    };
    addEventListener("dragenter", drag);
    addEventListener("dragover", drag);
    addEventListener("dragleave", leave);
    addEventListener("drop", drop);
    return () => {
      removeEventListener("dragenter", drag);
      removeEventListener("dragover", drag);
      removeEventListener("dragleave", leave);
      removeEventListener("drop", drop);
    };
  }, [bench]);
  return { over, says };
}
