import type { ComponentChildren } from "preact";
import type { KeyPath } from "../contract.ts";
import type { Outcome } from "../../fault/index.ts";
import type { Status } from "../look/status-shape.tsx";

/** What a cell says, and what it is sorted by. Null sorts last, whichever way. */
export interface Cell {
  readonly text: string;
  readonly by: number | string | null;
  /** Shape before the text; its words are in the text. */
  readonly status?: Status;
  /** The same for how a fault ends. */
  readonly outcome?: Outcome;
  /** What a person types over, and where it goes; left out: the cell cannot be edited. */
  readonly edit?: CellEdit;
  /** Told of this cell when a person rests on it, and read after it. */
  readonly more?: string;
}

export interface CellEdit {
  readonly about: KeyPath;
  /** As an act names it: `length`, `size`, `load`, `name`. */
  readonly field: string;
  /** What stands in the field when it opens. */
  readonly text: string;
  /** What a reader hears: `length of W13`. */
  readonly label: string;
}

export interface ColumnHead {
  readonly id: string;
  readonly head: string;
  /** Spelt out where the head is short. */
  readonly says?: string;
  readonly isNumber?: boolean;
  /** Least width, rem, where words would break into a column of syllables. */
  readonly least?: number;
  /** Names the row. */
  readonly isName?: boolean;
  /** Printed in full on a card under its own head; the first two stand at its top. */
  readonly onCard?: boolean;
  /** On a card it has a line of its own. */
  readonly isWide?: boolean;
}

export interface TableRow {
  /** One of a kind in its table. */
  readonly id: string;
  /** What a press on it selects; null: nothing of the plan. */
  readonly about: KeyPath | null;
  /** What is asked in Why; null: nothing. */
  readonly subject: string | null;
  /** One a column. */
  readonly cells: readonly Cell[];
}

/** A schedule as it is shown, sorted, filtered and copied. Plain data but for its remarks. */
export interface Table {
  readonly id: string;
  readonly title: string;
  readonly columns: readonly ColumnHead[];
  readonly rows: readonly TableRow[];
  /** What stands in the one empty row. */
  readonly empty: string;
  /** Under the table: what the columns mean, and what was not judged. */
  readonly notes: readonly string[];
  readonly below?: ComponentChildren;
}

export const scheduleIds = ["circuits", "conductors", "devices", "voltages", "defaults", "waivers"] as const;
export type ScheduleId = (typeof scheduleIds)[number];

export const scheduleTitles: Readonly<Record<ScheduleId, string>> = {
  circuits: "Circuits",
  conductors: "Conductors",
  devices: "Devices",
  voltages: "Volts by state",
  defaults: "Defaults used",
  waivers: "Waivers",
};
