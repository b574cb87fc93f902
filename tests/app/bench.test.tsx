// The page as a user meets it, in Chromium, over a made-up service.

import { cleanup, screen, waitFor, within } from "@solidjs/testing-library";
import axe from "axe-core";
import { createStore, set } from "idb-keyval";
import { afterEach, describe, expect, test } from "vitest";
import { userEvent } from "vitest/browser";
import { deferred } from "./deferred.ts";
import { summary } from "./fake-service.ts";
import { button, dropFile, press, putUp, putUpBench, type Up } from "./page.tsx";

let up: Up | null = null;
afterEach(() => {
  up?.takeDown();
  up = null;
  cleanup();
  localStorage.clear();
});

const region = (name: string) => screen.findByRole("region", { name });

describe("the empty bench", () => {
  test("offers two large choices and the cautions", async () => {
    up = putUp();
    await button(/Open a recording/);
    await button(/Try the sample job/);
    expect(screen.getByText(/nobody watches a screen while driving/)).toBeTruthy();
  });

  test("shows how far a file is read, and lets go of it", async () => {
    up = putUp();
    up.service.behave({ wait: new Promise(() => {}) });
    dropFile("long.csv");
    const bar = await screen.findByRole("progressbar", { name: "Reading long.csv" });
    await waitFor(() => expect(bar.getAttribute("value")).toBe("0.5"));
    within(await region("Read so far")).getByText("Sensor 1");
    await press("Cancel");
    await waitFor(() => expect(screen.queryByRole("progressbar")).toBeNull());
    expect(screen.queryByRole("region", { name: "Read so far" })).toBeNull();
    await button(/Open a recording/);
  });

  test("a file that takes long to be looked at can be let go of, and the next one opens", async () => {
    up = putUp();
    up.service.behave({ look: new Promise(() => {}) });
    dropFile("line-ends.csv");
    await screen.findByRole("progressbar", { name: "Looking at line-ends.csv" });
    await press("Cancel");
    await waitFor(() => expect(screen.queryByRole("progressbar")).toBeNull());
    up.service.behave({});
    dropFile("made-up.csv");
    await button(/^Lift-off 1 at/);
  });

  test("says what is wrong with a file, where, and what would help", async () => {
    up = putUp();
    up.service.behave({ problem: { code: "no-numbers", what: "No numbers in it.", where: "a.csv", remedy: "Try B." } });
    dropFile("a.csv");
    const note = await screen.findByRole("alert");
    expect(note.textContent).toMatch(/No numbers in it\.a\.csvTry B\./);
  });
});

