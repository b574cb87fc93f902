// Whether edges keep step with the samples: then all of them hide alike between their samples, and their errors add up.

/** How many changes of side there were, and how many of them fell elsewhere between their samples than those before. */
export class EdgeCount {
  #count = 0;
  /** One, and one more for each spell that holds another number of samples than the spell of its side before. */
  #independent = 1;
  #last = NaN;
  /** Samples in the last spell above, and below. */
  readonly #spells = [NaN, NaN];

  /** @param place  of the first sample on the other side, counted in samples. @param isAbove  whether that lies above. */
  change(place: number, isAbove: boolean): void {
    this.#count++;
    const spell = place - this.#last;
    const side = isAbove ? 1 : 0;
    const before = this.#spells[side]!;
    if (!Number.isNaN(spell)) {
      if (!Number.isNaN(before) && spell !== before) this.#independent++;
      this.#spells[side] = spell;
    }
    this.#last = place;
  }

  /** A gap: how long the spell before it went on is not known. */
  breakOff(): void {
    this.#last = NaN;
  }

  /** By how much errors that are alike in edges that keep step exceed the root of the sum of their squares; 1 where none do. */
  get alike(): number {
    return Math.max(1, Math.sqrt(this.#count / this.#independent));
  }
}
