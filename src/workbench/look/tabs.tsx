import "./tabs.css";

/** Tabs over one panel: one stop for Tab, arrows go from one to the next. The panel's id is `NAME-panel`, its label `NAME-tab-ID`. */
export function Tabs<T extends string>({
  name,
  ids,
  titles,
  which,
  onChoose,
}: {
  /** Before the ids of its elements; `NAME-title` is what names the list. */
  readonly name: string;
  readonly ids: readonly T[];
  readonly titles: Readonly<Record<T, string>>;
  readonly which: T;
  readonly onChoose: (id: T) => void;
}) {
  const step = (event: KeyboardEvent & { readonly currentTarget: HTMLElement }): void => {
    const by = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
    if (by === 0) return;
    event.preventDefault();
    event.stopPropagation();
    const next = ids.at((ids.indexOf(which) + by) % ids.length);
    if (next === undefined) return;
    onChoose(next);
    event.currentTarget.querySelector<HTMLElement>(`#${name}-tab-${next}`)?.focus();
  };
  return (
    <div class="tabs" role="tablist" aria-labelledby={`${name}-title`} onKeyDown={step}>
      {ids.map((id) => (
        <button
          key={id}
          type="button"
          role="tab"
          id={`${name}-tab-${id}`}
          aria-selected={id === which}
          aria-controls={`${name}-panel`}
          tabIndex={id === which ? 0 : -1}
          onClick={() => {
            onChoose(id);
          }}
        >
          {titles[id]}
        </button>
      ))}
    </div>
  );
}
