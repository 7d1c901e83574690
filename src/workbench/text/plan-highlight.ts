import { yaml } from "@codemirror/lang-yaml";
import { HighlightStyle, LanguageSupport, syntaxHighlighting } from "@codemirror/language";
import type { Extension } from "@codemirror/state";
import { tags } from "@lezer/highlight";

/** How a plan is coloured: keys quiet, values in ink, comments apart. No hue: those are kept for what is selected and what is wrong. */
const roles = HighlightStyle.define([
  { tag: tags.definition(tags.propertyName), color: "var(--ink2)" },
  { tag: tags.propertyName, color: "var(--ink2)" },
  { tag: [tags.content, tags.string, tags.attributeValue], color: "var(--ink)" },
  { tag: [tags.separator, tags.punctuation, tags.brace, tags.squareBracket, tags.bracket], color: "var(--ink2)" },
  { tag: [tags.lineComment, tags.comment], color: "var(--ink2)", fontStyle: "italic" },
  { tag: [tags.labelName, tags.typeName, tags.meta, tags.keyword], color: "var(--fail)" },
]);

export const planHighlight = (): Extension => {
  const support: LanguageSupport = yaml();
  return [support, syntaxHighlighting(roles)];
};
