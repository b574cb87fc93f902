// How often a picture of what has been read so far is worth its price.

/** A first picture must not wait. */
export const firstPictureRows = 20_000;
/** The next is due at eight times the rows: all together cost a seventh of what the last one would. */
const growth = 8;
/** Or after so many ms, where a file is long, and after as much reading as makes pictures a twentieth of the time. */
const longestWait = 250;
const readingPerPicture = 19;

export class PartialPace {
  #rows = firstPictureRows;
  #time = Number.POSITIVE_INFINITY;

  /** Shows what there is where a picture is due. */
  offer(rows: number, show: () => void): void {
    const began = performance.now();
    if (rows < this.#rows && began < this.#time) return;
    show();
    const took = performance.now() - began;
    this.#rows = rows * growth;
    this.#time = began + took + Math.max(longestWait, readingPerPicture * took);
  }
}
