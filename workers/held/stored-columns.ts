// Columns out of the browser's storage.

import type { Samples } from "../../src/signal/series/series.ts";
import { bytesOf, type Place, piecesOf, roomFor, type Steps, widthOf } from "../store/layout.ts";
import type { SyncHandle } from "../store/private-files.ts";

/** Bytes read at once while other work may go on between. */
const pieceSize = 8 << 20;

export class StoredColumns {
  private readonly handle: SyncHandle;

  constructor(handle: SyncHandle) {
    this.handle = handle;
  }

  /** Entries [from, to) of a column, all of it where nothing is said. */
  read(places: readonly (Place | Steps)[], from = 0, to = lengthOf(places)): Samples {
    const array = roomFor(places, to - from);
    for (const piece of piecesOf(places, from, to)) for (const _ of this.filling(array, piece));
    return array;
  }

  /** The same, with other work between. */
  async readSlowly(places: readonly (Place | Steps)[], from: number, to: number): Promise<Samples> {
    const array = roomFor(places, to - from);
    for (const piece of piecesOf(places, from, to)) {
      for (const _ of this.filling(array, piece)) await new Promise((resolve) => setTimeout(resolve, 0));
    }
    return array;
  }

  /** Fills in the entries of one place, step by step. */
  private *filling(array: Samples, { place, from, to, into }: Piece): Generator<void> {
    if (place.kind === "even") {
      for (let i = from; i < to; i++) array[into + i - from] = place.start + i * place.step;
      return;
    }
    const width = widthOf(place.kind);
    const isAlike = array.BYTES_PER_ELEMENT === width;
    const target = isAlike ? array.subarray(into, into + to - from) : roomFor([place], to - from);
    const bytes = bytesOf(target);
    for (let done = 0; done < bytes.length; done += pieceSize) {
      this.handle.read(bytes.subarray(done, done + pieceSize), { at: place.at + from * width + done });
      yield;
    }
    if (!isAlike) array.set(target, into);
  }

  close(): void {
    this.handle.close();
  }
}

interface Piece {
  readonly place: Place | Steps;
  readonly from: number;
  readonly to: number;
  readonly into: number;
}

const lengthOf = (places: readonly { readonly length: number }[]) =>
  places.reduce((sum, { length }) => sum + length, 0);
