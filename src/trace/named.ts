// Lists of named things that are replaced, never changed.

/** The list with the one of that name changed; the same list where there is none, or where nothing changed. */
export function changed<T extends { readonly name: string }>(
  list: readonly T[],
  name: string,
  change: (one: T) => T,
): readonly T[] {
  const index = list.findIndex((one) => one.name === name);
  const one = list[index];
  if (one === undefined) return list;
  const next = change(one);
  return next === one ? list : list.with(index, next);
}
