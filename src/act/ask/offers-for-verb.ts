import { shown } from "../../plan/index.ts";
import { readQuantity } from "../../quantity/index.ts";
import type { AskOffer } from "./ask-offer.ts";
import { searchNames, takeName, type Known } from "./known-names.ts";
import { actOffer, addOffers, goTo, needs, objectsOf, told, whyOffer, type Asking, type Object_ } from "./offers.ts";
import { setOffer } from "./offers-for-thing.ts";
import type { takeVerb } from "./verbs.ts";
import { viewsFor } from "./views.ts";

type Said = NonNullable<ReturnType<typeof takeVerb>>;

const isCircuit = ({ section }: Known): boolean => section === "circuits";
const isPart = ({ section }: Known): boolean => section === "parts";
const isJudged = (thing: Known): boolean => isCircuit(thing) || isPart(thing);
const isAny = (): boolean => true;

/** What a verb and the words behind it can mean. */
export function offersForVerb(asking: Asking, said: Said): readonly AskOffer[] {
  const { rest } = said;
  const { context } = asking;
  switch (said.verb) {
    case "why":
      return each(asking, rest.replace(/^is\s+/i, ""), isJudged, "which circuit or part?", said, ({ thing }) =>
        whyOffer(thing),
      );
    case "curves":
      return curvesOffers(asking, said);
    case "go":
      return rest === ""
        ? [needs("go to a part or circuit", "type its name", `${said.phrase} `)]
        : [...searchNames(asking.names, rest, 6).map(({ thing, near }) => goTo(thing, near)), ...viewsFor(rest)];
    case "add":
      return addOffers(asking, rest, null);
    case "feed":
      return feedOffers(asking, said);
    case "insert":
      return insertOffers(asking, said);
    case "pin":
      return each(asking, rest, isCircuit, "which circuit?", said, ({ thing, rest: size }) =>
        actOffer(`pin ${shown(thing.name)}${size === "" ? "" : ` to ${shown(size)}`}`, thing.more, {
          do: "pin",
          about: thing.about,
          ...(size === "" ? {} : { text: size.replace(/^to\s+/i, "") }),
        }),
      );
    case "unpin":
      return each(asking, rest, isCircuit, "which circuit?", said, ({ thing }) =>
        actOffer(`unpin ${shown(thing.name)}`, thing.more, { do: "unpin", about: thing.about }),
      );
    case "length":
      return each(asking, rest, isCircuit, "which circuit?", said, ({ thing, rest: length }) =>
        length === ""
          ? needs(`length of ${shown(thing.name)}`, "type it with its unit", `length ${thing.name} `)
          : setOffer(thing, "length", length),
      );
    case "rename":
      return each(asking, rest, isAny, "what?", said, ({ thing, rest: to }) =>
        to === ""
          ? needs(`rename ${shown(thing.name)}`, "type its new designation", `rename ${thing.name} `)
          : actOffer(`rename ${shown(thing.name)} ${shown(to.replace(/^to\s+/i, ""))}`, thing.more, {
              do: "rename",
              about: thing.about,
              to: to.replace(/^to\s+/i, ""),
            }),
      );
    case "name":
      return each(asking, rest, isJudged, "what?", said, ({ thing, rest: name }) =>
        name === ""
          ? needs(`name ${shown(thing.name)}`, "type what people call it", `name ${thing.name} `)
          : setOffer(thing, "name", name),
      );
    case "remove":
      return each(
        asking,
        rest,
        (t) => t.section !== "systems",
        "what?",
        said,
        ({ thing }) => actOffer(`remove ${shown(thing.name)}`, thing.more, { do: "remove", about: thing.about }),
      );
    case "turn":
      return turnOffers(asking, said);
    case "way":
      return each(asking, rest, isCircuit, "which circuit?", said, ({ thing, rest: to }) => {
        const way = to.replace(/^(?:to\s+)?(?:way\s+)?/i, "");
        return way === ""
          ? needs(`move ${shown(thing.name)} to another way`, "type the way", `move ${thing.name} to way `)
          : actOffer(`move ${shown(thing.name)} to way ${shown(way)}`, thing.more, {
              do: "move-way",
              circuit: thing.about,
              way,
            });
      });
    case "battery":
      return batteryOffers(asking, said);
    case "engine":
      return engineOffers(asking, rest);
    case "apply":
      return [
        context.cure == null
          ? told("no cure is open", "open the note of a finding first")
          : actOffer(`apply: ${context.cure.step}`, "", context.cure),
      ];
    case "waive":
      return [waiveOffer(asking, rest)];
    case "open": {
      const views = viewsFor(rest);
      const found = rest === "" ? [] : searchNames(asking.names, rest, 4).map(({ thing, near }) => goTo(thing, near));
      return rest === "" ? [{ kind: "page", command: "open", says: "open a plan", more: "" }] : [...views, ...found];
    }
    case "save":
      return [
        {
          kind: "page",
          command: said.phrase === "save" ? "save" : "save-as",
          says: said.phrase === "save" ? "save" : "save to a file",
          more: rest,
        },
      ];
    case "new":
      return [{ kind: "page", command: "new", says: "a new plan", more: "" }];
    case "undo":
    case "redo":
    case "rub out":
      return [{ kind: "page", command: said.verb === "rub out" ? "rub-out" : said.verb, says: said.verb, more: "" }];
    case "set":
      return setOffers(asking, said);
  }
}