describe("the bench", () => {
  test("shows how far a long measurement is, stops it, and begins it again", async () => {
    up = putUp();
    up.service.dawdle(true);
    dropFile("long.csv");
    const bar = await screen.findByRole("progressbar", { name: "Measuring" });
    expect(bar.getAttribute("value")).toBe("0.4");
    await press("Stop");
    await waitFor(async () => expect((await region("Readings")).textContent).toMatch(/Measuring was stopped/));
    await new Promise((resolve) => setTimeout(resolve, 60));
    expect(screen.queryByRole("progressbar")).toBeNull();
    up.service.dawdle(false);
    await press("Measure again");
    await screen.findByRole("table");
    expect((await region("Readings")).textContent).not.toMatch(/stopped/);
  });

  test("shows how far a long reading of the whole is, until its answer is there", async () => {
    up = putUp();
    const read = deferred();
    up.service.dawdleWhole(read.promise);
    dropFile("long.csv");
    const bar = await screen.findByRole("progressbar", { name: "Reading the whole recording" });
    expect(Number(bar.getAttribute("value"))).toBeCloseTo(1 / 3);
    expect((await region("Answer")).textContent).toBe("Reading the whole recording …");
    read.resolve();
    await waitFor(async () => expect((await region("Answer")).textContent).toMatch(/The throttle closed 2 times/));
    expect(screen.queryByRole("progressbar")).toBeNull();
  });

  test("gives a long measurement up for a newer view", async () => {
    up = putUp();
    up.service.dawdle(true);
    dropFile("long.csv");
    await screen.findByRole("progressbar", { name: "Measuring" });
    up.service.dawdle(false);
    await userEvent.keyboard("+");
    await screen.findByRole("table");
    const [first, ...later] = up.service.spans;
    expect(later.at(-1)!.to - later.at(-1)!.from).toBeLessThan(first!.to - first!.from);
    expect((await region("Readings")).textContent).not.toMatch(/Given up|stopped/);
  });

  test("says what is known of a recording that is too large to be measured as a whole", async () => {
    up = putUp();
    up.service.refuse({ code: "too-large", what: "Larger than memory.", remedy: "Choose a shorter span." });
    dropFile("large.csv");
    await waitFor(async () =>
      expect((await region("Answer")).textContent).toBe("Larger than memory. Choose a shorter span."),
    );
    expect((await region("Lift-offs")).textContent).toMatch(/Not looked for/);
    await waitFor(async () => expect((await region("Readings")).textContent).toMatch(/Larger than memory/));
  });

  test("answers first, lists lift-offs and readings, and keeps the bench when another file fails", async () => {
    up = await putUpBench();
    expect((await region("Answer")).textContent).toMatch(/The throttle closed 2 times.*0\.35\ss/);
    await button(/^Front, Switching: 1\.42\sHz/);
    await button(/^Front, Lean to rich: not measurable/);
    up.service.behave({ problem: { code: "empty", what: "The file is empty.", remedy: "Record again." } });
    dropFile("empty.csv");
    await screen.findByRole("alert");
    await button(/^Lift-off 1 at/);
  });

  test("shows a lift-off with its delay as a dimension, and steps to the next by key", async () => {
    up = await putUpBench();
    await press(/^Lift-off 1 at/);
    await screen.findByRole("slider", { name: /front to rear/ });
    await userEvent.keyboard("n");
    await waitFor(async () => expect((await button(/^Lift-off 2 at/)).getAttribute("aria-current")).toBe("true"));
  });

  test("keeps a rejected lift-off listed with its reason; undo lets it count again", async () => {
    up = await putUpBench();
    await press(/^Lift-off 1 at/);
    await press("Set aside");
    await userEvent.fill(screen.getByLabelText("Why does it not count?"), "gear change");
    await press("Set aside");
    const line = await button(/^Lift-off 1 at.*set aside/);
    expect(line.textContent).toContain("gear change");
    await press("Undo");
    await waitFor(async () => expect((await button(/^Lift-off 1 at/)).textContent).not.toContain("gear change"));
  });

  test("swaps front and rear in one touch where they look swapped, and undo takes it back", async () => {
    up = putUp();
    up.service.behave({
      summary: { ...summary, warnings: [{ code: "looks-swapped", text: "front and rear look swapped" }] },
    });
    dropFile("swapped.csv");
    await press("Swap them");
    const { service } = up;
    await waitFor(() =>
      expect(service.corrections.at(-1)).toMatchObject({ c1: { role: "rear-o2" }, c2: { role: "front-o2" } }),
    );
    await press("Undo");
    await waitFor(() => expect(service.corrections.at(-1)).toEqual({}));
  });

  test("sets a time pair by keyboard, snaps an end, pins it under a label", async () => {
    up = await putUpBench();
    const list = await region("Dimensions");
    await userEvent.click(within(list).getByRole("button", { name: "Set a time pair" }));
    // Clicked itself: the driver's locator would take the readings "Crossings …" for it.
    (await within(list).findAllByRole("button", { name: "Crossing" }))[0]!.click();
    await within(list).findByText("on a crossing of Sensor 1");
    await userEvent.fill(within(list).getByLabelText("Label"), "front to rear");
    await userEvent.click(within(list).getByRole("button", { name: "Pin" }));
    await waitFor(() => expect(within(list).queryByRole("button", { name: "Pin" })).toBeNull());
    expect(within(list).getByText("front to rear")).toBeTruthy();
  });

  test("shows the evidence of a reading and goes where it is", async () => {
    up = await putUpBench();
    const door = await button(/^Front, Rich to lean/);
    await userEvent.click(door);
    await waitFor(async () => expect((await button(/^Front, Rich to lean/)).getAttribute("aria-pressed")).toBe("true"));
    await waitFor(async () => expect((await region("Readings")).textContent).toMatch(/In view, 2\.32\ss/));
  });

  test("corrects a channel in place", async () => {
    up = await putUpBench();
    await userEvent.click(screen.getByRole("tab", { name: "Channels" }));
    await userEvent.click((await within(await region("Channels")).findAllByText("Sensor 1"))[0]!);
    const pickup = (await screen.findAllByLabelText("How it was picked up"))[0]!;
    await userEvent.selectOptions(pickup, "10:1 lead, values ten times too small");
    const { service } = up;
    await waitFor(() => expect(service.corrections.at(-1)).toMatchObject({ c1: { gain: 10 } }));
    await screen.findByText("shown = recorded × 10");
  });

  test("names a record that cannot be read as soon as the jobs are shown", async () => {
    const storeName = `test-${crypto.randomUUID()}`;
    await set("j9", "no record", createStore(`${storeName}-jobs`, "jobs"));
    up = putUp(storeName);
    await press("Jobs");
    await screen.findByText("Set aside, because they cannot be read");
    await button("Save as a file");
  });

  test("takes the job's name as it is typed, and none that is empty", async () => {
    up = await putUpBench();
    const name = screen.getByLabelText("Job name") as HTMLInputElement;
    await userEvent.fill(name, "Estate, second visit ");
    await screen.findByRole("heading", { level: 1, name: /Estate, second visit/ });
    expect(name.value).toBe("Estate, second visit ");
    await userEvent.fill(name, "");
    await userEvent.keyboard("{Enter}");
    await waitFor(() => expect(name.value).toBe("made-up"));
  });

  test("has the job back after a reload", async () => {
    up = await putUpBench();
    const name = screen.getByLabelText("Job name");
    await userEvent.fill(name, "Estate, P0420");
    await userEvent.keyboard("{Enter}");
    await waitFor(() => expect(screen.getByLabelText("Job").textContent).toMatch(/(^|· )saved$/));
    const { storeName } = up;
    up.takeDown();
    up = putUp(storeName);
    await waitFor(() => expect((screen.getByLabelText("Job name") as HTMLInputElement).value).toBe("Estate, P0420"));
    // This service holds nothing: the page says that the file is gone and keeps the record.
    await screen.findByText("This recording is not at hand any more.");
    await button("Open its file");
  });
});

