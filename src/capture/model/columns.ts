// A column of numbers that grows while a file is read.

import type { Samples } from "../../signal/series/series.ts";

export type Precision = "single" | "double";

/**
 * Numbers in the order they were pushed. `values` is longer than `length`; a fast writer may reserve room, write straight into
 * `values` and raise `length`. First touch of fresh memory costs more than parsing, so reserve once and well.
 */
export class Column {
  values: Samples;
  length = 0;
  /** No NaN among them; who writes into `values` says where there is one. */
  isFull = true;

  constructor(precision: Precision, capacity = 1024) {
    this.values = precision === "single" ? new Float32Array(capacity) : new Float64Array(capacity);
  }

  push(value: number): void {
    if (Number.isNaN(value)) this.isFull = false;
    if (this.length === this.values.length) this.reserve(this.length * 2);
    this.values[this.length++] = value;
  }

  /** Copies `count` numbers, one of each `stride` from `first` on. `isFull` stays as it is. */
  append(numbers: Float64Array, first: number, stride: number, count: number): void {
    const { length } = this;
    const wanted = length + count;
    this.makeRoom(count);
    const { values } = this;
    for (let i = length, k = first; i < wanted; i++, k += stride) values[i] = numbers[k]!;
    this.length = wanted;
  }

  /** Holds double precision from here on. What is stored already stays as it was rounded. */
  widen(): void {
    if (this.values instanceof Float64Array) return;
    const wider = new Float64Array(this.values.length);
    wider.set(this.values.subarray(0, this.length));
    this.values = wider;
  }

  /** The numbers so far, not copied: good until the next is pushed. */
  soFar(): Samples {
    return this.values.subarray(0, this.length);
  }

  /** Lets go of the first `count` numbers; what `soFar` gave is overwritten. */
  drop(count: number): void {
    this.values.copyWithin(0, count, this.length);
    this.length -= count;
  }

  /** Makes room for `count` more, and some beside where the old room does not do. */
  makeRoom(count: number): void {
    const wanted = this.length + count;
    if (wanted > this.values.length) this.reserve(Math.max(wanted, this.length * 2));
  }

  /** Makes room for `capacity` values in all; never less than it holds. */
  reserve(capacity: number): void {
    if (capacity <= this.values.length) return;
    const Kind = this.values instanceof Float32Array ? Float32Array : Float64Array;
    const wider = new Kind(capacity);
    wider.set(this.values.subarray(0, this.length));
    this.values = wider;
  }

  /** The numbers, without copying where little room is left over. */
  finish(): Samples {
    const used = this.values.subarray(0, this.length);
    return this.values.length - this.length > this.length / 4 + 1024 ? used.slice() : used;
  }
}
