import type { AskOffer } from "../../act/index.ts";
import type { Grouped, OfferGroup } from "./offer-groups.ts";

const names: Readonly<Record<OfferGroup, string>> = { find: "Find", do: "Do", ask: "Ask" };

/** What is offered, by group; the field keeps the focus and points at one of them. */
export function OfferList({
  id,
  groups,
  active,
  shown,
  says,
  onTake,
  onPoint,
}: {
  readonly id: string;
  readonly groups: readonly Grouped[];
  readonly active: number;
  readonly shown: boolean;
  /** What came of the last try; empty: nothing to tell. */
  readonly says: string;
  readonly onTake: (offer: AskOffer) => void;
  readonly onPoint: (index: number) => void;
}) {
  return (
    <div class="ask-drop" hidden={!shown}>
      {says !== "" && <p class="ask-says">{says}</p>}
      {groups.length === 0 && says === "" && (
        <p class="ask-says dim">
          Nothing is called that. A part or circuit goes there, a verb does it, a load with its unit or a label of wire
          asks the wire desk.
        </p>
      )}
      <div id={`${id}-list`} role="listbox" aria-label="Offers">
        {groups.map(({ group, offers }) => (
          <div key={group} role="group" aria-labelledby={`${id}-${group}`} class="ask-group">
            <div id={`${id}-${group}`} role="presentation" class="ask-group-name dim">
              {names[group]}
            </div>
            {offers.map(({ offer, index }) => (
              <div
                key={index}
                id={`${id}-${index}`}
                role="option"
                aria-selected={index === active}
                class={`ask-offer${index === active ? " ask-active" : ""}`}
                onPointerMove={() => {
                  if (index !== active) onPoint(index);
                }}
                // The field keeps the focus.
                onMouseDown={(event) => {
                  event.preventDefault();
                }}
                onClick={() => {
                  onTake(offer);
                }}
              >
                <span class="ask-offer-says">{offer.says}</span>
                {offer.more !== "" && <span class="dim ask-offer-more">{offer.more}</span>}
                {offer.kind === "needs" && <span class="dim ask-offer-more">… {offer.needs}</span>}
                {offer.kind === "told" && (
                  <span class="dim ask-offer-more">
                    {offer.message}; {offer.hint}
                  </span>
                )}
              </div>
            ))}
          </div>
        ))}
      </div>
    </div>
  );
}
