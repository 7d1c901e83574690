import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";

/** One of the three ways in; its number is its key. */
export function Card({
  number,
  title,
  says,
  children,
}: {
  readonly number: 1 | 2 | 3;
  readonly title: string;
  readonly says: string;
  readonly children: ComponentChildren;
}) {
  const id = useId();
  return (
    <section class={`start-card start-card-${number}`} aria-labelledby={id}>
      <span class="start-number" aria-hidden="true">
        {number}
      </span>
      <h2 id={id} tabIndex={-1} data-card={number}>
        {title}
      </h2>
      <p class="dim">{says}</p>
      {children}
    </section>
  );
}
