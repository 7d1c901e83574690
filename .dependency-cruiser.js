import { doors, layers } from "./tools/layers.js";

const any = (names) => `^src/(${names.join("|")})/`;
const rules = layers.flatMap((folder, i) => {
  const later = layers.slice(i + 1);
  return [
    {
      name: `${folder}-imports-a-later-stage`,
      severity: "error",
      from: { path: any([folder]), pathNot: "\\.test\\.ts$" },
      to: { path: `${later.length > 0 ? `${any(later)}|` : ""}${any(doors)}|^src/(compile|compute|judge|index)\\.ts$` },
    },
  ];
});

export default {
  forbidden: [
    ...rules,
    ...doors.map((door) => ({
      name: `${door}-imports-another-door`,
      severity: "error",
      from: { path: any([door]) },
      to: { path: any(doors.filter((d) => d !== door).concat("no-such-door")) },
    })),
    { name: "no-cycles", severity: "error", from: {}, to: { circular: true } },
    {
      name: "core-knows-no-host",
      comment: "only the doors may touch node or the page",
      severity: "error",
      from: { path: "^src/", pathNot: `${any(doors)}|\\.test\\.ts$` },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "diagnostic-imports-nothing",
      severity: "error",
      from: { path: "^src/diagnostic\\.ts$" },
      to: { path: "^src/" },
    },
    {
      name: "only-declared-dependencies",
      severity: "error",
      comment:
        "the parser, the writer of PDF, and what the page is made of are bundled into what is published, so they are no dependency of whoever installs it",
      from: { path: "^src/" },
      to: {
        dependencyTypes: ["npm-dev", "npm-no-pkg", "npm-unknown", "unknown"],
        pathNot: "^(node_modules/(yaml|@types/node|preact|@codemirror|@lezer)/|pdfkit$)",
      },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    exclude: { path: "\\.test\\.ts$" },
  },
};
