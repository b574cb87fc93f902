// How often a first picture is worth its price while a long file is read.

/** A first picture must not wait, and all pictures together must not cost more than the reading. */
export const firstPictureRows = 20_000;
const growth = 1.6;

export class PartialPace {
  #next = firstPictureRows;

  /** Whether enough has come since the last time; if so, this is the last time from now on. */
  isDue(rows: number): boolean {
    if (rows < this.#next) return false;
    this.#next = rows * growth;
    return true;
  }
}
