import type { Span } from "../diagnostic.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { Fn, Port } from "./terminal.ts";

/** A point of a path, found: the part, the port it lands on, and the one terminal when the path names it (`B3:−`). */
export interface BoundPoint {
  readonly part: BoundPart;
  readonly port: Port;
  readonly fn?: Fn;
  /** As written, for print. */
  readonly text: string;
  readonly span: Span;
}

/** One stretch of a path between two points. */
export interface BoundSegment {
  readonly from: BoundPoint;
  readonly to: BoundPoint;
  /** Joins two points of a joint, at one place. */
  readonly joint?: true;
}
