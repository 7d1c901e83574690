import type { Bench } from "../contract.ts";
import { Card } from "./card.tsx";
import { HutPicture, SloopPicture, VanPicture } from "./pictures.tsx";

const examples = [
  { id: "sloop", name: "Coastal sloop", says: "12 V, shore 230 V", picture: SloopPicture },
  {
    id: "van",
    name: "Expedition van",
    says: "12 V, shore 120 V",
    picture: VanPicture,
  },
  { id: "hut", name: "Alpine hut", says: "48 V, 120/240 V", picture: HutPicture },
] as const;

/** Whole builds to look into. */
export function OpenExample({ bench }: { readonly bench: Bench }) {
  return (
    <Card number={2} title="Open an example" says="Invented, complete, yours to change.">
      <ul class="start-examples">
        {examples.map(({ id, name, says, picture: Picture }) => (
          <li key={id}>
            <button
              type="button"
              class="start-example"
              onClick={() => {
                void bench.openExample(id);
              }}
            >
              <Picture />
              <b>{name}</b>
              <span class="dim">{says}</span>
            </button>
          </li>
        ))}
      </ul>
      <div class="start-deeds">
        <button
          type="button"
          class="button main"
          onClick={() => {
            void bench.openExample("sloop");
          }}
        >
          Open the sloop
        </button>
        <button
          type="button"
          class="link"
          onClick={() => {
            void bench.openExample("sloop-us");
          }}
        >
          by US rules
        </button>
        <button
          type="button"
          class="link"
          onClick={() => {
            void bench.openExample("sloop-audit");
          }}
        >
          as found, to be checked
        </button>
      </div>
    </Card>
  );
}
