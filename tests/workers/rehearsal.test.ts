// What is rehearsed must be the work that a real recording takes, and must end where there is one.

import { describe, expect, it } from "vitest";
import type { Capture } from "../../src/capture/model/capture.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { warningsOf } from "../../src/exhaust/findings/warnings.ts";
import type { Engine } from "../../workers/held/engine.ts";
import { madeUp, rehearsal } from "../../workers/measuring/rehearsal.ts";
import { createCaptureService } from "../../workers/service/capture-service.ts";
import { rehearseReading } from "../../workers/service/rehearsing.ts";

describe("a rehearsal", () => {
  it("goes through stretches, lift-offs and both kinds of rear sensor", () => {
    const busy = analyse(madeUp({ rate: 100, rear: "busy" }));
    expect(busy.liftOffs).toHaveLength(2);
    expect(busy.stretches.map(({ kind }) => kind)).toEqual(expect.arrayContaining(["cruise", "idle"]));
    expect(busy.whole?.crossingRatio.grade).toBe("measured");
    expect(busy.storeStudy).not.toBeNull();
    const calm = analyse(madeUp({ rate: 100, rear: "calm" }));
    expect(calm.whole?.crossingRatio).not.toEqual(busy.whole?.crossingRatio);
    expect(new Set(rehearsal.map(({ work }) => work))).toEqual(new Set(["sensors", "store"]));
  });

  it("reads what it wrote, by the roles that its names have", async () => {
    const read: Capture[] = [];
    const keeping: Engine["read"] = async (...asked) => {
      read.push(await readCapture(...asked));
      return read.at(-1)!;
    };
    await rehearseReading({ read: keeping, warningsOf }, () => false);
    expect(read.length).toBeGreaterThan(1);
    for (const { channels } of read) {
      const made = madeUp({ rate: 50, rear: "busy" }).channels;
      expect(channels.map(({ role }) => role)).toEqual(made.map(({ role }) => role));
    }
  });

  it("ends as soon as a recording is wanted", async () => {
    let reads = 0;
    const counting: Engine["read"] = (...asked) => {
      reads++;
      return readCapture(...asked);
    };
    await rehearseReading({ read: counting, warningsOf }, () => reads === 1);
    expect(reads).toBe(1);
    await rehearseReading({ read: counting, warningsOf }, () => true);
    expect(reads).toBe(1);
  });

  it("is told by the service once a file is opened", async () => {
    const told: boolean[] = [];
    const engine = {
      read: readCapture,
      nameOf: async () => "a".repeat(64),
      warningsOf,
      version: null,
      store: null,
      rehearse: async (isWanted: () => boolean) => void told.push(isWanted()),
    } satisfies Partial<Engine>;
    const service = createCaptureService(engine as unknown as Engine);
    await service.rehearse();
    const file = new Blob(["Time (s),Front O2 sensor (V)\n0,0.1\n1,0.8\n2,0.1\n"]);
    const opened = await service.open({ file, name: "one.csv", choices: {} }, () => {});
    expect(opened.ok).toBe(true);
    await service.rehearse();
    expect(told).toEqual([false, true]);
  });
});
