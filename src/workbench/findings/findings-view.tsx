import { useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import "./findings.css";
import type { Finding } from "../../rules/index.ts";
import type { Bench } from "../contract.ts";
import { notJudgedYet } from "../look/judged-words.ts";
import { StatusShape, statusOf } from "../look/status-shape.tsx";
import { notJudged } from "../schedules/circuits-table.ts";
import { keyFor } from "../settings/keys.ts";
import { mayAct } from "../settings/typing.ts";
import { useBench } from "../use-bench.ts";
import type { PagePlan } from "../worker/protocol.ts";
import { FindingItem } from "./finding-item.tsx";
import { countFindings, countPasses, isOpen, keyText, placeName, waiverText } from "./finding-words.ts";
import { groupFindings, groupings, groupingWords, type Grouping } from "./group-findings.ts";

/** So many are drawn at first; more when asked for. */
const AT_FIRST = 100;

/** What no rule looks at, whatever the plan. */
const NEVER_CHECKED =
  "Not checked at all: joints as made, the work as done, local law. No certificate: a licensed person decides.";

/** The audit: every finding in order of gravity, what passes, and what was not looked at. */
export function FindingsView({ bench }: { readonly bench: Bench }) {
  const { plan, openNote, working, broken } = useBench(bench);
  const [by, setBy] = useState<Grouping>("gravity");
  const [shown, setShown] = useState(AT_FIRST);
  const list = useRef<HTMLDivElement>(null);
  const groups = useMemo(() => (plan === null ? [] : groupFindings(plan.findings, by)), [plan, by]);
  const order = useMemo(() => groups.flatMap((g) => g.findings), [groups]);
  const now = openNote === null ? null : keyText(openNote);

  useLayoutEffect(() => {
    if (now === null) return;
    const item = [...(list.current?.querySelectorAll<HTMLElement>("[data-finding]") ?? [])].find(
      (el) => el.dataset["finding"] === now,
    );
    item?.focus({ preventScroll: true });
    item?.scrollIntoView({ block: "nearest" });
  }, [now]);

  const step = (event: KeyboardEvent): void => {
    const row = keyFor(event, "findings");
    const way = row?.does === "next-finding" ? 1 : row?.does === "previous-finding" ? -1 : 0;
    if (row === null || way === 0 || order.length === 0 || !mayAct(row, event.target)) return;
    event.preventDefault();
    // The list is walked in the order in which it stands here, which may be another than that of the sheet.
    event.stopPropagation();
    // As it is now, not as it was drawn: keys may come faster.
    const open = bench.state.openNote;
    const at = open === null ? -1 : order.findIndex((f) => keyText(f) === keyText(open));
    const place = at < 0 ? (way > 0 ? 0 : order.length - 1) : Math.max(0, Math.min(order.length - 1, at + way));
    const next = order[place];
    if (next === undefined) return;
    if (place >= shown) setShown(place + AT_FIRST);
    bench.openNote({ rule: next.rule, about: next.about });
  };

  if (plan === null)
    return (
      <section class="findings" aria-labelledby="findings-title">
        <h2 id="findings-title">Findings</h2>
        <p class="dim">{broken ?? "Reading the plan …"}</p>
      </section>
    );
  let left = shown;
  return (
    <section
      class={`findings${working ? " is-late" : ""}`}
      aria-labelledby="findings-title"
      aria-busy={working}
      onKeyDown={step}
      ref={list}
    >
      <header class="findings-head">
        <div>
          <h2 id="findings-title">Findings</h2>
          <p>
            {plan.judged === "yes" ? `${countFindings(plan.tally)}. ${countPasses(plan.tally)}.` : notJudgedYet(plan)}
            {working ? " Working …" : ""}
          </p>
        </div>
        <div class="findings-tools">
          <label>
            <span class="dim">In groups </span>
            <select
              class="field"
              value={by}
              onChange={(event) => {
                setBy(groupings.find((g) => g === event.currentTarget.value) ?? "gravity");
              }}
            >
              {groupings.map((g) => (
                <option key={g} value={g}>
                  {groupingWords[g]}
                </option>
              ))}
            </select>
          </label>
          <button
            type="button"
            class="link"
            onClick={() => {
              window.print();
            }}
          >
            Print the list
          </button>
        </div>
      </header>
      {order.length === 0 && plan.judged === "yes" ? (
        <p class="findings-empty">Nothing that was judged is found wanting. {countPasses(plan.tally)}.</p>
      ) : null}
      {groups.map((group) => {
        const findings = group.findings.slice(0, Math.max(0, left));
        left -= findings.length;
        return findings.length === 0 ? null : (
          <Group
            key={group.id}
            bench={bench}
            title={group.title}
            count={group.findings.length}
            findings={findings}
            now={now}
          />
        );
      })}
      {order.length > shown ? (
        <button
          type="button"
          class="button"
          onClick={() => {
            setShown(shown + AT_FIRST);
          }}
        >
          Show more: {order.length - shown} left
        </button>
      ) : null}
      <Waived bench={bench} findings={plan.findings} />
      <NotChecked plan={plan} />
      <p class="dim findings-keys">J and K step through the list.</p>
    </section>
  );
}

function Group({
  bench,
  title,
  count,
  findings,
  now,
}: {
  readonly bench: Bench;
  readonly title: string;
  readonly count: number;
  readonly findings: readonly Finding[];
  readonly now: string | null;
}) {
  const items = findings.map((finding) => (
    <FindingItem
      key={keyText(finding)}
      bench={bench}
      finding={finding}
      isNow={keyText(finding) === now}
      level={title === "" ? 3 : 4}
    />
  ));
  if (title === "") return <div class="findings-list">{items}</div>;
  return (
    <section class="findings-list">
      <h3>
        {title.charAt(0).toUpperCase() + title.slice(1)} <span class="dim">{count}</span>
      </h3>
      {items}
    </section>
  );
}

/** What somebody answers for; it stays in sight. */
function Waived({ bench, findings }: { readonly bench: Bench; readonly findings: readonly Finding[] }) {
  const { readOnly } = useBench(bench);
  const waived = findings.filter((f) => !isOpen(f));
  if (waived.length === 0) return null;
  return (
    <section class="findings-waived" aria-labelledby="findings-waived">
      <h3 id="findings-waived">
        Waived <span class="dim">{waived.length}</span>
      </h3>
      <ul>
        {waived.map((f) => (
          <li key={keyText(f)}>
            <StatusShape status={statusOf(f)} label="waived" size={16} />
            <span>
              <b>
                {f.title}: {placeName(f.about)}
              </b>
              <br />
              {waiverText(f)}
            </span>
            {readOnly ? null : (
              <button
                type="button"
                class="link"
                onClick={() => {
                  void bench.act({ do: "unwaive", finding: { rule: f.rule, about: f.about } });
                }}
              >
                Take the waiver back<span class="unseen">: {f.title}</span>
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

function NotChecked({ plan }: { readonly plan: PagePlan }) {
  const judged = notJudged(plan);
  return (
    <footer class="findings-foot">
      <p>
        {plan.judged === "yes" ? `${countPasses(plan.tally)}. ` : ""}
        {judged === "" ? "" : `${judged} `}
        {NEVER_CHECKED}
      </p>
    </footer>
  );
}
