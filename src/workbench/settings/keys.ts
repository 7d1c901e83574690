import type { ViewId } from "../contract.ts";

/** What a key does. `shell`: the page carries it out; `part`: the part of the page that is concerned listens itself. */
export type KeyCommand =
  | "ask"
  | "keys"
  | "go-one-line"
  | "go-states"
  | "go-schedules"
  | "go-faults"
  | "go-findings"
  | "go-wire-desk"
  | "undo"
  | "redo"
  | "save"
  | "print"
  | "back"
  | "next-region"
  | "text-beside"
  | "rub-out"
  | "next-finding"
  | "previous-finding"
  | "apply-cure"
  | "why"
  | "next-state"
  | "previous-state"
  | "read-as-list"
  | "zoom-in"
  | "zoom-out"
  | "zoom-fit"
  | "pin"
  | "unpin"
  | "insert-device"
  | "circuit-from-here"
  | "length"
  | "flip"
  | "name"
  | "remove"
  | "travel"
  | "source"
  | "open"
  | "edit-cell"
  | "ask-one"
  | "open-example"
  | "lay-out"
  | "next-value"
  | "previous-value"
  | "complete"
  | "hover"
  | "next-message"
  | "quick-fix"
  | "leave-text";

/** A key, where it acts and what it does there. */
export interface KeyRow {
  /** As `KeyboardEvent.key` gives it; a letter in lower case. */
  readonly key: string;
  readonly ctrl?: true;
  readonly shift?: true;
  readonly alt?: true;
  readonly in: readonly ViewId[] | "everywhere";
  readonly does: KeyCommand;
  readonly by: "shell" | "part";
  /** What it does, as a verb: `why`, `next finding`. */
  readonly verb: string;
}

const SHEETS = ["one-line", "states", "schedules", "faults", "findings", "why", "text", "wire-desk"] as const;
const DRAWN = ["one-line"] as const;
const WITH_NOTES = ["one-line", "findings"] as const;
const WITH_THINGS = ["one-line", "schedules", "faults", "findings"] as const;

/** Every key of the page. One list: the page acts by it, and the help is printed from it. */
export const keys: readonly KeyRow[] = [
  { key: "k", ctrl: true, in: "everywhere", does: "ask", by: "part", verb: "ask, find or do" },
  { key: "/", in: "everywhere", does: "ask", by: "part", verb: "ask, find or do" },
  { key: "?", in: "everywhere", does: "keys", by: "part", verb: "keys of this view" },
  { key: "F6", in: "everywhere", does: "next-region", by: "shell", verb: "next region of the page" },
  { key: "ArrowLeft", alt: true, in: "everywhere", does: "back", by: "shell", verb: "back to where you were" },
  { key: "1", in: ["start"], does: "ask-one", by: "part", verb: "ask one question" },
  { key: "2", in: ["start"], does: "open-example", by: "part", verb: "open an example" },
  { key: "3", in: ["start"], does: "lay-out", by: "part", verb: "lay out your own" },
  { key: "1", in: SHEETS, does: "go-one-line", by: "shell", verb: "one-line" },
  { key: "5", in: SHEETS, does: "go-states", by: "shell", verb: "states: who is live, where neutral meets earth" },
  { key: "6", in: SHEETS, does: "go-schedules", by: "shell", verb: "schedules" },
  { key: "v", in: SHEETS, does: "go-faults", by: "shell", verb: "faults, and curves of what is selected" },
  { key: "0", in: SHEETS, does: "go-findings", by: "shell", verb: "findings" },
  { key: "q", in: [...SHEETS, "start"], does: "go-wire-desk", by: "shell", verb: "wire desk" },
  { key: "z", ctrl: true, in: SHEETS, does: "undo", by: "shell", verb: "undo" },
  { key: "z", ctrl: true, shift: true, in: SHEETS, does: "redo", by: "shell", verb: "redo" },
  { key: "y", ctrl: true, in: SHEETS, does: "redo", by: "shell", verb: "redo" },
  { key: "s", ctrl: true, in: SHEETS, does: "save", by: "shell", verb: "save to file" },
  { key: "p", ctrl: true, in: SHEETS, does: "print", by: "shell", verb: "print the sheet" },
  { key: "t", in: SHEETS, does: "text-beside", by: "shell", verb: "text beside the sheet" },
  { key: "Escape", in: SHEETS, does: "rub-out", by: "shell", verb: "back; rub out pencil" },
  { key: "w", in: WITH_THINGS, does: "why", by: "shell", verb: "why" },
  { key: "j", in: WITH_NOTES, does: "next-finding", by: "shell", verb: "next finding" },
  { key: "k", in: WITH_NOTES, does: "previous-finding", by: "shell", verb: "previous finding" },
  { key: "a", in: WITH_NOTES, does: "apply-cure", by: "shell", verb: "apply the open cure" },
  { key: "[", in: WITH_THINGS, does: "previous-state", by: "shell", verb: "previous operating state" },
  { key: "]", in: WITH_THINGS, does: "next-state", by: "shell", verb: "next operating state" },
  { key: "[", in: ["why"], does: "previous-value", by: "part", verb: "why of the previous value" },
  { key: "]", in: ["why"], does: "next-value", by: "part", verb: "why of the next value" },
  { key: "ArrowRight", in: DRAWN, does: "travel", by: "part", verb: "along the copper to the load" },
  { key: "ArrowLeft", in: DRAWN, does: "travel", by: "part", verb: "along the copper to the source" },
  { key: "ArrowUp", in: DRAWN, does: "travel", by: "part", verb: "up the bar" },
  { key: "ArrowDown", in: DRAWN, does: "travel", by: "part", verb: "down the bar" },
  { key: "Home", in: DRAWN, does: "source", by: "part", verb: "to the source" },
  { key: "Enter", in: WITH_NOTES, does: "open", by: "part", verb: "open the note" },
  { key: "l", shift: true, in: DRAWN, does: "read-as-list", by: "part", verb: "read the drawing as a list" },
  { key: "+", in: DRAWN, does: "zoom-in", by: "part", verb: "zoom in" },
  { key: "-", in: DRAWN, does: "zoom-out", by: "part", verb: "zoom out" },
  { key: "f", in: DRAWN, does: "zoom-fit", by: "part", verb: "fit the sheet" },
  { key: "p", in: WITH_THINGS, does: "pin", by: "shell", verb: "pin a size" },
  { key: "p", shift: true, in: WITH_THINGS, does: "unpin", by: "shell", verb: "unpin" },
  { key: "i", in: DRAWN, does: "insert-device", by: "shell", verb: "insert a device here" },
  { key: "c", in: DRAWN, does: "circuit-from-here", by: "shell", verb: "circuit from here" },
  { key: "l", in: DRAWN, does: "length", by: "shell", verb: "length" },
  { key: "s", in: DRAWN, does: "flip", by: "shell", verb: "flip or switch" },
  { key: "n", in: DRAWN, does: "name", by: "shell", verb: "name or number" },
  { key: "Delete", in: DRAWN, does: "remove", by: "shell", verb: "remove, keep open ends" },
  { key: " ", ctrl: true, in: ["text"], does: "complete", by: "part", verb: "what may stand here" },
  { key: "i", ctrl: true, in: ["text"], does: "hover", by: "part", verb: "what stands here, and what it came to" },
  { key: "F8", in: ["text"], does: "next-message", by: "part", verb: "next message" },
  { key: ".", ctrl: true, in: ["text"], does: "quick-fix", by: "part", verb: "what the message proposes" },
  { key: "Tab", in: ["text"], does: "leave-text", by: "part", verb: "leave the text (Esc first while a list is open)" },
  { key: "F2", in: ["schedules"], does: "edit-cell", by: "part", verb: "edit the cell" },
];

