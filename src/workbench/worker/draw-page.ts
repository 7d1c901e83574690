import type { Compiled } from "../../compile.ts";
import {
  drawBench,
  sayDrawing,
  spokenNames,
  travelOf,
  type BenchDrawing,
  type StateView,
} from "../../draw/bench/index.ts";
import { defaultPaper } from "../../draw/one-line/index.ts";
import { writeSvg } from "../../draw/write-svg.ts";
import type { PageDrawing, PlanMessage } from "./protocol.ts";

/** The drawing of the bench as text, with everything that the page ties to its things. */
export function drawPage(
  { plan, system, runs, design, judgement }: Compiled,
  revision: number,
  state: string | null,
  spoken: PlanMessage["spoken"],
): PageDrawing {
  const build = { plan, system, runs, design, findings: judgement.findings };
  const { variant } = defaultPaper(system);
  const known = design.states.some(({ id }) => id === state) ? state : null;
  const { scene, places, marks, notDrawn } = drawBench(build, { variant, state: known, handles: true });
  const { home, ways } = travelOf(build);
  const told = spokenNames(build, known, "full");
  return {
    revision,
    svg: writeSvg(scene),
    width: scene.width,
    height: scene.height,
    places,
    marks,
    notDrawn,
    travel: ways,
    home,
    says: sayDrawing(build, known),
    told,
    spoken: spoken === "full" ? told : spokenNames(build, known, spoken),
  };
}

/** The one-line with what is on in positions that are no state of the plan; without findings. */
export function drawView({ plan, system, runs, design }: Compiled, view: Omit<StateView, "bladeOf">): BenchDrawing {
  const { variant } = defaultPaper(system);
  return drawBench({ plan, system, runs, design, findings: [] }, { variant, state: null, view });
}
