// Plug flow through a pipe: what leaves now went in when the gas that filled the pipe had not yet followed.

/**
 * @param volume litres passed since the start, per step; never falls.
 * @param litres of the pipe.
 * @returns what leaves at step i of what went in; call with i rising by one. Before anything has come through: in[0].
 */
export function createPipe(volume: Float64Array, litres: number): (input: Float64Array, i: number) => number {
  let behind = 0;
  return (input, i) => {
    const wanted = volume[i]! - litres;
    while (behind < i && volume[behind + 1]! <= wanted) behind++;
    if (wanted <= volume[0]!) return input[0]!;
    if (behind >= i) return input[i]!;
    const share = (wanted - volume[behind]!) / (volume[behind + 1]! - volume[behind]!);
    // The step in hand may not be written yet: take the one before it.
    const next = behind + 1 < i ? input[behind + 1]! : input[behind]!;
    return input[behind]! + (next - input[behind]!) * share;
  };
}
