import { useEffect, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";

export interface DroppedFile {
  /** One hangs over the page. */
  readonly over: boolean;
  /** Why the last one was not opened; empty: it was. */
  readonly says: string;
  readonly dismiss: () => void;
}

/**
 * Takes a file that is dropped anywhere on the page.
 *
 * It is taken before anything below sees it: the browser would leave the page for it, and the editor would put its text into the plan. Of
 * several that listen the first has it.
 */
export function useDroppedFile(bench: Bench): DroppedFile {
  const [over, setOver] = useState(false);
  const [says, setSays] = useState("");
  useEffect(() => {
    const takes = (event: DragEvent): boolean => {
      if (event.defaultPrevented || event.dataTransfer?.types.includes("Files") !== true) return false;
      event.preventDefault();
      event.stopPropagation();
      return true;
    };
    const drag = (event: DragEvent): void => {
      if (takes(event)) setOver(true);
    };
    const leave = (event: DragEvent): void => {
      if (event.relatedTarget === null) setOver(false);
    };
    const drop = (event: DragEvent): void => {
      if (!takes(event)) return;
      setOver(false);
      const file = event.dataTransfer?.files[0];
      if (file !== undefined) void open(file);
    };
    const open = async (file: File): Promise<void> => {
      if (file.size === 0) {
        setSays(`${file.name} is empty. Drop a plan, such as sloop.yaml.`);
        return;
      }
      const opened = await bench.openDropped(file);
      setSays(opened.ok ? "" : `${file.name}: ${opened.message}`);
    };
    const first = { capture: true };
    addEventListener("dragenter", drag, first);
    addEventListener("dragover", drag, first);
    addEventListener("dragleave", leave, first);
    addEventListener("drop", drop, first);
    return () => {
      removeEventListener("dragenter", drag, first);
      removeEventListener("dragover", drag, first);
      removeEventListener("dragleave", leave, first);
      removeEventListener("drop", drop, first);
    };
  }, [bench]);
  return {
    over,
    says,
    dismiss: () => {
      setSays("");
    },
  };
}
