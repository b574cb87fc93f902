// The form of a raw layout: what is refused stays in its field with the reason, and takes nothing else away.

import { cleanup, render, screen } from "@solidjs/testing-library";
import { createSignal } from "solid-js";
import { afterEach, expect, test } from "vitest";
import { userEvent } from "vitest/browser";
import { RawLayoutFields } from "../../src/app/opening/RawLayoutFields.tsx";

afterEach(cleanup);

const said = "16-bit whole, low byte first, 2 channels, 1000 per second";

function putUp() {
  const [layout, setLayout] = createSignal(said);
  render(() => <RawLayoutFields layout={layout()} isScaleOnly={false} onChange={setLayout} />);
  return layout;
}

const field = (name: string) => screen.getByLabelText(name) as HTMLInputElement;

test.each(["V, names a", "a;b", "rate=5", "1/s,"])(
  "a unit %s leaves the rest as it was said, and says why",
  async (unit) => {
    const layout = putUp();
    await userEvent.fill(field("Unit"), unit);
    expect(field("Unit").value).toBe(unit);
    expect(layout()).toBe(said);
    screen.getByText(/A unit holds no comma/);
    await userEvent.fill(field("Unit"), "constructor");
    expect(layout()).toBe(`${said}, unit constructor`);
    expect(screen.queryByText(/A unit holds no comma/)).toBeNull();
  },
);

test.each([
  ["Channels", "0", ", 2 channels"],
  ["Channels", "1.5", ", 2 channels"],
  ["Samples per second", "-5", ", 1000 per second"],
  ["Bytes to skip at the beginning", "-1", ""],
])("%s of %s is not taken, and the reason is told", async (name, typed, gone) => {
  const layout = putUp();
  await userEvent.fill(field(name), typed);
  await userEvent.keyboard("{Tab}");
  expect(field(name).value).toBe(typed);
  expect(field(name).validationMessage).toMatch(/is wanted. It was not taken/);
  expect(layout()).toBe(said.replace(gone, ""));
});
