import { spawnSync } from "node:child_process";

/**
 * The whole test run. It needs one program beyond npm, the circuit simulator `ngspice`, as an independent second opinion
 * on the network solution; where it is missing it is installed from Debian, and where that fails the run says so and stops.
 */
const isThere = (program: string) => spawnSync("sh", ["-c", `command -v ${program}`]).status === 0;

if (!isThere("ngspice")) {
  console.log("ngspice is not on this machine; installing Debian's package (needs root)");
  const install = spawnSync(
    "sh",
    ["-c", "apt-get update -qq && apt-get install -y -qq --no-install-recommends ngspice"],
    { stdio: "inherit", env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" } },
  );
  if (install.status !== 0 || !isThere("ngspice")) {
    console.error("ngspice could not be installed: run `apt-get install ngspice` as root, then `npm test` again");
    process.exit(1);
  }
}

const run = spawnSync("npx", ["vitest", "run", ...process.argv.slice(2)], {
  stdio: "inherit",
  env: { ...process.env, WW_REPORTER: "plain" },
});
process.exit(run.status ?? 1);