describe("accessibility", () => {
  const serious = async () => {
    const { violations } = await axe.run(document.body, { resultTypes: ["violations"] });
    return violations
      .filter((v) => v.impact === "serious" || v.impact === "critical")
      .flatMap((v) => v.nodes.map((node) => `${v.id}: ${node.html}`));
  };

  test.each(["light", "dark"])("no serious finding on the empty bench and the bench, %s", async (theme) => {
    localStorage.setItem("tracewright-theme", theme);
    up = putUp();
    await button(/Open a recording/);
    expect(await serious()).toEqual([]);
    dropFile("made-up.csv");
    await button(/^Lift-off 1 at/);
    await press(/^Lift-off 1 at/);
    await button(/^Front, Switching/);
    await waitFor(() => expect(document.querySelector("[aria-busy=true]")).toBeNull());
    expect(await serious()).toEqual([]);
  });

  test.each([
    ["Recording guide", "Recording guide"],
    ["Limits …", "Limits of this job"],
    ["Save data …", "Save data"],
    ["Jobs …", "Jobs"],
    ["Keyboard", "Keyboard"],
  ])("no serious finding in the sheet %s", async (item, title) => {
    up = await putUpBench();
    // The tests' window is as narrow as a phone: what a wide header holds stands in the menu too.
    await press("More");
    await press(item);
    await screen.findByRole("dialog", { name: title });
    expect(await serious()).toEqual([]);
  });
});
