import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { printTrust } from "../../explain/trust.ts";
import type { SizeOnPaper } from "../../size/index.ts";
import type { LadderRung } from "../../why/explanation.ts";
import type { Units } from "../contract.ts";
import { inSentence, NOTHING } from "../look/print-in-units.ts";
import { constraintWords } from "../schedules/circuits-table.ts";
import { judgedRungs, ladderSays, layLadder, wrapWords, type LadderPicture } from "./ladder-picture.ts";

interface LadderProps {
  readonly ladder: readonly LadderRung[];
  readonly chosen: SizeOnPaper | null;
  readonly onSale: readonly SizeOnPaper[];
  readonly units: Units;
}

/** Px: room for the labels of the scale, of a line of type, of the scale, and above it for the words at the tallest bar. */
const [SCALE, LINE, LENGTH, HEAD] = [56, 16, 280, 24];

/** What each constraint alone asks for, as bars on a scale of the sizes on sale, and the same as a table. */
export function Ladder(props: LadderProps) {
  const box = useRef<HTMLDivElement>(null);
  const [{ width, scale }, setRoom] = useState({ width: 0, scale: 1 });
  useLayoutEffect(() => {
    const element = box.current;
    if (element === null) return undefined;
    const measure = (): void => {
      // Drawn in the px of type at its usual size, so that larger type makes a larger picture.
      const type = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;
      setRoom({ width: Math.floor(element.clientWidth / type), scale: type });
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => {
      watch.disconnect();
    };
  }, []);
  const rungs = judgedRungs(props.ladder);
  if (rungs.length === 0) return null;
  const picture = layLadder(props.ladder, props.chosen, props.onSale, width - SCALE, LENGTH, width - 16);
  return (
    <section class="why-ladder" aria-labelledby="why-ladder-title">
      <h3 id="why-ladder-title">Constraint ladder: the size that each one alone asks for</h3>
      <div ref={box}>
        {width === 0 ? null : picture.lies === "bars" ? (
          <Bars {...props} picture={picture} width={width} scale={scale} />
        ) : (
          <Rows {...props} picture={picture} width={width} scale={scale} />
        )}
      </div>
      <details>
        <summary>Show as table</summary>
        <LadderTable {...props} />
      </details>
    </section>
  );
}

type DrawnProps = LadderProps & {
  readonly picture: LadderPicture;
  readonly width: number;
  readonly scale: number;
};

function Bars({ ladder, picture, width, scale, units }: DrawnProps) {
  const foot = HEAD + picture.length;
  const room = (width - SCALE) / picture.bars.length;
  const letters = Math.floor((room - 6) / 6.4);
  const rungs = judgedRungs(ladder);
  return (
    <svg class="why-picture" {...frame(width, foot + 6 * LINE, scale)} role="img" aria-label={ladderSays(ladder)}>
      {picture.marks.map(({ label, reach, isChosen, isNamed }) => (
        <g key={label} class={isChosen ? "is-chosen" : "is-mark"}>
          <line x1={SCALE} x2={width} y1={foot - reach} y2={foot - reach} />
          {isNamed ? (
            <text x={SCALE - 8} y={foot - reach + 4} text-anchor="end">
              {scaleText(label, units)}
            </text>
          ) : null}
        </g>
      ))}
      {picture.ceiling === null ? null : (
        <g class="is-ceiling">
          <line x1={SCALE} x2={width} y1={foot - picture.ceiling.reach} y2={foot - picture.ceiling.reach} />
          <text x={SCALE + 4} y={foot - picture.ceiling.reach - 5}>
            ceiling: {picture.ceiling.label}
          </text>
        </g>
      )}
      {picture.bars.map((bar, i) => {
        const x = SCALE + bar.across;
        const middle = x + bar.width / 2;
        const rung = rungs[i];
        const name = wrapWords(constraintWords[bar.id], letters, 2);
        const says = wrapWords(inSentence(rung?.says ?? "", units), letters, 5 - name.length);
        return (
          <g key={bar.id} class={bar.decides ? "decides" : ""}>
            <rect class="bar" x={x} y={foot - bar.reach} width={bar.width} height={bar.reach} />
            <line class="cap" x1={x - 8} x2={x + bar.width + 8} y1={foot - bar.reach} y2={foot - bar.reach} />
            <text class="size" x={middle} y={foot - bar.reach - 7} text-anchor="middle">
              {bar.size === null ? "nothing on sale" : inSentence(bar.size, units)}
            </text>
            {name.map((line, n) => (
              <text key={`n${n}`} class="name" x={middle} y={foot + (n + 1) * LINE} text-anchor="middle">
                {line}
              </text>
            ))}
            {says.map((line, n) => (
              <text key={`s${n}`} class="says" x={middle} y={foot + (name.length + n + 1) * LINE} text-anchor="middle">
                {line}
              </text>
            ))}
          </g>
        );
      })}
      <line class="foot" x1={SCALE} x2={width} y1={foot} y2={foot} />
    </svg>
  );
}

const frame = (width: number, height: number, scale: number) => ({
  width: scale * width,
  height: scale * height,
  viewBox: `0 0 ${width} ${height}`,
});

/** `mm²` and `AWG` stand once at the foot of the text around; on the scale the number is enough. */
const scaleText = (label: string, units: Units): string => inSentence(label, units).replace(/ (?:mm²|AWG|SAE)$/, "");

function Rows({ ladder, picture, width, scale, units }: DrawnProps) {
  return (
    <svg class="why-picture" {...frame(width, picture.across + 4, scale)} role="img" aria-label={ladderSays(ladder)}>
      {picture.marks.map(({ label, reach, isChosen }) => (
        <g key={label} class={isChosen ? "is-chosen" : "is-mark"}>
          <line x1={reach} x2={reach} y1={0} y2={picture.across} />
        </g>
      ))}
      {picture.bars.map((bar) => (
        <g key={bar.id} class={bar.decides ? "decides" : ""}>
          <text class="name" x={0} y={bar.across - 7}>
            {constraintWords[bar.id]}
          </text>
          <text class="size" x={width - 2} y={bar.across - 7} text-anchor="end">
            {bar.size === null ? "nothing on sale" : inSentence(bar.size, units)}
            {bar.decides ? ", decides" : ""}
          </text>
          <rect class="bar" x={0} y={bar.across} width={bar.reach} height={bar.width} />
          <line class="cap" x1={bar.reach} x2={bar.reach} y1={bar.across - 2} y2={bar.across + bar.width + 2} />
        </g>
      ))}
    </svg>
  );
}

function LadderTable({ ladder, units }: LadderProps) {
  const told = ladder.filter((r) => r.outcome !== "not judged yet" && r.outcome !== "not stated");
  const listed = (outcome: LadderRung["outcome"]): string =>
    ladder
      .filter((r) => r.outcome === outcome)
      .map((r) => constraintWords[r.id])
      .join(", ");
  const [silent, later] = [listed("not stated"), listed("not judged yet")];
  return (
    <>
      <div class="why-scroll" tabIndex={0} role="group" aria-label="constraint ladder as a table">
        <table class="why-table">
          <thead>
            <tr>
              <th scope="col">constraint</th>
              <th scope="col" class="num">
                alone asks for
              </th>
              <th scope="col">is</th>
              <th scope="col">figures</th>
              <th scope="col">the size below would</th>
              <th scope="col">source</th>
            </tr>
          </thead>
          <tbody>
            {told.map((r) => (
              <tr key={r.id} class={r.decides ? "decides" : ""}>
                <th scope="row">
                  {constraintWords[r.id]}
                  {r.decides ? ", decides" : ""}
                </th>
                <td class="num">
                  {r.size === null
                    ? r.outcome === "not met"
                      ? "nothing on sale"
                      : NOTHING
                    : inSentence(r.size, units)}
                </td>
                <td>{r.outcome}</td>
                <td>{inSentence(r.says, units)}</td>
                <td>{inSentence(r.thinner, units)}</td>
                <td>
                  {r.source}
                  {r.trust === null ? "" : `, ${printTrust(r.trust)}`}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {silent === "" ? null : <p class="dim">Nothing is stated for: {silent}.</p>}
      {later === "" ? null : <p class="dim">Not judged: {later}.</p>}
    </>
  );
}
