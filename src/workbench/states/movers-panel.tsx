import type { MoverRow, Positions } from "../worker/position-answers.ts";
import { listed } from "./signs-of.ts";

interface PanelProps {
  readonly movers: readonly MoverRow[];
  readonly positions: Positions;
  readonly onMove: (mover: string, to: string) => void;
}

/** Everything that a finger sets, from where the current comes to where it goes; what follows by itself is told. */
export function MoversPanel({ movers, positions, onMove }: PanelProps) {
  const of = (...what: readonly MoverRow["what"][]) => movers.filter((m) => what.includes(m.what));
  const group = (title: string, rows: readonly MoverRow[]) =>
    rows.length === 0 ? null : (
      <section class="states-movers" aria-label={title}>
        <h3>{title}</h3>
        {rows.map((mover) => (
          <MoverSet key={mover.id} mover={mover} at={positions[mover.id] ?? mover.start} onMove={onMove} />
        ))}
      </section>
    );
  const boards = [...new Set(of("board").map(({ board }) => board ?? ""))];
  const relays = of("relay");
  const guards = of("guard");
  return (
    <div class="states-panel">
      {group("Plugs and sources", of("supply"))}
      {group("Switches", of("switch"))}
      {boards.map((board) => (
        <Board
          key={board}
          board={board}
          movers={of("board").filter((m) => m.board === board)}
          positions={positions}
          onMove={onMove}
        />
      ))}
      {relays.length === 0 ? null : (
        <section class="states-movers" aria-label="Moves by itself">
          <h3>Moves by itself</h3>
          {relays.map(({ id, name, unclear }) => (
            <p key={id} class="states-relay">
              <span>{name}</span> <strong>{positions[id] ?? ""}</strong>
              {unclear === null ? null : <small class="dim"> {unclear}</small>}
            </p>
          ))}
        </section>
      )}
      {guards.length === 0 ? null : (
        <details class="states-ways">
          <summary>Managements of batteries, which may open at any time</summary>
          {guards.map((mover) => (
            <MoverSet key={mover.id} mover={mover} at={positions[mover.id] ?? mover.start} onMove={onMove} />
          ))}
        </details>
      )}
    </div>
  );
}

/** Main and whatever decides what is live stand open; ways with only loads behind them are folded away. */
function Board({ board, movers, positions, onMove }: PanelProps & { readonly board: string }) {
  const ways = movers.filter(({ behind }) => behind !== null);
  const closed = ways.filter(({ id, start }) => (positions[id] ?? start) === start).length;
  return (
    <section class="states-movers" aria-label={board}>
      <h3>{board}</h3>
      {movers
        .filter(({ behind }) => behind === null)
        .map((mover) => (
          <MoverSet key={mover.id} mover={mover} at={positions[mover.id] ?? mover.start} onMove={onMove} />
        ))}
      {ways.length === 0 ? null : (
        <details class="states-ways">
          <summary>
            {ways.length} {ways.length === 1 ? "way" : "ways"} to loads, {closed} on
          </summary>
          {ways.map((mover) => (
            <MoverSet key={mover.id} mover={mover} at={positions[mover.id] ?? mover.start} onMove={onMove} />
          ))}
        </details>
      )}
    </section>
  );
}

/** One switch: each position is a target of its own, so that what was pressed is what it does. */
function MoverSet({
  mover,
  at,
  onMove,
}: {
  readonly mover: MoverRow;
  readonly at: string;
  readonly onMove: (mover: string, to: string) => void;
}) {
  const label = mover.board === null ? mover.name : mover.name.slice(mover.board.length + 1);
  return (
    <fieldset class="states-set">
      <legend>
        <span class="unseen">{mover.name}</span>
        <span aria-hidden="true">{label}</span>
        {mover.behind === null ? null : <small class="dim"> {listed(mover.behind)}</small>}
        {mover.unclear === null ? null : <small class="dim"> {mover.unclear}</small>}
      </legend>
      <div class="states-positions">
        {mover.positions.map((position) => (
          <label key={position}>
            <input
              type="radio"
              name={`states-${mover.id}`}
              checked={position === at}
              onChange={() => {
                onMove(mover.id, position);
              }}
            />
            <span>{position}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
