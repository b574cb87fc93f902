// Lets hostile job bundles fall on the page, one after the other, beside a job that is kept: each is opened or refused by
// name, and nothing else changes.
//
// npm run trial:bundles

import type { Page } from "playwright";
import { startStaticServer } from "../e2e/static-server.ts";
import { dropFiles } from "../e2e/steps.ts";
import { newProfile, startBrowser } from "./browser.ts";
import { type HostileBundle, hostileBundles } from "./hostile-bundles.ts";
import { bundleOf } from "./kill-works.ts";
import { outcomeOf, type Seen, watchThread } from "./outcome.ts";
import { lookInto, type Stored } from "./stored.ts";
import { built, type Part } from "./table.ts";

/** @param count  so many of them, spread over all. */
export async function bundles(count: number, _from: number, until = Number.POSITIVE_INFINITY): Promise<Part> {
  const server = await startStaticServer(built);
  const profile = newProfile();
  const running = await startBrowser(profile.folder, server.address, watchThread);
  const rows: (readonly (string | number)[])[] = [];
  let faults = 0;
  try {
    const { page } = running;
    await page.goto(server.address);
    const good = await bundleOf(page, { notes: new Map(), recordings: new Map(), exhibits: new Map() });
    const all = hostileBundles(good);
    const step = Math.max(1, Math.floor(all.length / count));
    for (const one of all.filter((_, i) => i % step === 0)) {
      if (rows.length > 0 && Date.now() > until) break;
      const { outcome, said, wrong } = await dropped(page, one, running.noise);
      faults += wrong.length;
      rows.push([one.name, outcome, said, wrong.join("; ")]);
      process.stderr.write(`${one.name}: ${outcome}${wrong.length > 0 ? `  WRONG ${wrong.join("; ")}` : ""}\n`);
    }
  } finally {
    await running.kill();
    profile.remove();
    await server.stop();
  }
  return {
    name: "Hostile bundles",
    about: `${rows.length} job bundles that lie, dropped on the page beside a job that is kept there; faults: ${faults}. \`npm run trial:bundles\``,
    columns: ["bundle", "what became of it", "what was said", "wrong"],
    rows,
    isGood: faults === 0,
  };
}

async function dropped(page: Page, { name, zip, must }: HostileBundle, noise: string[]) {
  const before = await lookInto(page);
  const jobOf = () => page.getByRole("heading", { level: 1 }).first().textContent();
  const first = await jobOf();
  const seen: Seen = await outcomeOf(page, () => dropFiles(page, [{ name: "job.zip", bytes: Buffer.from(zip) }]), {
    isOpened: async () => (await jobOf()) !== first,
  });
  const after = await lookInto(page);
  const told = seen.said !== "";
  const outcome = seen.isOpened ? (told ? "told" : "opened") : told ? "refused" : "nothing";
  const wrong = [
    ...(outcome === must || (must === "either" && outcome !== "nothing") ? [] : [`it must be ${must}`]),
    ...changedBeside(before, after),
    ...((await page.evaluate(() => "ran" in window || "polluted" in {})) ? ["script of the bundle ran"] : []),
    ...noise.splice(0).map((text) => `console: ${text.slice(0, 200)}`),
    ...seen.hangs,
  ];
  return { name, outcome, said: seen.said, wrong };
}

/** What was there before and is not there as it was. */
function changedBeside(before: Stored, after: Stored): readonly string[] {
  const gone = before.jobs.filter(({ id, name, captures, exhibits }) => {
    const now = after.jobs.find((one) => one.id === id);
    return now?.name !== name || now.captures.length < captures.length || now.exhibits.length < exhibits.length;
  });
  const folders = before.folders.filter(({ id, named }) => after.folders.find((one) => one.id === id)?.named !== named);
  const pictures = before.pictures.filter(
    ({ key, size }) => after.pictures.find((one) => one.key === key)?.size !== size,
  );
  return [
    ...gone.map(({ name }) => `job ${name} was changed`),
    ...folders.map(({ id }) => `recording ${id} was changed`),
    ...pictures.map(({ key }) => `picture ${key} was changed`),
  ];
}
