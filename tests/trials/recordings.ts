// Recordings of the trials' own making: two sensors that switch and an engine speed, each file with bytes of its own.

import { strToU8 } from "fflate";

/** @param mark  told apart by it: it is in the samples. */
export function recording(rows: number, mark: number): Uint8Array<ArrayBuffer> {
  const line = (i: number) => {
    const front = 0.45 + 0.4 * Math.sign(Math.sin(i / 7 + mark));
    const rear = 0.6 + 0.1 * Math.sin(i / 31 + mark);
    return `${(i / 50).toFixed(2)},${front.toFixed(3)},${rear.toFixed(4)},${1800 + ((i + mark) % 90)}`;
  };
  const lines = Array.from({ length: rows }, (_, i) => line(i)).join("\n");
  return strToU8(
    `Time (s),Front O2 B1S1 (V),Rear O2 B1S2 (V),Engine speed (rpm)\n${lines}\n`,
  ) as Uint8Array<ArrayBuffer>;
}
