// The rooms of a layer: its folders, and the files at its root. What dependency-cruiser saw, as a graph of rooms.

export interface Module {
  readonly source: string;
  readonly dependencies: readonly { readonly resolved: string }[];
}

export interface Rooms {
  readonly layer: string;
  /** Folder names, and names of files at the root; each with the rooms it imports. */
  readonly imports: ReadonlyMap<string, ReadonlySet<string>>;
}

const split = (path: string): { readonly layer: string; readonly room: string } | null => {
  const [, layer, room] = /^(src\/[^/]+|workers)\/([^/]+)/.exec(path) ?? [];
  return layer && room && !/^src\/[^/]+[.]/.test(path) ? { layer, room } : null;
};

export function roomsOf(modules: readonly Module[]): readonly Rooms[] {
  const layers = new Map<string, Map<string, Set<string>>>();
  for (const { source, dependencies } of modules) {
    const from = split(source);
    if (!from) continue;
    const rooms = layers.get(from.layer) ?? new Map<string, Set<string>>();
    layers.set(from.layer, rooms);
    const imports = rooms.get(from.room) ?? new Set<string>();
    rooms.set(from.room, imports);
    for (const { resolved } of dependencies) {
      const to = split(resolved);
      if (to?.layer === from.layer && to.room !== from.room) imports.add(to.room);
    }
  }
  return [...layers].map(([layer, imports]) => ({ layer, imports }));
}

/** Rooms from which a way of imports leads back to themselves, one line for each layer and circle. */
export function circles({ layer, imports }: Rooms): readonly string[] {
  const reached = (from: string): ReadonlySet<string> => {
    const seen = new Set<string>();
    const todo = [...(imports.get(from) ?? [])];
    for (let room = todo.pop(); room !== undefined; room = todo.pop()) {
      if (seen.has(room)) continue;
      seen.add(room);
      todo.push(...(imports.get(room) ?? []));
    }
    return seen;
  };
  const ways = new Map([...imports.keys()].map((room) => [room, reached(room)] as const));
  const together = (a: string, b: string) => ways.get(a)?.has(b) && ways.get(b)?.has(a);
  const names = [...imports.keys()].filter((room) => together(room, room));
  const lines = names.map((room) => names.filter((other) => together(room, other)).sort());
  return [...new Set(lines.map((rooms) => `${layer}: ${rooms.join(" <-> ")}`))];
}

/**
 * Files at the root of a layer that both import rooms and are imported by them: neither the entry (imports rooms,
 * imported by none) nor ground (imported by rooms, importing none).
 */
export function halfway({ layer, imports }: Rooms): readonly string[] {
  const isFile = (room: string) => /[.]\w+$/.test(room);
  const rooms = [...imports].filter(([room]) => !isFile(room));
  return [...imports].flatMap(([file, its]) => {
    if (!isFile(file)) return [];
    const takes = [...its].some((room) => !isFile(room));
    const isTaken = rooms.some(([, wanted]) => wanted.has(file));
    return takes && isTaken ? [`${layer}/${file}`] : [];
  });
}