/** An offer for each thing that the verb can be about. */
function each(
  asking: Asking,
  rest: string,
  fits: (thing: Known) => boolean,
  question: string,
  { phrase }: Said,
  make: (object: Object_) => AskOffer,
): readonly AskOffer[] {
  const objects = objectsOf(asking, rest, fits);
  if (objects.length === 0)
    return [
      rest === ""
        ? needs(phrase, question, `${phrase} `)
        : told(`nothing fitting is called \`${shown(rest)}\``, question),
    ];
  return objects.map((object) => {
    const offer = make(object);
    return object.near ? { ...offer, says: `did you mean ${shown(object.thing.name)}: ${offer.says}` } : offer;
  });
}

/** A part is fed by the circuit that ends at it. */
const curvesOffers = (asking: Asking, said: Said): readonly AskOffer[] =>
  each(asking, said.rest, isJudged, "of which circuit?", said, ({ thing }) => {
    const circuit = isCircuit(thing) ? thing.name : feedingOf(asking, thing.name);
    return circuit === null
      ? told(`no circuit leads to \`${shown(thing.name)}\``, "name a circuit")
      : { kind: "curves", about: `circuits.${circuit}`, says: `curves of ${shown(circuit)}`, more: thing.more };
  });

function feedOffers(asking: Asking, said: Said): readonly AskOffer[] {
  const [, what = said.rest, from] = /^(.*?)(?:^|\s+)from\s+(.*)$/i.exec(said.rest) ?? [];
  return each(asking, what, isJudged, "which circuit?", said, ({ thing }) => {
    const circuit = isCircuit(thing) ? thing.name : feedingOf(asking, thing.name);
    if (circuit === null) return told(`no circuit leads to \`${shown(thing.name)}\``, "add one first");
    const source = from === undefined ? null : takeName(asking.names, from);
    if (source === null || !isPart(source.thing)) {
      return from === undefined || from === ""
        ? needs(`feed ${shown(circuit)} from another place`, "type the part", `feed ${circuit} from `)
        : told(`no part is called \`${shown(from)}\``, "name a panel, a bar or a switch");
    }
    const about = `${source.thing.about}${source.way === null ? "" : `:${source.way}`}`;
    return actOffer(
      `feed ${shown(circuit)} from ${shown(source.thing.name)}${source.way === null ? "" : `:${source.way}`}`,
      thing.more,
      {
        do: "feed",
        circuit: `circuits.${circuit}`,
        from: about,
      },
    );
  });
}

/** The circuit that ends at a part. */
const feedingOf = ({ names }: Asking, part: string): string | null =>
  names.build.circuits.find(({ circuit }) => circuit.to.part === part)?.id ?? null;

function insertOffers(asking: Asking, said: Said): readonly AskOffer[] {
  const [, device = said.rest, where = ""] = /^(.*?)\s+(?:in|into)\s+(.*)$/i.exec(said.rest) ?? [];
  if (device === "") return [needs("insert a device", "`fuse`, `breaker 10 A` or `switch`", `${said.phrase} `)];
  return each(asking, where, isCircuit, "in which circuit?", said, ({ thing, rest }) => {
    const distance = rest.replace(/^(?:at\s+)?/i, "");
    return actOffer(`insert ${shown(device)} in ${shown(thing.name)}`, thing.more, {
      do: "insert-device",
      circuit: thing.about,
      text: device,
      ...(distance === "" ? {} : { distance }),
    });
  });
}

