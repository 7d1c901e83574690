import { useEffect, useRef } from "preact/hooks";
import type { ShownDrawing } from "../../../act/wire-card/index.ts";

/** The size ladder; each rung is a size that can be read by a click, or with the arrow keys and Enter. */
export function LadderView({
  ladder,
  onRead,
}: {
  readonly ladder: ShownDrawing;
  readonly onRead: (rung: string) => void;
}) {
  const host = useRef<HTMLDivElement>(null);
  const read = useRef(onRead);
  read.current = onRead;
  useEffect(() => {
    const node = host.current;
    if (node === null) return undefined;
    return walkRungs(node, (rung) => {
      read.current(rung);
    });
  }, [ladder.svg]);
  return (
    <div
      ref={host}
      class="name-ladder-drawn"
      role="group"
      aria-label={`${ladder.says} Arrows walk the sizes, Enter reads one.`}
      // Our own drawing: what it writes is escaped there.
      dangerouslySetInnerHTML={{ __html: ladder.svg }}
    />
  );
}

/** A rung with what it is called in the drawing: `AWG/12`. */
interface Rung {
  readonly node: SVGElement;
  readonly path: string;
  readonly system: string;
}

/** One tab stop for all rungs: up and down stay in a system, left and right go across at the same height. @returns what stops it */
function walkRungs(host: HTMLElement, read: (rung: string) => void): () => void {
  const rungs: readonly Rung[] = [...host.querySelectorAll<SVGElement>("g[data-path]")].map((node) => {
    const path = node.dataset.path ?? "";
    return { node, path, system: path.slice(0, path.indexOf("/")) };
  });
  for (const { node } of rungs) {
    node.setAttribute("role", "button");
    node.setAttribute("tabindex", "-1");
    node.setAttribute("aria-label", `read ${node.querySelector("title")?.textContent ?? ""}`);
  }
  let at = rungs.find(({ node }) => node.dataset.role === "mark") ?? rungs[0];
  at?.node.setAttribute("tabindex", "0");
  const height = ({ node }: Rung): number => node.getBoundingClientRect().top;
  const go = (to: Rung | undefined): void => {
    if (to === undefined) return;
    at?.node.setAttribute("tabindex", "-1");
    to.node.setAttribute("tabindex", "0");
    to.node.focus();
    at = to;
  };
  const systems = [...new Set(rungs.map(({ system }) => system))];
  const rungOf = (target: EventTarget | null): Rung | undefined =>
    target instanceof Element ? rungs.find(({ node }) => node.contains(target)) : undefined;
  const press = (event: KeyboardEvent): void => {
    const now = rungOf(event.target);
    if (now === undefined || event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key === "Enter" || event.key === " ") read(now.path);
    else if (event.key === "ArrowUp" || event.key === "ArrowDown") {
      const own = rungs.filter(({ system }) => system === now.system).sort((a, b) => height(a) - height(b));
      go(own[own.indexOf(now) + (event.key === "ArrowUp" ? -1 : 1)]);
    } else if (event.key === "ArrowLeft" || event.key === "ArrowRight") {
      const other = systems[systems.indexOf(now.system) + (event.key === "ArrowLeft" ? -1 : 1)];
      const near = rungs
        .filter(({ system }) => system === other)
        .sort((a, b) => Math.abs(height(a) - height(now)) - Math.abs(height(b) - height(now)));
      go(near[0]);
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const click = (event: MouseEvent): void => {
    const found = rungOf(event.target);
    if (found !== undefined) read(found.path);
  };
  host.addEventListener("keydown", press);
  host.addEventListener("click", click);
  return () => {
    host.removeEventListener("keydown", press);
    host.removeEventListener("click", click);
  };
}
