// Starts the page.

import "./core/language.ts";
import "./theme.css";
import { render } from "solid-js/web";
import { startCaptureClient } from "../../workers/client.ts";
import { makeJobStore } from "../job/storage/store.ts";
import { App } from "./App.tsx";
import { readRecordBeside } from "./core/read-record.ts";

/** Where the page hears that a part of the program was started again. */
const revivals = new EventTarget();
const service = startCaptureClient({
  onRevived: (problem) => revivals.dispatchEvent(new CustomEvent("revived", { detail: problem })),
});
render(
  () => <App service={service} store={makeJobStore(undefined, readRecordBeside)} revivals={revivals} />,
  document.getElementById("app")!,
);

/** A technician takes longer than this, ms, to choose a file. */
const beforeChoosing = 1000;
const rehearse = () => service.rehearse().catch(() => {}); // what fails here is told when it is wanted
setTimeout(() => (window.requestIdleCallback ?? setTimeout)(rehearse), beforeChoosing); // WebKit knows no idle moments