/** What a view knows of a key that was pressed; `KeyboardEvent` fits. */
export interface Pressed {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

/** Keys that make a character with or without shift, as the keyboard has it: shift is part of them. */
const isSign = (key: string): boolean => key.length === 1 && key.toLowerCase() === key.toUpperCase();

/** A row that acts by one character alone: it can be switched off and never fires while somebody types. */
export const isSingle = (row: KeyRow): boolean => row.key.length === 1 && row.ctrl !== true && row.alt !== true;

const acts = (row: KeyRow, view: ViewId): boolean => row.in === "everywhere" || row.in.includes(view);

/** What a key does in a view; null: nothing. */
export function keyFor(pressed: Pressed, view: ViewId): KeyRow | null {
  const name = pressed.key.length === 1 ? pressed.key.toLowerCase() : pressed.key;
  return (
    keys.find(
      (row) =>
        acts(row, view) &&
        row.key === name &&
        (row.ctrl === true) === (pressed.ctrlKey || pressed.metaKey) &&
        (row.alt === true) === pressed.altKey &&
        (isSign(row.key) || (row.shift === true) === pressed.shiftKey),
    ) ?? null
  );
}

/** Keys that act in a view, in the order of the list. */
export const keysOf = (view: ViewId): readonly KeyRow[] => keys.filter((row) => acts(row, view));

const printed: Readonly<Record<string, string>> = {
  ArrowLeft: "←",
  ArrowRight: "→",
  ArrowUp: "↑",
  ArrowDown: "↓",
  Escape: "Esc",
  "-": "−",
  " ": "Space",
};

/** A row's keys as they are printed on caps: `["Ctrl", "Shift", "Z"]`. */
export function capsOf({ key, ctrl, shift, alt }: KeyRow): readonly string[] {
  return [
    ...(ctrl === true ? ["Ctrl"] : []),
    ...(alt === true ? ["Alt"] : []),
    ...(shift === true ? ["Shift"] : []),
    printed[key] ?? (key.length === 1 ? key.toUpperCase() : key),
  ];
}
