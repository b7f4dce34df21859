/**
 * BYSETPOS: which places of a period's set are meant, from the beginning or the end, in order and each once.
 * @param size how many occurrences the set has
 * @returns places from 0
 */
export const pickPlaces = (places: readonly number[], size: number): number[] => {
  const picked = places.map((place) => (place > 0 ? place - 1 : size + place)).filter((at) => at >= 0 && at < size);
  return [...new Set(picked)].sort((one, other) => one - other);
};
