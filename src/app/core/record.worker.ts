// Reads one job record and ends: parsing and checking megabytes would hold up the page.

import { readJob } from "../../job/record/format.ts";

self.onmessage = ({ data }: MessageEvent<{ readonly text: string; readonly where: string }>) => {
  self.postMessage(readJob(data.text, data.where));
};
