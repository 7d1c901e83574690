import type { Neighbour, NeighbourSize, ShownConversion, ConvertWish } from "../../../act/wire-card/index.ts";
import { isVerified, printTrust } from "../../../explain/trust.ts";
import type { Units } from "../../contract.ts";
import { inSentence, printNumber } from "../../look/print-in-units.ts";
import { StatusShape } from "../../look/status-shape.tsx";
import { convertTargets, systemWords } from "./convert-targets.ts";

/** The sizes beside the wire's own in every system; each is a name that can be read. */
export function NeighboursPart({
  neighbours,
  units,
  onRead,
}: {
  readonly neighbours: readonly Neighbour[];
  readonly units: Units;
  readonly onRead: (label: string) => void;
}) {
  if (neighbours.length === 0) return null;
  return (
    <section class="name-part" aria-label="Sizes beside it">
      <h3>Sizes beside it</h3>
      <table class="name-table name-beside">
        <thead>
          <tr>
            <th scope="col">system</th>
            <th scope="col">next smaller</th>
            <th scope="col">next larger</th>
          </tr>
        </thead>
        <tbody>
          {neighbours.map(({ system, down, same, up, isOwn }) => (
            <tr key={system}>
              <th scope="row">
                {systemWords(system)}
                {isOwn && <span class="dim">, its own</span>}
              </th>
              <td data-head="next smaller">
                <Beside size={down} units={units} onRead={onRead} />
              </td>
              <td data-head="next larger">
                {same !== null && (
                  <p>
                    the same: <Beside size={same} units={units} onRead={onRead} />
                  </p>
                )}
                <Beside size={up} units={units} onRead={onRead} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="dim">× is the metal of the other over that of this one, by area.</p>
    </section>
  );
}

function Beside({
  size,
  units,
  onRead,
}: {
  readonly size: NeighbourSize | null;
  readonly units: Units;
  readonly onRead: (label: string) => void;
}) {
  if (size === null) return <span class="dim">none</span>;
  return (
    <>
      <button
        type="button"
        class="link"
        title={inSentence(size.note, units)}
        onClick={() => {
          onRead(size.label);
        }}
      >
        {inSentence(size.label, units)}
      </button>{" "}
      <span class="dim">× {printNumber(size.ratio, { figures: 3 }, units)}</span>
    </>
  );
}

const ways = [
  ["area", "by area"],
  ["resistance", "by resistance"],
  ["table", "as tables pair them"],
] as const;

/** The size in another system, not smaller unless the nearest is asked for. */
export function ConvertPart({
  wish,
  conversion,
  units,
  onWish,
  onRead,
}: {
  readonly wish: ConvertWish;
  readonly conversion: ShownConversion;
  readonly units: Units;
  readonly onWish: (wish: ConvertWish) => void;
  readonly onRead: (label: string) => void;
}) {
  const { label, says, isLess, smaller, cautions, pairing, otherPairs, trust } = conversion;
  return (
    <section class="name-part" aria-label="Convert">
      <h3>Convert</h3>
      <div class="name-deeds">
        <label>
          <span class="dim">to </span>
          <select
            class="blank desk-blank desk-word"
            aria-label="size system to convert to"
            value={wish.to ?? ""}
            onChange={(event) => {
              const to = convertTargets.find(([name]) => name === event.currentTarget.value)?.[0] ?? null;
              onWish({ ...wish, to });
            }}
          >
            <option value="">the other of mm² and AWG</option>
            {convertTargets.map(([name, words]) => (
              <option key={name} value={name}>
                {words}
              </option>
            ))}
          </select>
        </label>
        <select
          class="blank desk-blank desk-word"
          aria-label="by what sizes are compared"
          value={wish.by}
          onChange={(event) => {
            const by = ways.find(([name]) => name === event.currentTarget.value)?.[0] ?? "area";
            onWish({ ...wish, by });
          }}
        >
          {ways.map(([name, words]) => (
            <option key={name} value={name}>
              {words}
            </option>
          ))}
        </select>
        <div class="desk-switch" role="group" aria-label="Which size">
          {(["not smaller", "nearest"] as const).map((pick) => (
            <button
              key={pick}
              type="button"
              class="button"
              aria-pressed={wish.pick === pick}
              onClick={() => {
                onWish({ ...wish, pick });
              }}
            >
              {pick}
            </button>
          ))}
        </div>
      </div>
      <p class="name-converted" role="status">
        {isLess && <StatusShape status="warn" label="less metal" />}{" "}
        {label !== null && (
          <button
            type="button"
            class="link name-code"
            onClick={() => {
              onRead(label);
            }}
          >
            {inSentence(label, units)}
          </button>
        )}{" "}
        {inSentence(says, units)}
      </p>
      {cautions.slice(0, 2).map((caution) => (
        <p key={caution} class="name-trap">
          <StatusShape status="note" label="note" /> <span>{inSentence(caution, units)}</span>
        </p>
      ))}
      <ul class="desk-list dim">
        {[
          ...(smaller === null ? [] : [`next smaller: ${smaller}`]),
          ...cautions.slice(2),
          ...(pairing === null ? [] : [`paired so in ${pairing}`]),
          ...otherPairs,
          ...(isVerified(trust) ? [] : [`the sizes are ${printTrust(trust)}`]),
        ].map((text) => (
          <li key={text}>{inSentence(text, units)}</li>
        ))}
      </ul>
    </section>
  );
}
