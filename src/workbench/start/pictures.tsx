import type { ComponentChildren } from "preact";

/** The three examples as line drawings: what it is in ink, its wiring in the accent. Nothing in them is to scale. */
function Picture({ children }: { readonly children: ComponentChildren }) {
  return (
    <svg
      class="start-picture"
      viewBox="0 0 160 120"
      fill="none"
      stroke="var(--ink)"
      stroke-width="1.4"
      stroke-linejoin="round"
      stroke-linecap="round"
      aria-hidden="true"
    >
      {children}
    </svg>
  );
}

const wire = { stroke: "var(--focus)", "stroke-width": "2" } as const;
const box = { ...wire, fill: "var(--paper)" } as const;

export function SloopPicture() {
  return (
    <Picture>
      <path d="M84 8V74M84 12 150 78M84 14 16 80" stroke-width="1" />
      <path d="M80 70 38 68 80 18z" />
      <path d="M10 80 152 76C150 90 142 99 126 102H44C24 102 14 94 10 80z" fill="var(--paper)" />
      <path d="M46 79l6-8h48l12 6" />
      <path d="M72 102v12h24v-12M30 101v12h8v-11" />
      <path d="M2 92h156" stroke="var(--frame)" stroke-dasharray="7 3 1 3" stroke-width="0.9" />
      <path d="M62 94h62l14-9M84 94V76M112 94v-9" {...wire} />
      <rect x="52" y="88" width="13" height="9" {...box} />
    </Picture>
  );
}

export function VanPicture() {
  return (
    <Picture>
      <path d="M10 98V36q0-7 7-7h88q8 0 13 8l13 22 17 6q6 2 6 10v23z" fill="var(--paper)" />
      <path d="M102 38v24h29L118 41q-2-3-6-3z" />
      <path d="M24 38h34v18H24z" />
      <path d="M22 24h62" stroke-width="3.4" />
      <circle cx="40" cy="99" r="12" fill="var(--paper)" />
      <circle cx="126" cy="99" r="12" fill="var(--paper)" />
      <circle cx="40" cy="99" r="4" />
      <circle cx="126" cy="99" r="4" />
      <path d="M66 82h26V46M66 66h26M72 46h20M54 29V24" {...wire} />
      <rect x="56" y="76" width="14" height="11" {...box} />
    </Picture>
  );
}

export function HutPicture() {
  return (
    <Picture>
      <path d="M4 108 30 84l14 10 22-28" stroke="var(--frame)" stroke-width="0.9" />
      <path d="M34 108V60h92v48z" fill="var(--paper)" />
      <path d="M24 66 80 20l56 46" />
      <path d="M100 30 128 53" stroke-width="3.6" />
      <path d="M106 32v-14h9v21" />
      <path d="M68 108V82h20v26" />
      <path d="M2 108h156" />
      <path d="M52 92V72h58v22M80 72V52M118 44v8l-8 8v12" {...wire} />
      <rect x="45" y="90" width="14" height="10" {...box} />
    </Picture>
  );
}
