// The page and the command line are one engine: the same file gives the same numbers.

import { execFileSync } from "node:child_process";
import { expect, test } from "vitest";
import { root } from "../../src/command/setup.mjs";
import type { Analysis, Sensor } from "../../src/exhaust/terms/analysis.ts";
import { formatReading } from "../../src/signal/written/reading-text.ts";
import { leave, useBrowser } from "./page.ts";
import { liftOffs, openFile, samplePath } from "./steps.ts";

const browser = useBrowser();
const words: Readonly<Partial<Record<keyof Sensor, string>>> = {
  frequency: "Switching",
  amplitude: "Swing",
  richToLean: "Rich to lean",
  leanToRich: "Lean to rich",
  crossings: "Crossings of 0.45 V",
  richShare: "Rich share",
  minimum: "Minimum",
  maximum: "Maximum",
  mean: "Mean",
};

test.each(["good-catalyst-scope.csv.gz", "dead-catalyst-scope.csv.gz", "good-catalyst-polled.csv"])(
  "measure --json on %s says what the page shows",
  async (file) => {
    const json = execFileSync("npm", ["run", "--silent", "measure", "--", samplePath(file), "--json"], {
      cwd: root,
      encoding: "utf8",
      maxBuffer: 1 << 27,
    });
    const { sensors, liftOffs: events } = JSON.parse(json) as Analysis;
    const visit = await browser.visit();
    await openFile(visit.page, samplePath(file));
    const shown = await liftOffs(visit.page, events.length);
    for (const [i, button] of shown.entries()) {
      expect(await button.getAttribute("aria-label")).toContain(formatReading(events[i]!.delay).value);
    }
    const panel = visit.page.getByRole("region", { name: "Readings" });
    for (const [side, sensor] of [["Front", sensors.front!] as const, ["Rear", sensors.rear!] as const]) {
      for (const [name, word] of Object.entries(words)) {
        const { value } = formatReading(sensor[name as keyof Sensor]);
        const button = panel.getByRole("button", { name: new RegExp(`^${side}, ${word}: `) });
        await button.waitFor();
        expect(await button.getAttribute("aria-label")).toContain(value);
      }
    }
    await leave(visit);
  },
);
