// The capture worker: only offers the service.

import { expose } from "comlink";
import { captureStore } from "../store/capture-store.ts";
import { createCaptureService } from "./capture-service.ts";
import { engine } from "./real-engine.ts";
import { sentService } from "./tickets.ts";

captureStore.sweep().catch(() => {}); // without storage there is nothing to sweep
expose(sentService(createCaptureService(engine)));
