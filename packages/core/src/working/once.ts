// What takes time is made when it is first asked for, and once: all who ask speak of the same numbers.

export function later<T extends object>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

/** The same for each object; it is forgotten with the object. */
export function onceForEach<K extends object, V>(make: (of: K) => V): (of: K) => V {
  const made = new WeakMap<K, V>();
  return (of) => {
    if (!made.has(of)) made.set(of, make(of));
    return made.get(of) as V;
  };
}
