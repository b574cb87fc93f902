// A list of numbers that grows while a signal is walked through, and ends as a typed array.

/** Room doubles when it is full, so that a push costs the same on average however many came before. */
export class NumberList {
  #items = new Float64Array(64);
  #count = 0;

  get length(): number {
    return this.#count;
  }

  push(value: number): void {
    if (this.#count === this.#items.length) {
      const wider = new Float64Array(2 * this.#count);
      wider.set(this.#items);
      this.#items = wider;
    }
    this.#items[this.#count++] = value;
  }

  /** The last number; NaN while empty. */
  last(): number {
    return this.#count === 0 ? NaN : this.#items[this.#count - 1]!;
  }

  /** A new array of exactly the numbers pushed so far. */
  toArray(): Float64Array<ArrayBuffer> {
    return this.#items.slice(0, this.#count);
  }
}
