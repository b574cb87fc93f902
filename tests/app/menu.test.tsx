// A list of actions that are made anew while it is open.

import { render } from "@solidjs/testing-library";
import { createSignal } from "solid-js";
import { expect, test } from "vitest";
import { Menu } from "../../src/app/parts/Menu.tsx";

test("keeps the focus where it is when its actions are made anew, and runs the new one", () => {
  const ran: string[] = [];
  const [round, setRound] = createSignal(1);
  const action = (name: string) => ({ label: name, run: () => ran.push(`${name} ${round()}`) });
  const { getByRole } = render(() => <Menu name="More" face="More" items={[action("one"), "line", action("two")]} />);
  const key = (name: string) =>
    document.activeElement!.dispatchEvent(new KeyboardEvent("keydown", { key: name, bubbles: true }));
  getByRole("button", { name: "More" }).focus();
  key("ArrowDown");
  key("ArrowDown");
  expect(document.activeElement!.textContent).toBe("two");
  setRound(2);
  expect(document.activeElement!.textContent).toBe("two");
  (document.activeElement as HTMLButtonElement).click();
  expect(ran).toEqual(["two 2"]);
  expect(document.activeElement!.textContent).toBe("More");
});
