import { readFileSync } from "node:fs";
import { readPlan } from "../../src/plan/index.ts";
import { kinds, resolveSystem, type System } from "../../src/system/index.ts";
import { readExpectation } from "./expected.ts";

/** The text of a plan beside this file, or of an example, without the comments that expect messages. */
export function planText(name: string, folder: "plans" | "examples" = "plans"): string {
  const url = new URL(folder === "plans" ? name : `../../examples/${name}`, import.meta.url);
  return readExpectation(readFileSync(url, "utf8")).text;
}

/** What a plan means, read and bound. */
export function systemOf(name: string, folder: "plans" | "examples" = "plans"): System {
  return resolveSystem(readPlan(planText(name, folder), kinds).value, kinds).value;
}
