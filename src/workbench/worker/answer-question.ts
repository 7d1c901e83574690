import { act, readAsk } from "../../act/index.ts";
import { compile } from "../../compile.ts";
import { searchCures } from "../../cure/index.ts";
import { defaultPaper } from "../../draw/one-line/index.ts";
import { drawStrip } from "../../draw/strip/index.ts";
import { writeSvg } from "../../draw/write-svg.ts";
import { completeAt, hoverAt } from "../../act/assist/index.ts";
import { sizeCircuit } from "../../index.ts";
import { readQuestion } from "../../size/question.ts";
import { explainWhy } from "../../why/index.ts";
import type { AnswerOf, PlanQuestion } from "./protocol.ts";
import type { Standing } from "./standing.ts";

/** Answers one question of the page; yields where it may be stopped. */
export function* answerQuestion(
  standOf: (text: string) => Standing,
  question: PlanQuestion,
  isCancelled: () => boolean,
): Generator<unknown, AnswerOf[keyof AnswerOf], undefined> {
  switch (question.ask) {
    case "act": {
      const { text, compiled, memory } = standOf(question.of);
      return act(text, compiled, question.request, memory);
    }
    case "cures": {
      const { text, compiled, memory } = standOf(question.of);
      return yield* searchCures(text, question.finding, compile, { compiled, memory, isCancelled });
    }
    case "why":
      return explainWhy(standOf(question.of).compiled, question.subject, { changes: question.changes });
    case "size": {
      const read = readQuestion(question.question);
      return read.ok ? { ok: true, answer: sizeCircuit(read.question) } : read;
    }
    case "offers": {
      const { compiled } = standOf(question.of);
      return readAsk(question.text, compiled, question.context);
    }
    case "complete":
      return completeAt(question.of, question.offset, standOf(question.of).compiled);
    case "hover":
      return hoverAt(question.of, question.offset, standOf(question.of).compiled);
    case "strip": {
      const { plan, system, runs, design, judgement, settled } = standOf(question.of).compiled;
      const build = { plan, system, runs, design, settled, findings: judgement.findings };
      const { variant } = defaultPaper(system);
      const scene = drawStrip(build, question.circuit, { variant, state: question.operatingState });
      return { svg: writeSvg(scene), width: scene.width, height: scene.height };
    }
  }
}
