import { namesIn } from "../cure/write.ts";
import { printAmount, readQuantity } from "../quantity/index.ts";
import { readQuestion } from "../size/question.ts";
import { questionFields, type QuestionText } from "../size/question-text.ts";
import { putLoad, type Entry } from "./add-load.ts";
import { refuse } from "./draft.ts";
import { halve } from "./halve.ts";
import { kindOfLoad } from "./kind-of-load.ts";
import { readSize } from "./read-value.ts";
import type { ActRequest, ActResult } from "./request.ts";
import type { Stand } from "./stand.ts";

/** What a plan says for the whole build, so that one circuit does not say it again. */
const OF_THE_PLAN = ["volts", "sourceVolts", "rules", "stock"] as const;

/** A question of the wire desk becomes a load on a circuit of its own. */
export function putQuestion(
  stand: Stand,
  { question, at, name, wire }: Extract<ActRequest, { readonly do: "put-question-in-plan" }>,
): ActResult {
  const read = readQuestion(question);
  if (!read.ok) {
    const [problem] = read.problems;
    return refuse(problem?.message ?? "the question cannot be read", problem?.hint ?? "mend its blanks");
  }
  const size = wire === undefined ? null : readSize(wire, stand.compiled.system.stock.system);
  if (size !== null && "ok" in size) return size;
  const fact = (key: string, text: string | undefined): readonly Entry[] =>
    text === undefined || text.trim() === "" ? [] : [[key, typed(text)]];
  const q: QuestionText = question;
  const engine = stand.compiled.system.zones.find((zone) => zone.engine)?.id;
  const left = OF_THE_PLAN.filter((field) => q[field] !== undefined && questionFields.includes(field));
  const remarks = [
    ...read.question.remarks,
    ...(left.length === 0
      ? []
      : [`the plan has its own ${left.map((f) => SAID[f]).join(", ")}: what the question said of it is left out`]),
    ...(q.engineSpace === true && engine === undefined
      ? ["the plan has no engine space: say which zone the run lies in"]
      : []),
  ];
  const called = name ?? freeLoadName(namesIn(stand.document, ["parts"]));
  return putLoad(
    stand,
    at,
    {
      name: called,
      part: [
        ["kind", kindOfLoad(called)],
        ...fact("running", q.load),
        ...fact("starting", q.start),
        ...fact("start time", q.startTime),
        ...fact("runs above", q.leastVolts),
        ...fact("starts above", q.startsAbove),
      ],
      circuit: [
        ...(q.loop === undefined ? fact("length", q.run) : fact("length", half(q.loop))),
        ...fact("zone", q.engineSpace === true ? engine : undefined),
        ...fact("ambient", q.ambient),
        ...fact("bundle", q.bundle),
        ...fact("insulation", q.insulation),
        ...fact("metal", q.metal),
        ...fact("strands", q.strands),
        ...fact("drop", q.drop),
        ...fact("sheathed", q.sheathed === true ? "yes" : undefined),
        ...fact("wire", size?.label),
      ],
      volts: null,
      alwaysOn: false,
      remarks,
    },
    [],
  );
}

const SAID = { volts: "volts", sourceVolts: "volts of the source", rules: "rule set", stock: "sizes" } as const;

/** A figure in its canonical spelling; a word as it is. */
function typed(text: string): string {
  const read = readQuantity(text, ["current", "power", "voltage", "length", "time", "temperature", "ratio"]);
  return read.ok && read.amount.form !== "unknown" ? printAmount(read.amount) : text.trim();
}

function half(loop: string): string {
  const read = readQuantity(loop, "length");
  return read.ok ? halve(read.amount) : loop;
}

function freeLoadName(taken: readonly string[]): string {
  for (let n = 1; ; n++) if (!taken.includes(`load ${n}`)) return `load ${n}`;
}
