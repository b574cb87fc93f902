// When a worker is known to be dead.

import { expect, test } from "vitest";
import { lifeOf } from "../../workers/life.ts";

const idle = () => new Worker(URL.createObjectURL(new Blob([""], { type: "text/javascript" })));

test("one that never comes to hold its lock is taken for dead, and asked nothing", async () => {
  const seen = lifeOf(idle(), () => new Promise(() => {}), 20);
  expect(await Promise.race([seen.watched.then(() => "watched"), seen.end.then(() => "dead")])).toBe("dead");
});

test("one that lets go of its lock is, and not before", async () => {
  let release = () => {};
  const hold = (name: string) =>
    new Promise<void>((held) => {
      void navigator.locks.request(name, () => {
        held();
        return new Promise<void>((done) => {
          release = done;
        });
      });
    });
  const seen = lifeOf(idle(), hold);
  const told: string[] = [];
  void seen.end.then(() => told.push("dead"));
  await seen.watched;
  await new Promise((resolve) => setTimeout(resolve, 60)); // long enough for a lock that is free to be had
  expect(told).toEqual([]);
  release();
  await seen.end;
});
