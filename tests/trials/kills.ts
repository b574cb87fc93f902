// Kills the whole browser at random moments of the work, starts it again, and counts what was lost, what passes for whole
// and is not, and what nobody refers to after the sweep.
//
// npm run trial:kills -- 200 [MINUTES [more]]     "more": added to those that stand in the table

import { randomFrom } from "../capture/hostile.ts";
import { startStaticServer } from "../e2e/static-server.ts";
import { newProfile, type Running, startBrowser } from "./browser.ts";
import { bundleOf, type Made, type Work, works } from "./kill-works.ts";
import { isWhole, lookInto, orphansIn, passesForWhole, type Stored } from "./stored.ts";
import { built, type Part, rowsOf } from "./table.ts";

const part = "Kills";

/** After so many kills a new profile is taken. */
const killsOfProfile = 12;

export interface Tally {
  kills: number;
  confirmed: number;
  lost: number;
  half: number;
  orphaned: number;
  readonly told: string[];
}

/** The waits of the program's own sweep, 5 and 60 s, pass twenty times as fast; no others, or slow workers are taken for dead. */
function hurrySweep(): void {
  const real = window.setTimeout;
  window.setTimeout = ((work: () => void, ms = 0, ...words: unknown[]) =>
    real(work, ms === 5_000 || ms === 60_000 ? ms / 20 : ms, ...words)) as typeof setTimeout;
}

/**
 * @param until   no kill is begun after this moment, ms since 1970.
 * @param onPart  hears after each profile what has been found so far.
 */
export async function kills(
  count: number,
  from: number,
  until = Number.POSITIVE_INFINITY,
  { isMore = false, onPart = () => {} }: { isMore?: boolean; onPart?: (part: Part) => void } = {},
): Promise<Part> {
  const server = await startStaticServer(built);
  const random = randomFrom(from);
  const tallies = new Map(works.map(({ name }) => [name, tallyOf(isMore ? name : "")]));
  try {
    for (let done = 0; done < count && (done === 0 || Date.now() < until); ) {
      const most = Math.min(killsOfProfile, count - done);
      done += await killsOnOneProfile(server.address, done, most, until, random, tallies);
      onPart(partOf(tallies));
    }
  } finally {
    await server.stop();
  }
  return partOf(tallies);
}

/** Begins with what stands in the table under this name, if anything. */
function tallyOf(name: string): Tally {
  const row = rowsOf(part).find(([work]) => work === name) ?? [];
  const [kills = 0, confirmed = 0, lost = 0, half = 0, orphaned = 0] = row.slice(1).map(Number);
  return { kills, confirmed, lost, half, orphaned, told: [] };
}

async function killsOnOneProfile(
  address: string,
  first: number,
  most: number,
  until: number,
  random: () => number,
  tallies: ReadonlyMap<string, Tally>,
): Promise<number> {
  const profile = newProfile();
  const made: Made = { notes: new Map(), recordings: new Map(), exhibits: new Map() };
  let running: Running | null = null;
  let kills = 0;
  try {
    running = await startBrowser(profile.folder, address, hurrySweep);
    await running.page.goto(address);
    const bundle = await bundleOf(running.page, made);
    for (; kills < most && (kills === 0 || Date.now() < until); kills++) {
      const work = works[(first + kills) % works.length]!;
      await killed(running, work, { address, bundle, made, random, mark: first + kills });
      running = await startBrowser(profile.folder, address, hurrySweep);
      await judged(running, address, made, tallies.get(work.name)!);
      process.stderr.write(`kill ${first + kills + 1}: ${work.name}\n`);
    }
  } finally {
    await running?.kill();
    profile.remove();
  }
  return kills;
}

type Given = Parameters<Work["run"]>[1] & { readonly random: () => number };

