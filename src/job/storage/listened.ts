// Storage that tells when the browser closes it by itself, as it does where a person empties it under the open page.

import type { UseStore } from "idb-keyval";

/** The same store. @param onClosed  told of each connection that was closed by nobody here. */
export function listened(store: UseStore, onClosed: () => void): UseStore {
  const known = new WeakSet<IDBDatabase>();
  return (mode, work) =>
    store(mode, (objects) => {
      const { db } = objects.transaction;
      if (!known.has(db)) db.addEventListener("close", onClosed);
      known.add(db);
      return work(objects);
    });
}
