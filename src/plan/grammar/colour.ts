import { colourChoices } from "../../wire/colour/index.ts";
import type { PrintedColour } from "../../wire/make/wire-make.ts";
import { listed, shown } from "./record.ts";
import type { ValueRule } from "./rule.ts";
import { scalarRule } from "./values.ts";

/** A colour of insulation, in words or in letters that mean one thing everywhere. */
export function colour(): ValueRule<PrintedColour> {
  const says = "a colour such as `red`, `yellow/red` or `GNYE`";
  const rule = scalarRule(says, { type: "string" }, (node, reading): PrintedColour | undefined => {
    const choices = colourChoices(node.text);
    const [only] = choices;
    if (choices.length === 1 && only?.by.length === 0) return only.colour;
    const near = choices.map(({ name }) => name);
    if (only === undefined) {
      reading.say({
        id: "plan/colour-unknown",
        level: "error",
        at: node.span,
        message: `expected ${says}, found \`${shown(node.text)}\``,
        hint: "write the colour in full, with a stroke before a tracer",
      });
    } else {
      const by = choices.map((c) => `${c.name} (${c.by.length === 0 ? "everywhere" : c.by.join(", ")})`);
      reading.say({
        id: "plan/colour-ambiguous",
        level: "error",
        at: node.span,
        message: `\`${shown(node.text)}\` is ${by.join(" or ")}`,
        hint: `did you mean ${listed(near, "or")}?`,
        data: { near },
      });
    }
    return undefined;
  });
  return { ...rule, takes: { form: "colour" } };
}
