import { cleanup, render, screen, within } from "@solidjs/testing-library";
import axe from "axe-core";
import { afterEach, expect, test } from "vitest";
import { userEvent } from "vitest/browser";
import { CustomerSheetDialog } from "../../src/app/customer/CustomerSheetDialog.tsx";
import "../../src/app/theme.css";
import { job } from "./exhibit-draft.ts";

afterEach(cleanup);

function open(): void {
  render(() => (
    <CustomerSheetDialog
      job={job}
      findings={[]}
      liftOff={null}
      repair={null}
      loadBlob={async () => null}
      onClose={() => undefined}
    />
  ));
}

test("what is typed and chosen stands on the page, and on the page for the printer", async () => {
  open();
  await userEvent.fill(screen.getByLabelText("Your own words"), "The flange was loose.");
  await userEvent.selectOptions(screen.getByLabelText("Leak test of exhaust and intake"), "fault found");
  await userEvent.click(screen.getByLabelText("VIN"));
  const pages = document.querySelectorAll<HTMLElement>(".customer-page");
  expect(pages).toHaveLength(2);
  for (const page of pages) {
    expect(within(page).getByText("The flange was loose.")).toBeTruthy();
    expect(within(page).getByText("Leak test of exhaust and intake: done, a fault was found.")).toBeTruthy();
    expect(page.textContent).toContain(job.vehicle.vin);
    expect(page.textContent).not.toContain(job.vehicle.plate);
  }
  expect(pages[1]!.closest(".print-only")?.parentElement).toBe(document.body);
});

test("has no fault that axe finds", async () => {
  open();
  const { violations } = await axe.run(screen.getByRole("dialog", { name: "Customer sheet" }));
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
});
