import { cleanup, configure, render, screen } from "@solidjs/testing-library";
import axe from "axe-core";
import { afterEach, expect, test } from "vitest";
import { userEvent } from "vitest/browser";
import { ExhibitDialog } from "../../src/app/exhibits/ExhibitDialog.tsx";
import type { ExhibitDialogProps, MadeExhibit } from "../../src/app/exhibits/types.ts";
import "../../src/app/theme.css";
import { emptyIntake } from "../../src/job/intake/intake.ts";
import { ProblemError } from "../../src/problem.ts";
import { editsIn } from "../../src/report/exhibit/edits.ts";
import { draft } from "./exhibit-draft.ts";

// A busy machine takes seconds for what takes a tenth of one here; what never comes fails all the same.
configure({ asyncUtilTimeout: 15_000 });

afterEach(() => {
  cleanup();
  localStorage.clear();
});

async function open(change: Partial<ExhibitDialogProps> = {}): Promise<MadeExhibit[]> {
  const made: MadeExhibit[] = [];
  const keep = (exhibit: MadeExhibit) => void made.push(exhibit);
  render(() => <ExhibitDialog draft={draft} onMade={keep} onClose={() => undefined} {...change} />);
  await screen.findByRole("img", { name: /Preview of the sheet/ });
  return made;
}

const button = (name: string | RegExp) => screen.getByRole("button", { name });
const press = (name: string | RegExp) => userEvent.click(button(name));

async function make(): Promise<void> {
  await press("Make exhibit");
  await screen.findByText(/Made, and kept with the job/);
}

test("makes what was previewed: headline, ticks, note by numbers, shaded span, as SVG and as PNG for print", async () => {
  const made = await open();
  await userEvent.fill(screen.getByLabelText("Headline"), "The rear follows the front");
  await userEvent.click(screen.getByLabelText("Number plate"));
  await press("Add a note");
  await userEvent.fill(screen.getByLabelText("Words"), "fuel is cut");
  await userEvent.fill(screen.getByLabelText("Time, s"), "31.5");
  await userEvent.fill(screen.getByLabelText("Level, V"), "0.3");
  await userEvent.click(screen.getByLabelText("Shade a span"));
  await userEvent.fill(screen.getByLabelText("Its name"), "full load");
  await make();

  expect(made).toHaveLength(1);
  const { record, svg, png } = made[0]!;
  expect(record).toMatchObject({ revision: 1, headline: "The rear follows the front", paper: "A4" });
  expect(record.revises).toBeUndefined();
  const text = await svg.text();
  for (const words of ["The rear follows the front", "AB CD 123", "fuel is cut", "full load"])
    expect(text).toContain(words);
  expect(text).not.toContain(draft.job.vehicle.vin);
  expect(editsIn(text)?.notes[0]?.at).toEqual({ time: 31.5, level: 0.3 });
  expect((await createImageBitmap(png)).width).toBeGreaterThanOrEqual(2400);
});

test("a touch on the sheet says where a note points", async () => {
  const made = await open();
  await press("Add a note");
  await userEvent.fill(screen.getByLabelText("Words"), "here");
  const sheet = screen.getByRole("img", { name: /Preview/ });
  const { width, height } = sheet.getBoundingClientRect();
  await userEvent.click(sheet, { position: { x: width * 0.5, y: height * 0.3 } });
  expect(button("Point by touch").getAttribute("aria-pressed")).toBe("false");
  await make();
  const note = editsIn(await made[0]!.svg.text())!.notes[0]!;
  expect(note.laneId).toBe("sensors");
  // The lanes lie between the gutter at the left and the frame at the right: the sheet's middle is near the view's.
  expect(Math.abs(note.at.time - 30.7)).toBeLessThan(0.6);
  expect(note.at.level).toBeGreaterThan(0.4);
});

test("words are changed where they stand on the picture, and a note begun there and left empty is none", async () => {
  const made = await open();
  await press("Change headline");
  await userEvent.fill(screen.getByLabelText("Words on the picture: headline"), "Said on the picture");
  await userEvent.keyboard("{Enter}");
  await press("Change words below a measure");
  await userEvent.fill(screen.getByLabelText(/^Words on the picture: words below/), "thin to thick");
  await userEvent.keyboard("{Escape}");
  const sheet = screen.getByRole("img", { name: /Preview/ });
  const { width, height } = sheet.getBoundingClientRect();
  const twice = (x: number) => userEvent.dblClick(sheet, { position: { x: width * x, y: height * 0.42 } });
  await twice(0.3);
  await userEvent.keyboard("{Escape}");
  expect(screen.queryByRole("button", { name: "Change note 1" })).toBeNull();
  await twice(0.4);
  await userEvent.fill(screen.getByLabelText("Words on the picture: note 1"), "put here");
  await userEvent.keyboard("{Enter}");
  const before = Number(screen.getByLabelText<HTMLInputElement>("Time, s").value);
  button(/^Point of note 1/).focus();
  await userEvent.keyboard("{ArrowRight}");
  await make();
  const edits = editsIn(await made[0]!.svg.text())!;
  expect(edits.headline).toBe("Said on the picture");
  expect(Object.values(edits.labels!)).toEqual(["thin to thick"]);
  expect(edits.notes.map(({ text }) => text)).toEqual(["put here"]);
  // A hundredth of the view of 12 s.
  expect(edits.notes[0]!.at.time - before).toBeCloseTo(0.12, 2);
});

