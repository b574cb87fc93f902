// Under which names a photo is kept with its job.

export interface PhotoNames {
  /** As it was taken. */
  readonly original: string;
  /** Scaled for the screen and for paper. */
  readonly scaled: string;
}

/** @param id  SHA-256 of the photo as it was taken. */
export const photoNames = (id: string): PhotoNames => ({ original: `photo-${id}`, scaled: `photo-${id}.jpg` });
