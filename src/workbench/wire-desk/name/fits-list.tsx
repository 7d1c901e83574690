import { isVerified, printTrust } from "../../../explain/trust.ts";
import type { ShownFit } from "../../../act/wire-card/index.ts";
import type { Units } from "../../contract.ts";
import { inSentence } from "../../look/print-in-units.ts";

/** How thick it is, how it bends, and what goes on the wire and round it. */
export function FitsList({ fits, units }: { readonly fits: readonly ShownFit[]; readonly units: Units }) {
  if (fits.length === 0) return null;
  return (
    <section class="name-part" aria-label="What fits it">
      <h3>What fits it</h3>
      <dl class="desk-rows name-fits">
        {[...new Set(fits.map(({ what }) => what))].map((what) => (
          <div key={what} class="desk-row">
            <dt>{what}</dt>
            {fits
              .filter((fit) => fit.what === what)
              .map(({ says, trust, source }) => (
                <dd key={says}>
                  {inSentence(says, units)}
                  {(source !== "" || !isVerified(trust)) && (
                    <span class="name-under dim">
                      {[source, isVerified(trust) ? "" : printTrust(trust)].filter((text) => text !== "").join(", ")}
                    </span>
                  )}
                </dd>
              ))}
          </div>
        ))}
      </dl>
    </section>
  );
}