test("a note that was removed is put back where it stood among the others", async () => {
  const made = await open();
  for (const words of ["one", "two"]) {
    await press("Add a note");
    await userEvent.fill(screen.getAllByLabelText("Words").at(-1)!, words);
  }
  await press("Remove note 1");
  expect(screen.queryByRole("button", { name: "Remove note 2" })).toBeNull();
  await screen.findByText("Removed: one");
  await press("Put it back");
  expect(screen.queryByText("Removed: one")).toBeNull();
  await make();
  expect(editsIn(await made[0]!.svg.text())!.notes.map(({ text }) => text)).toEqual(["one", "two"]);
});

test("a note's words go to the side of its point that they are dragged to", async () => {
  await open();
  await press("Add a note");
  await userEvent.fill(screen.getByLabelText("Words"), "drag me");
  await press("Point by touch");
  const words = button("Change note 1");
  const at = (element: Element) => {
    const { left, top, width, height } = element.getBoundingClientRect();
    return { clientX: left + width / 2, clientY: top + height / 2, pointerId: 1, bubbles: true };
  };
  words.setPointerCapture = () => {};
  const point = at(button(/^Point of note 1/));
  words.dispatchEvent(new PointerEvent("pointerdown", at(words)));
  words.dispatchEvent(
    new PointerEvent("pointermove", { ...point, clientX: point.clientX - 30, clientY: point.clientY + 30 }),
  );
  words.dispatchEvent(new PointerEvent("pointerup", point));
  expect(screen.getByLabelText<HTMLSelectElement>("Words stand").value).toBe("below-left");
});

test("is drawn by the technician whom the intake names, else by who drew the last one", async () => {
  const drawnBy = () => screen.getByLabelText<HTMLInputElement>("Drawn by").value;
  const intake = { ...emptyIntake, technician: "T. Example" };
  await open({ draft: { ...draft, job: { ...draft.job, intake } } });
  expect(drawnBy()).toBe("T. Example");
  await make();
  cleanup();
  await open();
  expect(drawnBy()).toBe("T. Example");
});

test("a made exhibit is frozen: a change makes the next revision of the same sheet", async () => {
  const made = await open();
  await make();
  const first = await made[0]!.svg.text();
  await userEvent.fill(screen.getByLabelText("Drawn by"), "Workshop");
  await make();
  expect(made[1]!.record).toMatchObject({ revision: 2, revises: made[0]!.record.id });
  expect(made[1]!.record.id).not.toBe(made[0]!.record.id);
  expect(await made[0]!.svg.text()).toBe(first);
});

test("what storage refuses is not called kept: it can be downloaded, and kept when there is room", async () => {
  const problem = { code: "storage-full", what: "No room is left.", remedy: "Take an old job out." } as const;
  let isFull = true;
  await open({ onMade: () => (isFull ? Promise.reject(new ProblemError(problem)) : Promise.resolve()) });
  await userEvent.fill(screen.getByLabelText("Headline"), "Kept words");
  await press("Make exhibit");
  expect((await screen.findByRole("alert")).textContent).toContain("No room is left.");
  expect(screen.getByLabelText<HTMLTextAreaElement>("Headline").value).toBe("Kept words");
  expect(screen.queryByText(/kept with the job[.] A change/)).toBeNull();
  expect(button("Download PNG")).toBeTruthy();
  isFull = false;
  await press("Try to keep it again");
  await screen.findByText(/Made, and kept with the job/);
});

test("starts a revision from what the last one said", async () => {
  const made = await open();
  await userEvent.fill(screen.getByLabelText("Headline"), "First words");
  await make();
  cleanup();
  const { record, svg } = made[0]!;
  const job = { ...draft.job, exhibits: [record] };
  await open({ draft: { ...draft, job }, revises: { record, edits: editsIn(await svg.text()) } });
  expect(screen.getByLabelText<HTMLTextAreaElement>("Headline").value).toBe("First words");
  expect(screen.getByRole("dialog").textContent).toContain("sheet 1 of 1, revision 2");
});

test("has a name for everything, no fault that axe finds, and targets of 44 px", async () => {
  await open();
  await press("Add a note");
  await userEvent.click(screen.getByLabelText("Shade a span"));
  const dialog = screen.getByRole("dialog", { name: /Exhibit, sheet 1 of 1/ });
  const { violations } = await axe.run(dialog, { resultTypes: ["violations"] });
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  for (const control of dialog.querySelectorAll(
    "button, select, textarea, label.check, input:not([type=checkbox], [type=radio])",
  )) {
    expect(control.getBoundingClientRect().height, control.outerHTML).toBeGreaterThanOrEqual(44);
  }
});

test("asks before what was typed is given up, by Escape, by the cross and by Cancel; untouched it closes at once", async () => {
  let closed = 0;
  const dialog = () => screen.getByRole<HTMLDialogElement>("dialog");
  await open({ onClose: () => closed++ });
  await userEvent.fill(screen.getByLabelText("Headline"), "Half a sentence");
  // Twice, for a browser closes at the second whatever was said to the first.
  for (const leave of [() => userEvent.keyboard("{Escape}{Escape}"), () => press("Close"), () => press("Cancel")]) {
    await leave();
    await screen.findByText("What you changed on this sheet is not made yet.");
    expect([dialog().open, closed]).toEqual([true, 0]);
    await press("Go on");
  }
  expect((screen.getByLabelText("Headline") as HTMLInputElement).value).toBe("Half a sentence");
  await press("Cancel");
  await press("Discard it");
  expect(closed).toBe(1);
  cleanup();
  await open({ onClose: () => closed++ });
  await press("Cancel");
  expect(closed).toBe(2);
});
