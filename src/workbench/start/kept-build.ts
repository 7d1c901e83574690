import type { Status } from "../look/status-shape.tsx";

/** A build that the browser keeps, as a row of the start says it. */
export interface KeptBuild {
  readonly id: string;
  /** As the plan is called. */
  readonly name: string;
  /** That the plan states: `B`; empty: none. */
  readonly revision: string;
  /** Null: it was never in a file. */
  readonly fileName: string | null;
  /** `saved today 14:02`, `last change yesterday 22:41`. */
  readonly savedSays: string;
  /** `2 fail, 1 warn, 1 cannot tell`; empty: not judged yet. */
  readonly tallySays: string;
  /** Null: not judged yet. */
  readonly status: Status | null;
  /** Changes that are in no file. */
  readonly changesNotInFile: number;
  /** Texts of it that were good are kept as well. */
  readonly hasCopies: boolean;
  /** Found after a crash: the tab that had it open did not say goodbye. */
  readonly recovered: boolean;
}

/** Rows in their order: what was found after a crash first, each build once. */
export function rowsOf(builds: readonly KeptBuild[], recovered: readonly KeptBuild[]): readonly KeptBuild[] {
  const all = [...recovered, ...builds.filter(({ id }) => !recovered.some((one) => one.id === id))];
  return [...all.filter((build) => build.recovered), ...all.filter((build) => !build.recovered)];
}

/**
 * Where a build is kept, in words.
 *
 * @example
 * keptWhere({ fileName: "sloop.yaml", savedSays: "saved today 14:02", changesNotInFile: 0, recovered: false }) //=> "in sloop.yaml, saved today 14:02"
 * keptWhere({ fileName: null, savedSays: "last change 9:10", changesNotInFile: 7, recovered: true }) //=> "7 changes not yet in a file, found after a crash; last change 9:10"
 */
export function keptWhere({
  fileName,
  savedSays,
  changesNotInFile: n,
  recovered,
}: Pick<KeptBuild, "fileName" | "savedSays" | "changesNotInFile" | "recovered">): string {
  const after = recovered ? ", found after a crash" : "";
  if (n > 0) return `${n} ${n === 1 ? "change" : "changes"} not yet in a file${after}; ${savedSays}`;
  return `${fileName === null ? "in this browser only" : `in ${fileName}`}${after}, ${savedSays}`;
}
