import { nearestNames, shown } from "../../plan/index.ts";
import { readLoadSentence } from "../read-load-sentence.ts";
import type { CompiledPlan } from "../stand.ts";
import type { AskContext, AskOffer } from "./ask-offer.ts";
import { knownNames, searchNames, takeName, type KnownNames } from "./known-names.ts";
import { addOffers, goTo, type Asking } from "./offers.ts";
import { offersForVerb } from "./offers-for-verb.ts";
import { offersForThing } from "./offers-for-thing.ts";
import { goToLine } from "./go-to-line.ts";
import { nameOffers } from "./name-offers.ts";
import { questionOf, readQuestionSentence } from "./question-sentence.ts";
import { takeVerb, verbWords } from "./verbs.ts";
import { viewsFor } from "./views.ts";

const MOST = 8;
/** Longer than anything that is typed into a field. */
const LONGEST = 400;

/**
 * The ask field: find, do and ask in one. Reads what was typed so far and offers what it can mean, the best first.
 *
 * A verb does (`pin W13 6 mm²`), a name goes there (`fridge`, `W13`, `line 47`), a figure with its unit and no name is a question for the wire
 * desk (`45 W 12 V 3 m`), and a label of wire is one as well (`12/3`, `what does 3G2.5 mean`). A name or verb that is nearly one that there is, is offered as such. Nothing is changed here: an offer says what would
 * be done.
 *
 * @param typed whatever stands in the field
 * @param compiled the plan as it stands; its names are kept with it
 */
export function readAsk(typed: string, compiled: CompiledPlan, context: AskContext = {}): readonly AskOffer[] {
  const text = typed.slice(0, LONGEST).replace(/\s+/g, " ").trim();
  const names = knownNames(compiled);
  const asking: Asking = { names, compiled, context };
  const offers = text === "" ? offersForNothing(asking) : offersFor(text, asking);
  const seen = new Set<string>();
  const once = offers.filter((offer) => {
    const key = `${offer.kind} ${offer.says}`;
    return !seen.has(key) && seen.add(key);
  });
  return once.slice(0, context.most ?? MOST);
}

/** With nothing typed: what goes with the thing that is selected. */
function offersForNothing(asking: Asking): readonly AskOffer[] {
  const { names, context } = asking;
  const selected = context.selected == null ? undefined : names.all.find(({ about }) => about === context.selected);
  return selected === undefined ? viewsFor("one-line", true) : offersForThing(asking, selected, "", false);
}

function offersFor(text: string, asking: Asking): readonly AskOffer[] {
  const { names } = asking;
  const line = /^line (\d{1,7})$/i.exec(text);
  if (line !== null) return [goToLine(asking, Number(line[1]))];
  const taken = takeName(names, text);
  const own = taken === null ? [] : offersForThing(asking, taken.thing, taken.rest, false);
  // A part may be called as a verb is: its whole name comes first, a name with more behind it after the verb.
  const verb = takeVerb(text);
  const done = verb === null ? [] : offersForVerb(asking, verb);
  const named = taken?.rest === "" ? [...own, ...done] : [...done, ...own];
  const views = viewsFor(text);
  const question = readQuestionSentence(text);
  if (question !== null) {
    return [...named, { kind: "question", question, says: "ask the wire desk", more: sayQuestion(question) }, ...views];
  }
  const searched = taken !== null || verb !== null ? [] : answering(names, text);
  const load = verb === null && /\d/.test(text) && taken === null ? loadOffers(asking, text) : [];
  // `wyh W13`: what follows is a name, so the first word was to be a verb.
  const slipped = taken === null && verb === null ? mistyped(text, asking) : [];
  const labels = taken === null && verb === null ? nameOffers(text) : [];
  const found = [...named, ...slipped, ...load, ...labels, ...views, ...searched];
  return found.length > 0 ? found : nothing(text);
}

/** Things whose name or words answer to a text. */
const answering = (names: KnownNames, text: string): readonly AskOffer[] =>
  searchNames(names, text, MOST).map(({ thing, near }) => goTo(thing, near));

const sayQuestion = (question: object): string =>
  Object.values(question)
    .filter((v) => typeof v === "string")
    .join(", ");

/** A sentence with a name and figures: a load to add, or the same as a question. */
function loadOffers(asking: Asking, text: string): readonly AskOffer[] {
  const read = readLoadSentence(text);
  if (!read.ok) return [];
  const question = questionOf(read.load);
  return [
    ...addOffers(asking, text, null),
    { kind: "question", question, says: "ask the wire desk", more: sayQuestion(question) },
  ];
}

/** A verb that was nearly written. */
function mistyped(text: string, asking: Asking): readonly AskOffer[] {
  const [first = "", ...rest] = text.split(" ");
  const isAbout = takeName(asking.names, rest.join(" ")) !== null;
  const near = !isAbout || first.length < 3 ? [] : nearestNames(first, verbWords, 1);
  return near.flatMap((word) => {
    const verb = takeVerb([word, ...rest].join(" "));
    const offers = verb === null ? [] : offersForVerb(asking, verb);
    return offers.map((offer): AskOffer => ({ ...offer, says: `did you mean \`${word}\`: ${offer.says}` }));
  });
}

const nothing = (text: string): readonly AskOffer[] => [
  {
    kind: "told",
    says: `nothing is called \`${shown(text)}\``,
    more: "",
    message: `nothing in the plan answers to \`${shown(text)}\``,
    hint: "name a part or circuit, or ask with figures, as in `45 W 12 V 3 m`",
  },
];
