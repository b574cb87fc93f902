// A fault inside a part of the page shows there, with the way back, and leaves the rest alive.

import { cleanup, render, screen } from "@solidjs/testing-library";
import { createSignal } from "solid-js";
import { afterEach, expect, test } from "vitest";
import { userEvent } from "vitest/browser";
import { FaultBoundary } from "../../src/app/parts/FaultBoundary.tsx";
import { watchFaults } from "../../src/app/parts/fault.ts";
import { type Problem, ProblemError } from "../../src/problem.ts";

afterEach(cleanup);

test("a part that throws tells so in its place, and comes back when it is tried again", async () => {
  const [isBroken, setBroken] = createSignal(true);
  const Breaking = () => {
    if (isBroken()) throw new RangeError("index -1 is out of range");
    return <p>All is well</p>;
  };
  render(() => (
    <>
      <FaultBoundary name="the lanes">
        <Breaking />
      </FaultBoundary>
      <p>The rest</p>
    </>
  ));
  const problem = screen.getByRole("alert", { name: "Problem" });
  expect(problem.textContent).toMatch(/A fault of the program stopped the lanes\./);
  expect(problem.textContent).not.toMatch(/index -1/);
  expect(screen.getByText("The rest")).toBeTruthy();
  setBroken(false);
  await userEvent.click(screen.getByRole("button", { name: "Try again" }));
  expect(screen.getByText("All is well")).toBeTruthy();
  expect(screen.queryByRole("alert", { name: "Problem" })).toBeNull();
});

test("a problem of the user's is told as it is", () => {
  const problem: Problem = { code: "unreadable", what: "The stick is gone.", remedy: "Put it in again." };
  const Breaking = () => {
    throw new ProblemError(problem);
  };
  render(() => (
    <FaultBoundary name="the lanes">
      <Breaking />
    </FaultBoundary>
  ));
  expect(screen.getByRole("alert", { name: "Problem" }).textContent).toMatch(/The stick is gone\..*Put it in again\./s);
});

test("a fault that no part caught is told once, however often it comes", () => {
  const told: Problem[] = [];
  const page = new EventTarget();
  const stop = watchFaults((problem) => told.push(problem), page);
  const event = (error: Error) =>
    Object.assign(new Event("unhandledrejection", { cancelable: true }), {
      reason: error,
    });
  for (let k = 0; k < 3; k++) page.dispatchEvent(event(new TypeError("null has no length")));
  page.dispatchEvent(event(new TypeError("Failed to fetch dynamically imported module: /assets/x.js")));
  stop();
  page.dispatchEvent(event(new RangeError("after the end")));
  expect(told.map(({ code }) => code)).toEqual(["fault", "unreadable"]);
  expect(told[1]!.what).toMatch(/could not be fetched/);
});
