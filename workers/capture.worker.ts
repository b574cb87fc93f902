// The capture worker: only offers the service.

import { expose } from "comlink";
import { createCaptureService } from "./capture-service.ts";
import { engine } from "./real-engine.ts";

expose(createCaptureService(engine));
