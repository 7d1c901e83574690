import type { FaultsAnswer } from "../worker/fault-answers.ts";

/** How batteries that are joined share what is asked of them. */
export function BanksPanel({ banks }: Pick<FaultsAnswer, "banks">) {
  if (banks.length === 0) return <p>No bank: no two batteries are joined plus to plus.</p>;
  return (
    <>
      <div class="faults-banks">
        {banks.map(({ units, drawing }) => (
          <div
            key={units.join(" ")}
            class="faults-bank"
            // Our own drawing: what it writes is escaped there.
            dangerouslySetInnerHTML={{ __html: drawing.svg }}
          />
        ))}
      </div>
      <p class="dim faults-note">
        The unit with the least resistance on its way gives most, works hardest and ages first. What a management does
        is left out.
      </p>
    </>
  );
}
