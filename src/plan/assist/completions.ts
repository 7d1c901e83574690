/** What may be written at a place. */
export interface Completions {
  /** What is replaced; within one line, around the offset. */
  readonly from: number;
  readonly to: number;
  /** What fits best comes first. */
  readonly options: readonly { readonly label: string; readonly detail: string; readonly insert: string }[];
}
