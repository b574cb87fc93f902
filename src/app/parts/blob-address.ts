// An address under which the page shows a picture out of storage, given back when it shows another or none.

import { type Accessor, createEffect, createResource, onCleanup } from "solid-js";

/**
 * @param load  what is to be shown, read anew whenever a signal that `of` reads changes; null where it is not in storage.
 * @returns undefined until it is there, and where there is none.
 */
export function createBlobAddress<T>(
  of: Accessor<T>,
  load: (one: T) => Promise<Blob | null>,
): Accessor<string | undefined> {
  const [address] = createResource(of, async (one) => {
    const blob = await load(one);
    return blob ? URL.createObjectURL(blob) : undefined;
  });
  createEffect(() => {
    const held = address();
    if (held) onCleanup(() => URL.revokeObjectURL(held));
  });
  return address;
}