/** The work runs until the browser dies; what it had seen as saved by then is in `made`. */
async function killed(running: Running, work: Work, given: Given): Promise<void> {
  await work.prepare?.(running.page, given);
  const under = work.run(running.page, given).catch(() => {}); // it dies with its browser
  await new Promise((resolve) => setTimeout(resolve, work.from + given.random() * (work.to - work.from)));
  await running.kill();
  await under;
}

async function judged({ page }: Running, address: string, made: Made, tally: Tally): Promise<void> {
  const say = (text: string) => {
    tally.told.push(text);
    process.stderr.write(`  ${text}\n`);
  };
  tally.kills++;
  await page.goto(`${address}icon-192.png`);
  const before = await lookInto(page);
  for (const folder of before.folders) {
    if (!passesForWhole(folder) || (await isWhole(folder))) continue;
    tally.half++;
    say(`half: ${folder.id}`);
  }
  for (const text of lostOf(before, made)) {
    tally.lost++;
    say(`lost: ${text}`);
  }
  tally.confirmed += made.notes.size + sizeOf(made.recordings) + sizeOf(made.exhibits);
  await page.goto(address);
  await page.getByRole("textbox", { name: "Job name" }).waitFor();
  const orphans = await orphansAfterSweep(page);
  tally.orphaned += orphans.length;
  for (const one of orphans) say(`orphaned: ${one}`);
}

const sizeOf = (sets: ReadonlyMap<string, ReadonlySet<string>>) =>
  [...sets.values()].reduce((sum, { size }) => sum + size, 0);

/** What the page called saved, and is not there. */
function lostOf({ jobs, pictures, folders }: Stored, made: Made): readonly string[] {
  const jobOf = (id: string) => jobs.find((one) => one.id === id);
  const isThere = (id: string) => folders.some((one) => one.id === id && passesForWhole(one));
  const pictureOf = (key: string) => pictures.some((one) => one.key === key && one.size > 0);
  const notes = [...made.notes].filter(([id, least]) => !(Number(jobOf(id)?.notes.match(/\d+$/)?.[0] ?? -1) >= least));
  const recordings = [...made.recordings].flatMap(([id, all]) =>
    [...all].filter((one) => !isThere(one) || !jobOf(id)?.captures.some((capture) => capture.id === one)),
  );
  const exhibits = [...made.exhibits].flatMap(([id, all]) =>
    [...all].filter((svg) => {
      const record = jobOf(id)?.exhibits.find((one) => one.svg === svg);
      return !record || !pictureOf(`${id}/${record.svg}`) || !pictureOf(`${id}/${record.png}`);
    }),
  );
  return [
    ...notes.map(([id, least]) => `edit ${least} of job ${id}`),
    ...recordings.map((id) => `recording ${id}`),
    ...exhibits.map((svg) => `exhibit ${svg}`),
  ];
}

/** The sweep looks twice; it is waited for as long as anything is left. */
async function orphansAfterSweep(page: Running["page"]): Promise<readonly string[]> {
  const until = Date.now() + 180_000;
  for (;;) {
    const left = orphansIn(await lookInto(page));
    if (left.length === 0 || Date.now() > until) return left;
    await new Promise((resolve) => setTimeout(resolve, 500));
  }
}

function partOf(tallies: ReadonlyMap<string, Tally>): Part {
  const rows = [...tallies].map(([name, { kills, confirmed, lost, half, orphaned }]) => [
    name,
    kills,
    confirmed,
    lost,
    half,
    orphaned,
  ]);
  const all = [...tallies.values()];
  const sum = (of: (one: Tally) => number) => all.reduce((total, one) => total + of(one), 0);
  return {
    name: part,
    about: `${sum((one) => one.kills)} times the whole browser was killed (SIGKILL) at a random moment of the work, and started again. \`npm run trial:kills -- 200\``,
    columns: ["while", "kills", "confirmed things looked for", "lost", "half", "orphaned"],
    rows,
    isGood: sum((one) => one.lost + one.half + one.orphaned) === 0,
  };
}
