import { useState } from "preact/hooks";
import { StatusShape, statusWords } from "../look/status-shape.tsx";
import { keptWhere, type KeptBuild } from "./kept-build.ts";

/** Builds of earlier visits; those found after a crash come first. */
export function BuildRows({
  rows,
  onOpen,
  onForget,
  onCopies,
}: {
  /** Null: it is being looked for. */
  readonly rows: readonly KeptBuild[] | null;
  readonly onOpen: (id: string) => void;
  readonly onForget: (id: string) => void;
  readonly onCopies: (id: string) => void;
}) {
  if (rows === null) {
    return (
      <p class="dim start-looking" role="status">
        Looking for what was left here …
      </p>
    );
  }
  if (rows.length === 0) return null;
  return (
    <section class="start-builds" aria-labelledby="start-builds-head">
      <h2 id="start-builds-head" class="dim">
        Go on where you left
      </h2>
      <ul>
        {rows.map((build) => (
          <Row key={build.id} build={build} onOpen={onOpen} onForget={onForget} onCopies={onCopies} />
        ))}
      </ul>
    </section>
  );
}

function Row({
  build,
  onOpen,
  onForget,
  onCopies,
}: {
  readonly build: KeptBuild;
  readonly onOpen: (id: string) => void;
  readonly onForget: (id: string) => void;
  readonly onCopies: (id: string) => void;
}) {
  const [asks, setAsks] = useState(false);
  const { id, name, revision, tallySays, status, recovered, changesNotInFile, hasCopies } = build;
  const unsaved = changesNotInFile > 0;
  const called = name === "" ? "plan without a name" : name;
  return (
    <li class="start-row">
      <span class="start-shape">
        {recovered ? (
          <StatusShape status="warn" label="found after a crash" />
        ) : (
          status !== null && <StatusShape status={status} label={statusWords[status]} />
        )}
      </span>
      <b class="start-name">{called}</b>
      <span>{revision === "" ? "" : `revision ${revision}`}</span>
      <span class={unsaved ? "start-unsaved" : ""}>{keptWhere(build)}</span>
      <span class="dim">{tallySays}</span>
      <span class="start-row-deeds">
        {asks ? (
          <>
            <span>{unsaved ? `${changesNotInFile} not in a file go with it.` : "It goes from this browser."}</span>
            <button
              type="button"
              class="button"
              onClick={() => {
                onForget(id);
              }}
            >
              Forget {called}
            </button>
            <button
              type="button"
              class="link"
              onClick={() => {
                setAsks(false);
              }}
            >
              Keep
            </button>
          </>
        ) : (
          <>
            {hasCopies && (
              <button
                type="button"
                class="link"
                aria-haspopup="dialog"
                aria-label={`Good copies of ${called}`}
                onClick={() => {
                  onCopies(id);
                }}
              >
                Good copies
              </button>
            )}
            <button
              type="button"
              class="link"
              aria-label={`Forget ${called} …`}
              onClick={() => {
                setAsks(true);
              }}
            >
              Forget …
            </button>
            <button
              type="button"
              class="button"
              aria-label={`${recovered ? "Look and keep" : "Open"} ${called}`}
              onClick={() => {
                onOpen(id);
              }}
            >
              {recovered ? "Look and keep" : "Open"}
            </button>
          </>
        )}
      </span>
    </li>
  );
}
