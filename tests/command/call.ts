// Calls a command as its npm script does; npm itself, which takes longer to start than a command, once for each.

import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { root } from "../../src/command/setup.mjs";

/** @param from  where the user stands. */
export function call(
  command: "measure" | "compare" | "survey",
  words: readonly string[],
  from: string,
  isByNpm = false,
) {
  const options = { cwd: from, encoding: "utf8", env: { ...process.env, INIT_CWD: from } } as const;
  const { status, stdout, stderr } = isByNpm
    ? spawnSync("npm", ["run", "--silent", "--prefix", root, command, "--", ...words], options)
    : spawnSync(process.execPath, [join(root, "src/command/built.mjs"), command, ...words], options);
  return { status, stdout, stderr };
}
