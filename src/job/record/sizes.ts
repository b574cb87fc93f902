// How much a job record may hold. More is told, never cut: the page stays quick, and no file from elsewhere can drown it.

/** Entries of a list. */
export const most = {
  captures: 200,
  exhibits: 1_000,
  /** Of one recording, as each of the following. */
  dimensions: 1_000,
  lanes: 5_000,
  channels: 5_000,
  liftOffEdits: 5_000,
  stretchEdits: 5_000,
  places: 1_000,
  companions: 50,
  banded: 200,
  parts: 1_000,
  codes: 500,
  photos: 200,
  photosOnSheet: 4,
  choices: 20,
  sheets: 200,
  lines: 100,
} as const;

/** Characters. */
export const longest = {
  name: 500,
  label: 500,
  id: 500,
  fileName: 1_000,
  sentence: 5_000,
  notes: 100_000,
} as const;

/** Bytes of a whole record, as text. */
export const heaviestRecord = 32e6;
