// The main states of the page, each reached as a user reaches it. The accessibility test visits them; the pictures show them.

import type { Page } from "playwright";
import { dropFiles, liftOffs, openFile, samplePath, thinned } from "./steps.ts";

export interface State {
  readonly name: string;
  /** The state that it is reached from, as a user who goes on; from a fresh page without. */
  readonly after?: string;
  readonly reach: (page: Page) => Promise<void>;
}

/** The states that lead to one from a fresh page, and it. */
export function wayTo(state: State): readonly State[] {
  const before = states.find(({ name }) => name === state.after);
  return before ? [...wayTo(before), state] : [state];
}

/** Those that one visit goes through: each ends where no other goes on from. */
export const visits = (): readonly (readonly State[])[] =>
  states.filter(({ name }) => states.every(({ after }) => after !== name)).map(wayTo);

/** With the sample job come known-good traces on the shelf. */
const openSampleJob = async (page: Page) => {
  await page.getByRole("button", { name: /sample job/i }).click();
  await liftOffs(page, 3);
};

const openSample = async (page: Page, file = "dead-catalyst-scope") => {
  await openFile(page, file.endsWith("-scope") ? thinned(file) : samplePath(file));
  await liftOffs(page, 3);
};

const openLiftOff = async (page: Page) => {
  await page.getByRole("button", { name: /^Lift-off 1 at/ }).click();
  await page.getByRole("slider", { name: /front to rear/ }).waitFor();
};

const shut = (page: Page) => page.getByRole("dialog").getByRole("button", { name: "Close" }).first().click();

const dragPair = async (page: Page, tool: string, from: readonly [number, number], to: readonly [number, number]) => {
  await page.getByRole("button", { name: tool, exact: true }).click();
  const box = (await page.getByRole("application").boundingBox())!;
  await page.mouse.move(box.x + box.width * from[0], box.y + from[1]);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * to[0], box.y + to[1], { steps: 6 });
  await page.mouse.up();
  await page.keyboard.press("Escape");
};

export const states: readonly State[] = [
  { name: "empty", reach: async () => {} },
  { name: "sample-open", reach: openSample },
  { name: "polled-open", reach: (page) => openSample(page, "good-catalyst-polled.csv") },
  { name: "lift-off", after: "sample-open", reach: openLiftOff },
  {
    name: "exhibit",
    after: "lift-off",
    reach: async (page) => {
      await page.getByRole("button", { name: "Make exhibit" }).first().click();
      await page
        .getByRole("dialog")
        .getByRole("img", { name: /Preview/ })
        .waitFor();
    },
  },
  {
    name: "readings",
    after: "exhibit",
    reach: async (page) => {
      await shut(page);
      await page.getByRole("region", { name: "Readings" }).scrollIntoViewIfNeeded();
      await page.getByRole("button", { name: /^Front, Rich to lean/ }).click();
    },
  },
  {
    name: "cursors",
    after: "readings",
    reach: async (page) => {
      await dragPair(page, "Time pair", [0.3, 150], [0.7, 150]);
      await dragPair(page, "Level pair", [0.5, 60], [0.5, 200]);
    },
  },
  {
    name: "reading-out",
    after: "cursors",
    reach: async (page) => {
      await page.keyboard.press("r");
      await page.keyboard.press("m");
      await page.keyboard.press("Shift+ArrowRight");
      await page.getByRole("button", { name: "Values", exact: true }).click();
      await page.getByRole("row", { name: /^Engine speed/ }).waitFor();
    },
  },
  {
    name: "channels",
    reach: async (page) => {
      await openSample(page, "dead-catalyst-polled.csv");
      await page.getByRole("tab", { name: "Channels" }).click();
      await page.getByRole("group").filter({ hasText: "Front O2 sensor" }).first().click();
    },
  },
  {
    name: "job",
    after: "channels",
    reach: async (page) => {
      await page.getByRole("tab", { name: "Job" }).click();
    },
  },
  {
    name: "same-run",
    reach: async (page) => {
      await openSample(page, "good-catalyst-scope");
      await openFile(page, samplePath("good-catalyst-polled.csv"));
      await page.getByRole("button", { name: "Same run: add to its time axis" }).click();
      await page.getByRole("tab", { name: "Job" }).click();
      await page.getByRole("button", { name: "Take it off this time axis" }).waitFor({ timeout: 60_000 });
    },
  },
  {
    name: "guide",
    after: "job",
    reach: async (page) => {
      await page.getByRole("button", { name: "Recording guide" }).click();
      await page.getByRole("dialog").waitFor();
    },
  },
  {
    name: "papers",
    after: "empty",
    reach: async (page) => {
      await page.getByRole("button", { name: /Begin with the complaint/ }).click();
      const papers = page.getByRole("dialog");
      await papers.getByRole("button", { name: "Codes", exact: true }).click();
      await papers.getByLabel(/Type or paste codes/).fill("P0420, P0171, P0304 pending");
      await papers.getByRole("button", { name: "Take over" }).click();
      await papers
        .getByRole("button", { name: /Before clearing/ })
        .first()
        .click();
      await papers.getByText("Do not clear codes yet.").waitFor();
    },
  },
  {
    name: "other-causes",
    after: "guide",
    reach: async (page) => {
      await shut(page);
      await page.getByRole("button", { name: "Job papers" }).first().click();
      await page.getByRole("dialog").getByRole("button", { name: "Other causes" }).click();
    },
  },
  {
    name: "shelf",
    reach: async (page) => {
      await openSampleJob(page);
      await page.getByRole("button", { name: "Compare", exact: true }).click();
      await page
        .getByRole("button", { name: /^Compare with/ })
        .first()
        .waitFor();
    },
  },
  {
    name: "compare",
    after: "shelf",
    reach: async (page) => {
      await page
        .getByRole("button", { name: /^Compare with/ })
        .first()
        .click();
      await page.getByRole("region", { name: "Differences" }).waitFor({ timeout: 60_000 });
    },
  },
  {
    name: "problem",
    after: "other-causes",
    reach: async (page) => {
      await shut(page);
      await dropFiles(page, [{ name: "empty.csv", bytes: null }]);
      await page.getByRole("alert", { name: "Problem" }).waitFor();
    },
  },
];
