import type { KeyPath } from "./request.ts";

/** Where a load can be added. */
export interface FreePlace {
  /** What `add-load` takes: `parts.PNL:3`, `parts.BP`. */
  readonly at: KeyPath;
  readonly part: string;
  /** As people call the part. */
  readonly name: string;
  /** Way of a panel that is free; null: a bar or a battery. */
  readonly way: string | null;
  readonly current: "DC" | "AC";
  readonly supply: string | null;
  /** What the tool will put at its start: a way's own device, or one in the line. */
  readonly device: "fuse" | "breaker";
}

/** A panel without a free way. */
export interface FullPanel {
  readonly part: string;
  readonly name: string;
  readonly ways: number;
}
