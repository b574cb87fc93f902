// The main job from end to end, and back after a reload, in a bundle, and without a server.

import { readFileSync } from "node:fs";
import { strFromU8, unzipSync } from "fflate";
import type { StaticServer } from "../e2e/static-server.ts";
import { claimOf, samplePath, truthOf } from "../e2e/steps.ts";
import type { Driven, Engine } from "./engine.ts";
import { Hands, until } from "./hands.ts";

/** A step, and what was seen of it. */
export interface Step {
  readonly what: string;
  /** @returns a figure or words to be told, if any. @throws where it does not hold */
  run(): Promise<string>;
}

const own = "good-catalyst-scope";
const jobName = "Engine trial 7";

export function stepsOf(engine: Engine, driven: Driven, server: StaticServer): readonly Step[] {
  const hands = new Hands(driven);
  let bundle: Uint8Array = new Uint8Array();
  return [
    { what: "starts", run: () => start(hands, server) },
    { what: "the sample job opens: lift-offs and the verdict", run: () => sampleJob(hands) },
    { what: "an own CSV, dropped: delays hold the truth", run: () => ownFile(hands) },
    { what: "a pair drawn with the pointer is measured", run: () => pair(hands) },
    { what: "an exhibit is made and saved as PNG", run: () => exhibit(hands) },
    engine.keeps
      ? { what: "the job is saved, and back after a reload", run: () => reload(hands) }
      : { what: "it says that the recording is not kept", run: () => saidUnkept(hands) },
    {
      what: "a bundle is saved",
      async run() {
        bundle = await saveBundle(hands);
        return `${Object.keys(unzipSync(bundle)).length} entries, ${bundle.length >> 10} KiB`;
      },
    },
    { what: "the bundle opens in a browser that never saw it", run: () => elsewhere(engine, bundle, server) },
    { what: "with the server gone it starts and measures", run: () => offline(hands, server) },
  ];
}

async function start(hands: Hands, { address }: StaticServer): Promise<string> {
  await hands.visit(address);
  await hands.see("heading", /Is it really the catalyst/);
  return "";
}

const liftOffs = (hands: Hands) => hands.see("button", /^Lift-off \d+ at/, 3);

async function sampleJob(hands: Hands): Promise<string> {
  await hands.press("button", /sample job/i);
  const found = await liftOffs(hands);
  await hands.see("text", /^Points to the catalyst$/);
  return `${found.length} lift-offs`;
}

async function ownFile(hands: Hands): Promise<string> {
  await newJob(hands);
  const name = `${own}.csv.gz`;
  await hands.dropFile(name, readFileSync(samplePath(name)));
  await hands.see("status", new RegExp(`${own}.* is open`));
  await holdTruth(hands);
  await hands.fill(/^Job name$/, jobName);
  return (await liftOffs(hands))[0]!.name.replace(/^.*delay /, "");
}

/** The truth is the simulator's: crossing times of noise-free voltages. */
async function holdTruth(hands: Hands): Promise<void> {
  const found = await liftOffs(hands);
  for (const [i, { delay }] of truthOf(own).liftOffs.entries()) {
    const { low, high } = claimOf(found[i]!.name.split("delay ")[1]!);
    if (!(low <= delay! && delay! <= high)) throw new Error(`${found[i]!.name} does not hold ${delay}`);
  }
}

async function newJob(hands: Hands): Promise<void> {
  await hands.press("button", /^More$/);
  await hands.press("button", /^New job$/);
  await until("an empty bench", async () =>
    (await hands.all("heading", /Is it really the catalyst/)).length > 0 ? true : null,
  );
}

async function pair(hands: Hands): Promise<string> {
  await hands.press("button", /^Time pair$/);
  const box = await hands.on.run(() => {
    const { x, y, width } = document.querySelector("[role=application]")!.getBoundingClientRect();
    return { x, y, width };
  });
  await hands.on.drag({ x: box.x + 0.4 * box.width, y: box.y + 90 }, { x: box.x + 0.6 * box.width, y: box.y + 90 });
  const [told] = await hands.see("text", /^[\d.]+ s \([\d.]+ … [\d.]+\)$/);
  return told!.name;
}

async function exhibit(hands: Hands): Promise<string> {
  await hands.press("button", /^Make exhibit/);
  await hands.see("image", /Preview/);
  await hands.press("button", /^Make exhibit$/);
  const png = await hands.saved(/\.png$/, () => hands.press("button", /PNG/));
  const view = new DataView(png.buffer);
  // PNG specification (W3C, third edition), 11.2.1: width and height follow the signature and the IHDR tag.
  const [width, height] = [view.getUint32(16), view.getUint32(20)];
  if (strFromU8(png.subarray(1, 4)) !== "PNG" || width < 2400) throw new Error(`no PNG of 2400: ${width} x ${height}`);
  await hands.press("button", /^Done$/);
  return `${width} x ${height} px`;
}

const isSaved = (hands: Hands) => hands.see("group", /(^|· )saved$/);

async function reload(hands: Hands): Promise<string> {
  await isSaved(hands);
  await hands.reload();
  await backAgain(hands);
  return "";
}

/** Job, recording and exhibit are there. */
async function backAgain(hands: Hands): Promise<void> {
  await until("the job's name", () =>
    hands.on.run(
      (name) => ([...document.querySelectorAll("input")].some(({ value }) => value === name) ? true : null),
      jobName,
    ),
  );
  await holdTruth(hands);
  await hands.press("tab", /^Job$/);
  await hands.see("image", /^Sheet 1, revision 1/);
}

async function saveBundle(hands: Hands): Promise<Uint8Array> {
  const bundle = await hands.saved(/\.zip$/, async () => {
    await hands.press("button", /^More$/);
    await hands.press("button", /^Save job bundle/);
  });
  const names = Object.keys(unzipSync(bundle));
  for (const part of [/^job\.json$/, /^recordings\//, /^exhibits\/.*\.png$/]) {
    if (!names.some((name) => part.test(name))) throw new Error(`the bundle has no ${part}`);
  }
  return bundle;
}

async function elsewhere(engine: Engine, bundle: Uint8Array, server: StaticServer): Promise<string> {
  const other = await engine.start();
  try {
    const hands = new Hands(other);
    await start(hands, server);
    await hands.dropFile("job.zip", bundle);
    await backAgain(hands);
    return "";
  } finally {
    await other.stop();
  }
}

async function offline(hands: Hands, server: StaticServer): Promise<string> {
  await newJob(hands);
  await hands.see("text", /it starts without a network/);
  await server.stop();
  await hands.reload();
  await newJobIfOpen(hands);
  return sampleJob(hands);
}

/** What was on the desk last is there again; an empty bench is one already. */
async function newJobIfOpen(hands: Hands): Promise<void> {
  await hands.see("button", /sample job|^More$/i);
  if ((await hands.all("button", /sample job/i)).length === 0) await newJob(hands);
}

async function saidUnkept(hands: Hands): Promise<string> {
  const [said] = await hands.see("text", /will not be here after a reload/);
  return said!.name;
}
