/** The first of a list that cannot be empty. */
export function one_of<T>(list: readonly T[]): T {
  const [first] = list;
  if (first === undefined) throw new RangeError('an empty list');
  return first;
}
