import { coordinate, type PairInSeries } from "../coordinate/index.ts";
import { printCitation } from "../explain/index.ts";
import type { Built, CircuitAt } from "./built.ts";
import type { Explanation, WorkedFigure, WorkedSection, WorkedStep } from "./explanation.ts";
import { emptyExplanation, finish } from "./finish.ts";
import { ofCircuit, type Thing } from "./leans-on.ts";
import { withUnit } from "./print-number.ts";
import { deviceAt } from "./why-fault.ts";
import { figure, taken } from "./work.ts";

const ampsText = (x: number): string => withUnit(x, "A", 3);

/** Which of the devices of a circuit and those around it open: each pair with its range, its limit and why. */
export function explainSelectivity(built: Built, { circuit }: CircuitAt): Explanation {
  const { pairs, devices, feeders, faults } = coordinate(built.settled);
  const subject = `${circuit.id}.selectivity`;
  const question = `Which device opens for a short in ${circuit.id}?`;
  const nameOf = (device: number): string => (devices[device] === undefined ? "?" : deviceAt(devices[device]));
  const isOwn = (device: number): boolean => devices[device]?.circuit === circuit.id;
  // Those ahead of it first: they are what a short in it may open.
  const own = [
    ...pairs.filter((p) => isOwn(p.downstream)),
    ...pairs.filter((p) => isOwn(p.upstream) && !isOwn(p.downstream)),
  ];
  const sections = own.map((pair) => pairSection(pair, nameOf));
  const figures: WorkedFigure[] = own.map((pair) =>
    figure(
      `${nameOf(pair.downstream)} before ${nameOf(pair.upstream)}`,
      pair.judgement.upTo ?? pair.judgement.verdict,
      pair.judgement.upTo === null ? "" : "A",
      ampsText,
    ),
  );
  const feeder = feeders.filter((f) => isOwn(f.device));
  for (const f of feeder) {
    sections.push({
      title: `What ${nameOf(f.device)} feeds`,
      says: `behind it ${f.branches.map(nameOf).join(", ")}; the sum of their ratings is no measure of what it carries`,
      steps: [
        taken("its rating", f.rating, "A", ""),
        ...(f.demand === null
          ? []
          : [
              taken(
                "greatest steady current, all that can run together",
                f.demand,
                "A",
                `\`why PLAN ${circuit.id}.current\``,
              ),
            ]),
        taken("ratings of its branches together", f.branchRatings, "A", ""),
      ],
      way: [],
    });
  }
  const dark = faults
    .filter((f) => f.circuit === circuit.id)
    .map((f) => {
      const first = f.whole[0];
      const opens = first === undefined ? "no device parts it from every battery" : `${nameOf(first)} is to open`;
      return `${f.conductor} at its ${f.end} end: ${opens}; dark: ${f.dark.join(", ") || "nothing"}${f.mayBeDark.length === 0 ? "" : `; and, if ${f.mayOpen.map(nameOf).join(" or ")} opens too, ${f.mayBeDark.join(", ")}`}`;
    });
  if (dark.length > 0)
    sections.push({ title: "What a short leaves dark", says: [...new Set(dark)].join(". "), steps: [], way: [] });
  const ahead = own.filter((p) => isOwn(p.downstream));
  const bad = ahead.filter((p) => p.judgement.verdict !== "selective");
  const answer =
    ahead.length === 0
      ? devices.some((d) => d.circuit === circuit.id)
        ? `Nothing stands in series ahead of the device of ${circuit.id}, so it alone opens.`
        : circuit.current === "AC"
          ? `Which device opens first is studied of direct current alone; \`${circuit.id}.loop\` tells what opens at an earth fault.`
          : `${circuit.id} has no device of its own: what opens is the nearest ahead of it.`
      : bad.length === 0
        ? `The device of ${circuit.id} alone opens, at every current that can flow.`
        : `For a short in ${circuit.id} its own device is to open, and it is not shown that ${bad.map((p) => nameOf(p.upstream)).join(", ")} ${bad.length === 1 ? "stays" : "stay"} closed: ${bad
            .map((p) => verdictSays(p))
            .filter((says, i, all) => all.indexOf(says) === i)
            .join("; ")}.`;
  const things: Thing[] = [
    circuit.id,
    ...new Set(
      own.flatMap((p) => [devices[p.upstream]?.circuit, devices[p.downstream]?.circuit]).flatMap((id) => id ?? []),
    ),
  ].map(ofCircuit);
  return finish(
    built,
    {
      ...emptyExplanation(subject, question, answer),
      figures,
      sections,
      cautions: ["A tested table of the maker for the very pair is worth more than what is published of its families."],
      further: [`${circuit.id}.fault`, `${circuit.id}.device`],
    },
    things.filter((one, i) => things.findIndex((x) => x.name === one.name) === i),
  );
}

const verdictSays = ({ judgement: { verdict, upTo } }: Pick<PairInSeries, "judgement">): string =>
  verdict === "selective up to" ? `selective up to ${ampsText(upTo ?? 0)}` : verdict;

function pairSection(
  { upstream, downstream, greatest, at, upstreamShare, judgement, lostToo }: PairInSeries,
  nameOf: (device: number) => string,
): WorkedSection {
  const { because, missing, upTo, method, sources, trust } = judgement;
  const cited = sources.map(printCitation).join("; ");
  const steps: WorkedStep[] = [
    taken(`greatest through ${nameOf(downstream)}, a short in ${at}`, greatest, "A", "the fault study", "derived"),
    ...(upTo === null
      ? []
      : [taken("selective up to", upTo, "A", `${method}${cited === "" ? "" : `: ${cited}`}`, trust)]),
    ...(upstreamShare < 1 - 1e-6
      ? [
          taken(
            `share of it that ${nameOf(upstream)} carries; judged as if it were all`,
            upstreamShare,
            "",
            "the fault study",
            "derived",
          ),
        ]
      : []),
  ];
  return {
    title: `${nameOf(downstream)} before ${nameOf(upstream)}: ${verdictSays({ judgement })}`,
    says: [
      because,
      missing === null ? "" : `missing: ${missing}`,
      lostToo.length === 0 ? "" : `dark for nothing if both open: ${lostToo.join(", ")}`,
    ]
      .filter((s) => s !== "")
      .join("; "),
    steps,
    way: [],
  };
}