function turnOffers(asking: Asking, said: Said): readonly AskOffer[] {
  const [, what = said.rest, where] = /^(.*?)\s+in\s+(.*)$/i.exec(said.rest) ?? [];
  const named = where === undefined ? null : takeName(asking.names, where);
  const state = named?.thing.section === "states" ? named.thing.name : (asking.context.state ?? null);
  const ahead = /^(on|off|in|out)\s+(.*)$/i.exec(what);
  const behind = /^(.*?)\s+(?:to\s+)?(\S+)$/i.exec(what);
  const object =
    ahead?.[2] ?? (behind !== null && takeName(asking.names, what)?.rest !== "" ? (behind[1] ?? what) : what);
  const to = ahead?.[1] ?? (object === what ? undefined : behind?.[2]);
  return each(asking, object, isPart, "what?", said, ({ thing }) => {
    if (to === undefined) return needs(`turn ${shown(thing.name)}`, "`on`, `off` or a position", `turn ${thing.name} `);
    if (state === null) return told("no state is chosen", "choose a state, or add `in` and its name");
    const name = shown(thing.name);
    return actOffer(`turn ${name} ${shown(to.toLowerCase())} in ${shown(state)}`, thing.more, {
      do: "switch",
      about: thing.about,
      state,
      to: to.toLowerCase(),
    });
  });
}

function batteryOffers({ names, context }: Asking, { rest, phrase }: Said): readonly AskOffer[] {
  const [, figure = rest, where] = /^(?:at\s+|to\s+)?(.*?)(?:\s+in\s+(.*))?$/i.exec(rest) ?? [];
  const named = where === undefined ? null : takeName(names, where);
  const state = named?.thing.section === "states" ? named.thing.name : (context.state ?? null);
  const read = readQuantity(/%\s*$/.test(figure) ? figure : `${figure} %`, "ratio", { min: 0, max: 1 });
  if (!read.ok || read.amount.form === "unknown" || !/\d/.test(figure)) {
    return [needs("what if the battery stood at …", "type a charge, as in `20 %`", `${phrase} `)];
  }
  const battery = read.amount.low;
  const said = `${Number((100 * battery).toFixed(1))} %`;
  const own = state !== null && names.build.plan.states.some(({ key }) => key === state) ? state : null;
  return [
    {
      kind: "what-if",
      whatIf: { state: own, battery },
      says: `what if battery ${said}`,
      more: own ?? "at the worst moment",
    },
    ...(own === null
      ? []
      : [
          actOffer(`write battery ${said} into ${shown(own)}`, "", {
            do: "set-state-figure",
            state: own,
            figure: "battery",
            text: said,
          } as const),
        ]),
  ];
}

function engineOffers({ names, context }: Asking, rest: string): readonly AskOffer[] {
  const state = names.build.plan.states.find(({ key }) => key === context.state)?.key;
  const on = /^(?:on|running|runs|start(?:ed)?)$/i.test(rest);
  if (!on && !/^(?:off|stopped|stop)$/i.test(rest)) return [needs("what if the engine …", "`on` or `off`", "engine ")];
  if (state === undefined) return [told("no state is chosen", "choose a state in which the engine shall run or stand")];
  return [
    { kind: "what-if", whatIf: { state, engine: on }, says: `what if engine ${on ? "on" : "off"}`, more: state },
    actOffer(`write engine ${on ? "on" : "off"} into ${shown(state)}`, "", {
      do: "set-state-figure",
      state,
      figure: "engine",
      text: on ? "on" : "off",
    }),
  ];
}

function waiveOffer({ context, compiled }: Asking, rest: string): AskOffer {
  const { finding } = context;
  if (finding == null) return told("no finding is open", "open its note first");
  const title =
    compiled.judgement.findings.find((f) => f.rule === finding.rule && f.about === finding.about)?.title ??
    finding.rule;
  if (rest === "") return needs(`waive: ${title.toLowerCase()}`, "why may this stand? type the reason", "waive ");
  return actOffer(`waive: ${title.toLowerCase()}`, rest, { do: "waive", finding, reason: rest });
}

/** `set W13 length 6 m`, `set length of W13 to 6 m`. */
function setOffers(asking: Asking, { rest }: Said): readonly AskOffer[] {
  const [, field, of, value] = /^(.+?) of (.+?) to (.+)$/i.exec(rest) ?? [];
  const taken = takeName(asking.names, of ?? rest);
  if (field !== undefined && value !== undefined && taken !== null) return [setOffer(taken.thing, field, value)];
  const [, key, to] = /^(\S+)\s+(?:to\s+)?(.+)$/i.exec(taken?.rest ?? "") ?? [];
  if (taken !== null && key !== undefined && to !== undefined) return [setOffer(taken.thing, key, to)];
  return [needs("set a figure", "as in `set W13 length 6 m`", `set ${rest}`)];
}
