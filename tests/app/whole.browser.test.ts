// What stands before the answer of the whole is there: the answer of the program before, or a first look; and what becomes of it.

import { createRoot, createSignal } from "solid-js";
import { afterEach, expect, test } from "vitest";
import { createWhole } from "../../src/app/core/whole.ts";
import type { Verdict } from "../../src/exhaust/terms/analysis.ts";
import type { Outcome } from "../../src/problem.ts";
import type { Before, CaptureSummary, WholeReadings } from "../../workers/protocol.ts";
import { deferred } from "./deferred.ts";
import { fakeService, summary } from "./fake-service.ts";

let dispose = () => {};
afterEach(() => dispose());

const { captureId } = summary.take;
const turn = { urgency: "answer" } as const;

async function saying(verdict: Verdict): Promise<WholeReadings> {
  const made = await fakeService().whole({ take: summary.take, choices: {} }, turn);
  if (!made.ok) throw new Error(made.problem.what);
  const finding = { id: "catalyst", verdict, statement: "", for: [], against: [], next: [], dependsOn: [] } as const;
  return { ...made.value, findings: [finding] };
}

interface Given {
  readonly before?: Before<WholeReadings>;
  readonly look?: WholeReadings;
  readonly isDrawn?: boolean;
}

/** The whole of one recording; the service answers it when it is told to. */
function reading({ before, look, isDrawn = true }: Given) {
  const answer = deferred<Outcome<WholeReadings>>();
  let wholes = 0;
  const service = {
    wholeBefore: async () => before ?? null,
    firstLook: async () => ({ ok: true as const, value: look ?? null }),
    whole: () => {
      wholes++;
      return answer.promise;
    },
  };
  const [drawn, setDrawn] = createSignal(isDrawn);
  const [onBench, put] = createSignal<CaptureSummary>(summary);
  const whole = createRoot((end) => {
    dispose = end;
    return createWhole(service, onBench, () => ({}), drawn);
  });
  const tell = (value: WholeReadings) => answer.resolve({ ok: true, value });
  return { ...whole, tell, setDrawn, put, wholes: () => wholes };
}

test("an answer that this very program gave stands at once: nothing is measured, and nothing need be drawn", async () => {
  const known = await saying("points-to");
  const { whole, answered, early, wholes, isReadingWhole } = reading({
    before: { answer: known, isCurrent: true },
    isDrawn: false,
  });
  await expect.poll(whole).toBe(known);
  expect([answered(), early(), wholes(), isReadingWhole()]).toEqual([known, null, 0, false]);
});

test.each([
  ["same", "points-to"],
  ["other", "cannot-say"],
] as const)(
  "one of the program before stands until the new one is there, and is told to be the %s",
  async (proved, verdict) => {
    const [old, fresh] = [await saying("points-to"), await saying(verdict)];
    const { whole, answered, early, tell, wholes } = reading({ before: { answer: old, isCurrent: false } });
    await expect.poll(whole).toBe(old);
    expect([answered(), early()]).toEqual([null, { kind: "before", captureId, said: old, proved: null }]);
    await expect.poll(wholes).toBe(1);
    tell(fresh);
    await expect.poll(answered).toBe(fresh);
    expect([whole(), early()?.proved]).toEqual([fresh, proved]);
  },
);

test("what was said of one recording before is never said of the next", async () => {
  const old = await saying("points-to");
  const { whole, early, put } = reading({ before: { answer: old, isCurrent: false } });
  await expect.poll(whole).toBe(old);
  put({ ...summary, id: "another", take: { ...summary.take, captureId: "another" } });
  expect([whole(), early()]).toEqual([null, null]);
});

test("a first look is told apart from the answer, which confirms or changes it", async () => {
  const [look, fresh] = [await saying("points-away"), await saying("points-to")];
  const { whole, early, tell } = reading({ look });
  await expect.poll(early).toEqual({ kind: "first", captureId, said: look, proved: null });
  expect(whole()).toBe(null);
  tell(fresh);
  await expect.poll(whole).toBe(fresh);
  expect(early()?.proved).toBe("other");
});

test("a first look that cannot tell is not shown", async () => {
  const [look, fresh] = [await saying("cannot-say"), await saying("points-to")];
  const { whole, early, tell, wholes } = reading({ look });
  await expect.poll(wholes).toBe(1);
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(early()).toBe(null);
  tell(fresh);
  await expect.poll(whole).toBe(fresh);
  expect(early()).toBe(null);
});

test("nothing is measured before the lanes are drawn", async () => {
  const { setDrawn, wholes } = reading({ isDrawn: false });
  await new Promise((resolve) => setTimeout(resolve, 50));
  expect(wholes()).toBe(0);
  setDrawn(true);
  await expect.poll(wholes).toBe(1);
});
