// Starts the page.

import "./theme.css";
import { render } from "solid-js/web";
import { startCaptureClient } from "../../workers/client.ts";
import { makeJobStore } from "../job/storage/store.ts";
import { App } from "./App.tsx";

const service = startCaptureClient();
render(() => <App service={service} store={makeJobStore()} />, document.getElementById("app")!);
