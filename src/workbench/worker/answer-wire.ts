import { drawLesson, drawWireSheet, wireCard } from "../../act/wire-card/index.ts";
import type { AnswerOf, WireAsked } from "./protocol.ts";

/** Answers what is asked of wire alone; no plan is needed for it. */
export function answerWire(asked: WireAsked): AnswerOf[WireAsked["ask"]] {
  switch (asked.ask) {
    case "wire":
      return wireCard(asked.question);
    case "wire-sheet":
      return drawWireSheet(asked.wish);
    case "wire-lesson":
      return drawLesson();
  }
}
