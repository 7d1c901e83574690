import ts from "typescript";

/** What a rule says for its own page in docs/rules and to its own tests; no finding, cure or explanation shows it. */
const FOR_ITS_PAGE: ReadonlySet<string> = new Set(["why", "silent", "examples"]);

/** What only its page in docs/rules and its tests read. */
export const EXAMPLES: ReadonlySet<string> = new Set(["examples"]);

/**
 * The text of a rule without what it carries for its page and tests: half of its words.
 *
 * @param without names of properties
 */
export function cutRulePages(path: string, text: string, without = FOR_ITS_PAGE): string {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.ESNext);
  const spans: [from: number, to: number][] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) && ts.isIdentifier(node.expression) && node.expression.text === "defineRule") {
      const [rule] = node.arguments;
      if (rule !== undefined && ts.isObjectLiteralExpression(rule)) {
        for (const property of rule.properties) {
          const { name } = property;
          // With the comma behind it.
          if (name !== undefined && ts.isIdentifier(name) && without.has(name.text))
            spans.push([property.pos, property.end + 1]);
        }
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return spans.reduceRight((rest, [from, to]) => rest.slice(0, from) + rest.slice(to), text);
}
