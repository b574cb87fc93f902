// Arrays lent for the time of one piece of work: memory that was never touched is the dearest part of a long loop.

/** Values beyond which an array is not kept, and so many that are kept in all: 8 MB. */
const longestKept = 1 << 18;
const mostKept = 1 << 20;

const free: Float64Array<ArrayBuffer>[] = [];
let keptValues = 0;

/** Answers an array of so many values; what is in it is left over from other work. */
export type Room = (length: number) => Float64Array<ArrayBuffer>;

/**
 * Does the work with arrays that are taken back once it is done: none may be in its answer. Whole work, not in turns with other
 * work. Filling 1.6 MB of fresh memory takes a hundred times as long as of memory in use.
 */
export function inRoom<T>(work: (room: Room) => T): T {
  const lent: Float64Array<ArrayBuffer>[] = [];
  try {
    return work((length) => {
      const whole = take(length);
      lent.push(whole);
      return whole.subarray(0, length);
    });
  } finally {
    lent.forEach(giveBack);
  }
}

/** The shortest that is long enough, and not so long that it is wasted. */
function take(length: number): Float64Array<ArrayBuffer> {
  let best = -1;
  for (let k = 0; k < free.length; k++) {
    const size = free[k]!.length;
    if (size >= length && size <= 8 * length + 4096 && (best < 0 || size < free[best]!.length)) best = k;
  }
  if (best < 0) return new Float64Array(length);
  const [found] = free.splice(best, 1);
  keptValues -= found!.length;
  return found!;
}

function giveBack(array: Float64Array<ArrayBuffer>): void {
  if (array.length > longestKept) return;
  free.push(array);
  keptValues += array.length;
  while (keptValues > mostKept) keptValues -= free.shift()!.length;
}
