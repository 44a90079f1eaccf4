/** A table's own entry: a part called `toString` must not find what every object has. */
export const entry = <T>(table: Readonly<Record<string, T>>, key: string): T | undefined =>
  Object.hasOwn(table, key) ? table[key] : undefined
