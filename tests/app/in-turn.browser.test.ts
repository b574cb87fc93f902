// Several files dropped at once: each ends as opened, asked about or explained; none is passed over.

import { createRoot, createSignal } from "solid-js";
import { expect, test } from "vitest";
import { createNotices } from "../../src/app/core/notices.ts";
import { createInTurn } from "../../src/app/opening/in-turn.ts";
import type { Question } from "../../src/app/opening/read-file.ts";
import { deferred } from "./deferred.ts";

const file = (name: string) => ({ name, file: new File(["x"], name) });

/** Files by name: "bad…" is no recording, "ask…" is asked about, the rest opens. */
function setUp() {
  return createRoot(() => {
    const notices = createNotices();
    const [question, ask] = createSignal<Question | null>(null);
    const log: string[] = [];
    let atOnce = 0;
    const open = async (blob: Blob, name: string) => {
      expect(++atOnce).toBe(1);
      await new Promise((resolve) => setTimeout(resolve));
      atOnce--;
      log.push(name);
      if (name.startsWith("ask")) ask({ file: blob, name, choices: {}, problem: null });
      if (name.startsWith("bad")) notices.show({ code: "unreadable", what: `No recording is in ${name}.`, remedy: "" });
      return !/^(ask|bad)/.test(name);
    };
    return { notices, question, ask, log, open, inTurn: createInTurn({ open, question, notices }) };
  });
}

test("two that are asked about are asked about one after the other, and what was answered is read before the next", async () => {
  const { inTurn, question, ask, log, open } = setUp();
  const all = inTurn.all(["ask1", "good", "ask2"].map(file));
  await expect.poll(() => question()?.name).toBe("ask1");
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(log).toEqual(["ask1"]);
  const answered = question()!;
  ask(null);
  void inTurn.one(() => open(answered.file, "answered1"));
  await expect.poll(() => question()?.name).toBe("ask2");
  ask(null);
  await all;
  expect(log).toEqual(["ask1", "answered1", "good", "ask2"]);
});

test("what was not opened is told by name and reason, folders too, whatever came after it", async () => {
  const { inTurn, notices, log } = setUp();
  await inTurn.all([file("bad1"), { name: "drives", file: null }, file("good"), file("bad2"), file("last")]);
  expect(log).toEqual(["bad1", "good", "bad2", "last"]);
  expect(notices.problem()?.what).toBe(
    "3 of 5 files were not opened. bad1: No recording is in bad1. drives: This is a folder, not a recording. bad2: No recording is in bad2.",
  );
});

test("files that are dropped while others are read wait for their turn", async () => {
  const { inTurn, log } = setUp();
  const slow = deferred();
  const first = inTurn.one(() => slow.promise.then(() => log.push("first")));
  const second = inTurn.all([file("second")]);
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(log).toEqual([]);
  slow.resolve();
  await Promise.all([first, second]);
  expect(log).toEqual(["first", "second"]);
});

test("one that was dropped while another is looked at waits for its question, and takes its place from nobody", async () => {
  const { inTurn, question, ask, log } = setUp();
  const [first, second] = [inTurn.all([file("ask1")]), inTurn.all([file("ask2")])];
  await expect.poll(() => question()?.name).toBe("ask1");
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect([question()?.name, log]).toEqual(["ask1", ["ask1"]]);
  ask(null);
  await expect.poll(() => question()?.name).toBe("ask2");
  ask(null);
  await Promise.all([first, second]);
});
