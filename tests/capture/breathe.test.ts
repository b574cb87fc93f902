import { expect, test } from "vitest";
import { breathe } from "../../src/capture/bytes/breathe.ts";

test("a message that waits is heard before work goes on, and the cancel in it is heeded", async () => {
  const cancelling = new AbortController();
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = () => cancelling.abort();
  port2.postMessage("cancel");
  await expect(breathe(cancelling.signal, "drive.csv")).rejects.toMatchObject({
    problem: { code: "cancelled", what: "Opening drive.csv was cancelled." },
  });
  port1.close();
});

test("work goes on when nobody has cancelled", async () => {
  await expect(breathe(new AbortController().signal, "drive.csv")).resolves.toBeUndefined();
});
