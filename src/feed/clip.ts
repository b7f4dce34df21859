/** Shortens text to what a calendar shows. Never cuts a character in two. */

/** At most `most` UTF-16 units; what was cut is marked by an ellipsis. */
export const clip = (text: string, most: number): string => {
  if (text.length <= most) return text;
  const kept = text.slice(0, most - 1);
  return `${/[\ud800-\udbff]$/.test(kept) ? kept.slice(0, -1) : kept}…`;
};
