// How much of recordings may be held in memory on this machine.

import { usualRoom } from "../held/held-capture.ts";

const share = 0.25;
/** A machine that says nothing of its memory has at least so much, GiB (own choice: a small tablet). */
const unsaid = 4;

/**
 * A quarter of the machine's memory, and never more than what is usual.
 *
 * @param memory  GiB as the browser tells it, roughly; not every browser does.
 * @returns bytes.
 */
export const roomOf = (memory: number = unsaid): number => Math.min(usualRoom, share * memory * 2 ** 30);
