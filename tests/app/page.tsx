// Puts the page up with a made-up service and a store of its own, for component tests.

import { configure, render, screen } from "@solidjs/testing-library";
import { userEvent } from "vitest/browser";
import { App } from "../../src/app/App.tsx";
import { makeJobStore } from "../../src/job/storage/store.ts";
import { type FakeService, fakeService } from "./fake-service.ts";
import "../../src/app/theme.css";

// A busy machine takes seconds for what takes a tenth of one here; what never comes fails all the same.
configure({ asyncUtilTimeout: 15_000 });

export interface Up {
  readonly service: FakeService;
  readonly storeName: string;
  readonly takeDown: () => void;
}

export function putUp(storeName = `test-${crypto.randomUUID()}`): Up {
  const service = fakeService();
  const host = document.body.appendChild(document.createElement("div"));
  host.id = "app";
  const { unmount } = render(() => <App service={service} store={makeJobStore(storeName)} />, { container: host });
  const takeDown = () => {
    unmount();
    host.remove();
  };
  return { service, storeName, takeDown };
}

/** Drops a small text file on the page. */
export function dropFile(name: string): void {
  const transfer = new DataTransfer();
  transfer.items.add(new File(["time,v\n0,1\n1,2\n"], name, { type: "text/csv" }));
  document.body.dispatchEvent(new DragEvent("drop", { dataTransfer: transfer, bubbles: true, cancelable: true }));
}

export const button = (name: string | RegExp) => screen.findByRole("button", { name });
export const press = async (name: string | RegExp) => userEvent.click(await button(name));

/** The page with a recording on its bench and its lift-offs found. */
export async function putUpBench(): Promise<Up> {
  const up = putUp();
  dropFile("made-up.csv");
  await button(/^Lift-off 1 at/);
  return up;
}
