import { spawnSync } from "node:child_process";

/**
 * The whole test run. It needs a few programs beyond npm, as independent second opinions; those that are missing are installed from Debian,
 * and where that fails the run says so and stops.
 */
const programs: readonly { readonly name: string; readonly of: string }[] = [
  // A circuit simulator: the solution of the network.
  { name: "ngspice", of: "ngspice" },
  // Readers and renderers of SVG and PDF: the drawings.
  { name: "xmllint", of: "libxml2-utils" },
  { name: "rsvg-convert", of: "librsvg2-bin" },
  { name: "pdftotext", of: "poppler-utils" },
  // The browser that the tests of the page drive, unless another is named.
  ...(process.env["WIREWORTHY_CHROMIUM"] === undefined ? [{ name: "chromium", of: "chromium" }] : []),
];
const isThere = (program: string) => spawnSync("sh", ["-c", `command -v ${program}`]).status === 0;
const missing = () => programs.filter(({ name }) => !isThere(name));

const wanted = missing().map(({ of }) => of);
if (wanted.length > 0) {
  const packages = wanted.join(" ");
  console.log(`not on this machine: ${packages}; installing Debian's packages (needs root)`);
  spawnSync("sh", ["-c", `apt-get update -qq && apt-get install -y -qq --no-install-recommends ${packages}`], {
    stdio: "inherit",
    env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
  });
  const still = missing().map(({ of }) => of);
  if (still.length > 0) {
    console.error(`run \`apt-get install ${still.join(" ")}\` as root, then \`npm test\` again`);
    process.exit(1);
  }
}

const run = spawnSync("npx", ["vitest", "run", ...process.argv.slice(2)], {
  stdio: "inherit",
  env: { ...process.env, WW_REPORTER: "plain" },
});
process.exit(run.status ?? 1);
