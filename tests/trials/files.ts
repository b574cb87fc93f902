// Lets broken recordings fall on the page, one after the other: each is opened, asked about or explained, the page never stands
// still, and the job beside them stays as it was.
//
// npm run trial:files -- 300

import { readFileSync } from "node:fs";
import { gzipSync, strToU8 } from "fflate";
import type { Page } from "playwright";
import { hostile, seeds } from "../capture/hostile.ts";
import { startStaticServer } from "../e2e/static-server.ts";
import { dropFiles } from "../e2e/steps.ts";
import { newProfile, startBrowser } from "./browser.ts";
import { bundleOf } from "./kill-works.ts";
import { outcomeOf, watchThread } from "./outcome.ts";
import { lookInto } from "./stored.ts";
import { built, type Part } from "./table.ts";

/** After so many files a new job is begun. */
const filesOfJob = 15;

interface HostileFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** @param count  so many broken ones; those written by hand come first. */
export async function files(count: number, from: number, until = Number.POSITIVE_INFINITY): Promise<Part> {
  const server = await startStaticServer(built);
  const profile = newProfile();
  const running = await startBrowser(profile.folder, server.address, watchThread);
  const ends = new Map<string, number>();
  const wrong: string[] = [];
  try {
    const { page, noise } = running;
    await page.goto(server.address);
    await bundleOf(page, { notes: new Map(), recordings: new Map(), exhibits: new Map() });
    const before = await lookInto(page);
    for (const [i, file] of hostileFiles(count, from).entries()) {
      if (i > 0 && Date.now() > until) break;
      if (i % filesOfJob === 0) await beginJob(page);
      const seen = await dropped(page, file);
      const faults = [...noise.splice(0).map((text) => `console: ${text.slice(0, 200)}`), ...seen.hangs];
      ends.set(seen.end, (ends.get(seen.end) ?? 0) + 1);
      wrong.push(...faults.map((fault) => `${file.name}: ${fault}`));
      process.stderr.write(
        `${file.name}: ${seen.end} ${seen.said.slice(0, 90)}${faults.length > 0 ? `  WRONG ${faults}` : ""}\n`,
      );
    }
    const after = await lookInto(page);
    const kept = JSON.stringify(before.jobs[0]);
    if (!after.jobs.some((job) => JSON.stringify(job) === kept)) wrong.push("the job beside them was changed");
    const folder = before.folders[0];
    if (after.folders.find(({ id }) => id === folder?.id)?.named !== folder?.named)
      wrong.push("its recording was changed");
  } finally {
    await running.kill();
    profile.remove();
    await server.stop();
  }
  const all = [...ends.values()].reduce((sum, one) => sum + one, 0);
  return {
    name: "Hostile files",
    about: `${all} broken recordings dropped on the page beside a job that is kept. \`npm run trial:files -- 300\``,
    columns: ["what became of them", "files"],
    rows: [
      ...[...ends].sort(),
      ["page stood still, no way to cancel, word on the console, job changed", wrong.join("; ") || 0],
    ],
    isGood: wrong.length === 0,
  };
}

async function dropped(page: Page, { name, bytes }: HostileFile) {
  const seen = await outcomeOf(page, () => dropFiles(page, [{ name, bytes: Buffer.from(bytes) }]), {
    isOpened: async () =>
      (await page
        .getByRole("status")
        .filter({ hasText: `${name} is open` })
        .count()) > 0,
  });
  const end = seen.isAsked ? "asked about" : seen.isOpened ? "opened" : seen.said ? "explained" : "nothing";
  return { ...seen, end };
}

async function beginJob(page: Page): Promise<void> {
  for (const role of ["dialog"] as const)
    if (await page.getByRole(role).first().isVisible()) await page.keyboard.press("Escape");
  const more = page.getByRole("button", { name: "More", exact: true });
  if (!(await more.isVisible())) return; // an empty bench is one already
  await more.click();
  await page.getByRole("button", { name: "New job" }).click();
  await page.getByRole("heading", { name: "Is it really the catalyst?" }).waitFor();
}

function hostileFiles(count: number, from: number): readonly HostileFile[] {
  const whole = seeds(new Uint8Array(readFileSync(new URL("../golden/capture/log.parquet", import.meta.url))));
  const broken = Array.from({ length: count }, (_, i) => ({
    name: `broken-${from + i}.csv`,
    bytes: hostile(from + i, whole),
  }));
  return [...byHand(), ...broken].slice(0, count);
}

function byHand(): readonly HostileFile[] {
  const head = "Time (s),Front O2 B1S1 (V),Rear O2 B1S2 (V)\n";
  const text = (name: string, content: string) => ({ name, bytes: strToU8(content) });
  const rows = (many: number, row: (i: number) => string) => Array.from({ length: many }, (_, i) => row(i)).join("\n");
  return [
    text("nothing.csv", ""),
    text("line-ends.csv", "\n".repeat(1e7)),
    text("stamps-beyond.csv", `${head}-1e308,0.4,0.5\n0,0.1,0.2\n1e308,0.8,0.6\n`),
    text(
      "wide.csv",
      `Time,${rows(1_999, (i) => `c${i}`).replaceAll("\n", ",")}\n${rows(300, (i) => `${i},${"0.5,".repeat(1_998)}1`)}\n`,
    ),
    text("one-line.csv", "0,".repeat(1e6)),
    text("quote.csv", `${head}"${"0,1,2\n".repeat(3e5)}`),
    text(
      "formula.csv",
      `=cmd|'/c calc'!A1,"=1+1",<script>window.ran=1</script>\n${rows(200, (i) => `${i / 10},0.${i % 9},0.5`)}\n`,
    ),
    text(
      "constructor.csv",
      `Time (s),constructor [__proto__],toString [constructor]\n${rows(200, (i) => `${i / 10},0.${i % 9},0.5`)}\n`,
    ),
    { name: "bomb.csv.gz", bytes: gzipSync(new Uint8Array(300e6).fill(48)) },
    { name: "zeros.bin", bytes: new Uint8Array(2e6) },
    text("no-rise.csv", `${head}${rows(100_000, () => "1,0.4,0.5")}\n`),
    text("letters.csv", "\u202e\ufeff\ud83d\ude80\u0000".repeat(2e5)),
  ];
}
