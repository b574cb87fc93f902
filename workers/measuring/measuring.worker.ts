// Measures beside the capture worker, so that the view can be moved meanwhile.

import { expose } from "comlink";
import { ColumnsHeld } from "./columns-held.ts";

expose(new ColumnsHeld());
