import { cleanup, render, screen, within } from "@solidjs/testing-library";
import axe from "axe-core";
import { createSignal } from "solid-js";
import { afterEach, expect, test } from "vitest";
import { userEvent } from "vitest/browser";
import { CustomerSheetDialog } from "../../src/app/customer/CustomerSheetDialog.tsx";
import { changeDraft, keepSheet } from "../../src/job/edits/paper-edits.ts";
import type { Job } from "../../src/job/record/job.ts";
import "../../src/app/theme.css";
import { job } from "./exhibit-draft.ts";

afterEach(cleanup);

function open(start: Job = job, isMeasuring = false): void {
  const [held, setHeld] = createSignal(start);
  const at = "2026-05-04T10:00:00.000Z";
  render(() => (
    <CustomerSheetDialog
      job={held()}
      findings={[]}
      liftOff={null}
      repair={null}
      judged={null}
      isMeasuring={isMeasuring}
      loadBlob={async () => null}
      onDraft={(part) => setHeld((before) => changeDraft(before, at, part))}
      onKeep={(sheet) => setHeld((before) => keepSheet(before, at, sheet))}
      onClose={() => undefined}
    />
  ));
}

const pages = () => [...document.querySelectorAll<HTMLElement>(".customer-page")];

test("what is typed and chosen stands on the page, and on the page for the printer", async () => {
  open();
  await userEvent.fill(screen.getByLabelText("Your own words"), "The flange was loose.");
  await userEvent.click(screen.getByRole("button", { name: "+ Converter approved for this car" }));
  await userEvent.fill(screen.getByLabelText("Price of choice 1"), "540 and tax");
  await userEvent.click(screen.getByLabelText("VIN"));
  expect(pages()).toHaveLength(2);
  for (const page of pages()) {
    expect(within(page).getByText("The flange was loose.")).toBeTruthy();
    expect(within(page).getByText("540 and tax")).toBeTruthy();
    expect(page.textContent).toContain(job.vehicle.vin);
    expect(page.textContent).not.toContain(job.vehicle.plate);
  }
  expect(pages()[1]!.closest(".print-only")?.parentElement).toBe(document.body);
});

test("a sheet given away is frozen; what is typed afterwards goes to the next revision", async () => {
  open();
  await userEvent.fill(screen.getByLabelText("Your own words"), "First words.");
  await userEvent.click(screen.getByRole("button", { name: "Give it away as revision 1" }));
  expect(pages()[0]!.textContent).toMatch(/revision 1[\s\S]*First words/);
  expect(screen.queryByLabelText("Your own words")).toBeNull();
  await userEvent.selectOptions(screen.getByLabelText("Shown"), "the draft");
  await userEvent.fill(screen.getByLabelText("Your own words"), "Second words.");
  await userEvent.selectOptions(screen.getByLabelText("Shown"), "revision 1, as given away");
  expect(pages()[0]!.textContent).toContain("First words.");
  expect(pages()[0]!.textContent).not.toContain("Second words.");
});

test("steps the type down until all of it stands on one sheet, never below 8 pt, and says so where it cannot", async () => {
  const words = (times: number) => "Some more words of the technician for the customer to read. ".repeat(times);
  const size = () => Number.parseFloat(getComputedStyle(pages()[0]!).fontSize) * 0.75; // 96 px are 72 pt
  open(changeDraft(job, job.createdAt, { words: words(2) }));
  await expect.poll(size).toBeCloseTo(10.5, 1);
  cleanup();
  open(changeDraft(job, job.createdAt, { words: Array.from({ length: 14 }, (_, i) => `${i} ${words(3)}`).join("\n") }));
  await expect.poll(size).toBeLessThan(10.4);
  expect(size()).toBeGreaterThanOrEqual(8 - 0.01);
  cleanup();
  open(changeDraft(job, job.createdAt, { words: Array.from({ length: 40 }, (_, i) => `${i} ${words(3)}`).join("\n") }));
  await screen.findByText(/does not fit one page/);
});

test("has no fault that axe finds", async () => {
  open();
  const { violations } = await axe.run(screen.getByRole("dialog", { name: "Customer sheet" }));
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
});

test("nothing is given away while its recording is still being measured", () => {
  open(job, true);
  expect(screen.getByRole<HTMLButtonElement>("button", { name: /^Give it away/ }).disabled).toBe(true);
  expect(screen.getByText(/still being measured/)).toBeTruthy();
});
