import type { Diagnostic, Level, Span } from "../../diagnostic.ts";
import { visible } from "./visible.ts";

type Words = readonly [level: Level, message: string, hint: string];
export type Facts = Readonly<Record<string, string | number>>;

/** All messages of the text layer. `{name}` is filled from the facts. */
const WORDS = {
  // the text as a whole
  "plan/too-large": [
    "error",
    "the plan has {length} characters; at most {limit} are read",
    "5,000 circuits need about 600,000: look for something pasted in by accident, or split the build",
  ],
  "plan/line-too-long": [
    "error",
    "a line of {length} characters; at most {limit} are read",
    "break the line after a comma",
  ],
  "plan/too-deep": [
    "error",
    "more than {limit} levels inside one another",
    "write it flatter; no fact needs that many",
  ],
  "plan/too-many-messages": [
    "error",
    "more than {limit} messages; the others are not listed",
    "mend the first ones and read the plan again",
  ],
  "plan/control-character": [
    "error",
    "the control character {code} cannot be read here",
    "delete it, or type it as words",
  ],
  "plan/line-break": [
    "error",
    "the line break {code} ends a line in some editors only, so what follows it could be misread",
    "replace it by an ordinary line end",
  ],
  "plan/broken-character": [
    "error",
    "half a character ({code}): the text was damaged on its way",
    "type the character again",
  ],
  "plan/invisible-character": [
    "warning",
    "the invisible character {code} makes names differ that look alike",
    "delete it",
  ],
  "plan/odd-space": [
    "error",
    "`{name}` starts or ends with {code}, which looks like a space but is none",
    "type an ordinary space",
  ],
  // what the language has and a plan does not need
  "plan/second-document": [
    "error",
    "`{sign}` starts or ends a document; a plan is one document",
    "delete the line; what follows is read as if it were not there",
  ],
  "plan/directive": [
    "error",
    "a line that starts with `%` gives orders to the reader, which a plan does not need",
    "delete the line, or quote the name",
  ],
  "plan/anchor": [
    "error",
    "`{sign}` names a value for use elsewhere, which a plan does not do",
    "write `like: <part>` to copy a part's facts, or quote the text if the & belongs to it",
  ],
  "plan/alias": [
    "error",
    "`{sign}` repeats a value named elsewhere, which a plan does not do",
    "write the value out, or quote the text if the * belongs to it",
  ],
  "plan/tag": [
    "error",
    "`{sign}` gives the value a type, which a plan does not need",
    "delete it, or quote the text if the ! belongs to it",
  ],
  "plan/merge": [
    "error",
    "`<<` merges another map, which a plan does not do",
    "write `like: <part>` to copy a part's facts",
  ],
  "plan/question-mark": [
    "error",
    "a `?` before a name marks it in a way that a plan does not need",
    "write `name: value`; a fact that nobody knows is `name: unknown`",
  ],
  // places of lines
  "plan/tab": ["error", "a tab in the indent; its width differs from editor to editor", "indent with spaces"],
  "plan/indent": [
    "error",
    "`{name}` is indented by {found}, where {expected} would be in line with its neighbours",
    "line it up with the names that it belongs to",
  ],
  "plan/first-indent": ["error", "the first line is indented by {found}", "start the sections at the left edge"],
  "plan/slid-out": [
    "error",
    "`{name}` stands at the left edge and has its value, yet more indented lines follow; it is read as an entry of `{section}`",
    "indent `{name}` like its neighbours in `{section}`",
  ],
  // names and colons
  "plan/missing-colon": [
    "error",
    "`{name}` has no colon and value; here `name: value` was expected",
    "write `{name}: …`",
  ],
  "plan/space-after-colon": ["error", "`{name}` has no space after the colon, so it is one word", "write `{better}`"],
  "plan/missing-name": ["error", "a colon without a name before it", "write `name: value`"],
  "plan/second-colon": [
    "error",
    "a second `name: value` on one line",
    "start a new line or put the facts in { }; quote the value if the colon belongs to it",
  ],
  "plan/name-too-long": [
    "error",
    "a name of {length} characters; at most {limit} are read",
    "shorten the name; longer words go under `name:`",
  ],
  "plan/name-over-lines": ["error", "a name that runs over more than one line", "write the name on one line"],
  "plan/bracket-without-colon": [
    "error",
    "`{name}` has no colon and space before its `{sign}`",
    "write `{name}: {sign}`",
  ],
  "plan/bracket-in-name": [
    "error",
    "the name `{name}` has a bracket in it",
    "write `name: { … }`, or quote the name if the bracket belongs to it",
  ],
  "plan/bracket-as-name": [
    "error",
    "a map or list in brackets stands where a name was expected",
    "write `name: { … }`",
  ],
  "plan/duplicate-name": ["error", "`{name}` stands {count} times; only the first counts", "rename one, or delete it"],
  // lists
  "plan/list-on-name-line": [
    "error",
    "a list item on the line of its name",
    "put each `- item` on a line of its own, or write `[item, item]`",
  ],
  "plan/stray-dash": [
    "error",
    "a list item where a name was expected",
    "write `name: value`, or indent the list under its name",
  ],
  "plan/missing-dash": [
    "error",
    "a line without `- ` between list items",
    "start the line with `- `, or indent it further if it belongs to the item above",
  ],
  "plan/empty-item": ["error", "an item with nothing in it", "delete the spare `{sign}`, or write `unknown`"],
  "plan/pair-in-list": [
    "error",
    "`name: value` inside a list in [ ]",
    "put it in { }, or quote it if the colon belongs to the text",
  ],
  // brackets, commas and quotes
  "plan/unclosed-bracket": [
    "error",
    "this `{sign}` is never closed",
    "add `{closer}` behind the last thing that belongs inside",
  ],
  "plan/wrong-bracket": ["error", "`{sign}` where `{closer}` would close the {what}", "write `{closer}`"],
  "plan/stray-sign": ["error", "a `{sign}` that nothing opened", "delete it, or quote the text that it belongs to"],
  "plan/bracket-in-text": [
    "warning",
    "a `{sign}` that nothing opened is read as part of the text",
    "delete it, or quote the text if it belongs to it",
  ],
  "plan/missing-comma": ["error", "no comma before `{name}`", "put a comma between the two"],
  "plan/stray-text": [
    "error",
    "more text after the end of the value",
    "delete it, start a new line, or quote the whole value",
  ],
  "plan/unclosed-quote": ["error", "this quote is never closed", "add `{sign}` where the text ends"],
  "plan/bad-escape": [
    "error",
    "`{sign}` in double quotes stands for nothing",
    "write `\\\\` for a backslash, or use single quotes",
  ],
  "plan/bad-start": ["error", "a value cannot start with `{sign}`", "quote the value"],
  // comments and commas that are not what they look like
  "plan/value-is-comment": [
    "error",
    "`{comment}` is a comment, so there is no value",
    "quote it if it is the value; a comment has a space after its #",
  ],
  "plan/comment-in-value": [
    "warning",
    "`{comment}` is a comment, so the value ends before it",
    "quote the value if the # belongs to it; a comment has a space after its #",
  ],
  "plan/comment-needs-space": [
    "error",
    "a # that touches what stands before it",
    "put a space before the # of a comment, or quote the text that it belongs to",
  ],
  "plan/decimal-comma": [
    "error",
    "`{text}` can be read in two ways: as decimals or as several values",
    "put a space after a comma between values, and write decimals with a point",
  ],
  // text blocks
  "plan/text-block": [
    "error",
    "`{sign}` is no way to start a text block",
    "write `|` to keep the line ends or `>` to join the lines, and start the text on the next line",
  ],
  "plan/text-block-indent": [
    "error",
    "a line of this text block is indented less than the block",
    "indent all lines of the text alike",
  ],
  // edits
  "plan/edit-no-such-place": [
    "error",
    "there is no `{path}` in the plan",
    "read the plan again and take the path from it",
  ],
  "plan/edit-two-places": ["error", "`{path}` stands more than once in the plan", "rename or delete one of them first"],
  "plan/edit-name-taken": [
    "error",
    "`{path}` is in the plan already",
    "choose another name, or change the one that is there",
  ],
  "plan/edit-wrong-kind": ["error", "`{path}` is not {expected}", "choose a place that is"],
  "plan/edit-not-proved": [
    "error",
    "the edit would change more than it should, at `{path}`",
    "mend the messages near that place first, or edit the text by hand",
  ],
  "plan/edit-new-message": [
    "error",
    "the edit would leave the plan with a new message: {message}",
    "choose another value, or edit the text by hand",
  ],
} satisfies Record<string, Words>;

export type WordId = keyof typeof WORDS;

/**
 * A message of the text layer, put into words.
 *
 * @param at where; the first carries the mark
 * @param about key path of the thing it is about, empty for the plan as a whole
 * @param facts fill the words; texts out of the plan are shortened and made visible, since a plan may hold anything
 * @returns a diagnostic with level, message and one next step
 */
export function tell(id: WordId, at: readonly Span[], about: string, facts: Facts = {}): Diagnostic {
  const [level, message, hint] = WORDS[id];
  return {
    id,
    level,
    at,
    about: visible(about, 80),
    message: fill(message, facts),
    hint: fill(hint, facts),
    data: facts,
  };
}

function fill(words: string, facts: Facts): string {
  return words.replace(/\{(\w+)\}/g, (sign, name: string) => {
    const fact = facts[name];
    if (fact === undefined) return sign;
    return typeof fact === "number" ? String(fact).replace(/\B(?=(\d{3})+$)/g, ",") : visible(fact, 120);
  });
}
