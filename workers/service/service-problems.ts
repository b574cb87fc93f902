// What can stand against an answer about a recording.

import type { Problem } from "../../src/problem.ts";

export const tooMuchToSave: Problem = {
  code: "too-large",
  what: "The browser has no room for a file of so much.",
  remedy: "Free space on the disk, or choose a shorter span or fewer channels.",
};

export const savingCancelled: Problem = {
  code: "cancelled",
  what: "Nothing was written: it was cancelled.",
  remedy: "Begin again when you want it.",
};

export const notAtHand: Problem = {
  code: "unreadable",
  what: "This recording is not at hand any more.",
  remedy: "Open its file again.",
};

export const notKept: Problem = {
  code: "unreadable",
  what: "This recording is not in the browser's storage: it was not kept, or the browser has cleared it.",
  remedy: "Open its file again; the job's marks on it are still there.",
};

export const keepsNothing: Problem = {
  code: "storage-denied",
  what: "The browser keeps no recordings for a page that came over plain http from another machine: this recording will not be here after a reload.",
  remedy: "Open the page on the machine that serves it, or over https; until then save the job as a bundle.",
};

export const fileNotKept: Problem = {
  code: "unreadable",
  what: "The browser's storage holds what was read of this recording, but had no room for its file as well.",
  remedy: "Open its file again to have it read another way; the job's marks on it stay.",
};

export const columnsDamaged: Problem = {
  code: "damaged",
  what: "What the browser's storage holds of this recording is not what was written into it.",
  remedy: "It is read anew from its file where that is kept; else open the file again. The job's marks on it stay.",
};

export const fileDamaged = (name: string): Problem => ({
  code: "damaged",
  what: "The bytes that the browser's storage holds of this recording's file are not those that were opened.",
  where: name,
  remedy: "Open the file again; the job's marks on it stay.",
});

export const fileVanished = (name: string): Problem => ({
  code: "unreadable",
  what: `${name} vanished while it was being kept: its stick was pulled, or it was moved or removed.`,
  where: name,
  remedy: "What was read of it is kept, its file is not: open it again, or bundles of this job will lack it.",
});
