// A map whose values are made when they are first asked for.

export function getOrMake<K, V>(map: Map<K, V>, key: K, make: (key: K) => V): V {
  const known = map.get(key);
  if (known !== undefined) return known;
  const made = make(key);
  map.set(key, made);
  return made;
}
