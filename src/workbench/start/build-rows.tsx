import { useState } from "preact/hooks";
import { StatusShape, statusWords } from "../look/status-shape.tsx";
import { keptWhere, type DamagedFile, type KeptBuild } from "./kept-build.ts";

/** Builds of earlier visits; those found after a crash come first. */
export function BuildRows({
  rows,
  damaged,
  onOpen,
  onForget,
}: {
  /** Null: it is being looked for. */
  readonly rows: readonly KeptBuild[] | null;
  readonly damaged: DamagedFile | null;
  readonly onOpen: (id: string) => void;
  readonly onForget: (id: string) => void;
}) {
  if (rows === null) {
    return (
      <p class="dim start-looking" role="status">
        Looking for what was left here …
      </p>
    );
  }
  if (rows.length === 0 && damaged === null) return null;
  return (
    <section class="start-builds" aria-labelledby="start-builds-head">
      <h2 id="start-builds-head" class="dim">
        Go on where you left
      </h2>
      <ul>
        {damaged !== null && <DamagedRow damaged={damaged} />}
        {rows.map((build) => (
          <Row key={build.id} build={build} onOpen={onOpen} onForget={onForget} />
        ))}
      </ul>
    </section>
  );
}

function Row({
  build,
  onOpen,
  onForget,
}: {
  readonly build: KeptBuild;
  readonly onOpen: (id: string) => void;
  readonly onForget: (id: string) => void;
}) {
  const [asks, setAsks] = useState(false);
  const { id, name, revision, tallySays, status, recovered, changesNotInFile } = build;
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

function DamagedRow({ damaged }: { readonly damaged: DamagedFile }) {
  const { fileName, says, lastGoodSays, onOpenText, onOpenCopy } = damaged;
  return (
    <li class="start-row start-damaged">
      <span class="start-shape">
        <StatusShape status="fail" label="damaged file" />
      </span>
      <b class="start-name">{fileName}</b>
      <span class="start-damage">{says}</span>
      <span class="dim">{lastGoodSays === null ? "no good copy is kept" : `last good copy: ${lastGoodSays}`}</span>
      <span class="start-row-deeds">
        {lastGoodSays !== null && (
          <button type="button" class="link" onClick={onOpenCopy}>
            Open the good copy
          </button>
        )}
        <button type="button" class="button" onClick={onOpenText}>
          Open as text
        </button>
      </span>
    </li>
  );
}
