/** Whether a request wants a page rather than JSON (RFC 9110 §12.5.1). Wildcards say nothing: JSON is then answered. */

const weightOf = (accept: string, type: string): number => {
  const named = accept
    .split(",")
    .map((part) =>
      part
        .trim()
        .toLowerCase()
        .split(/\s*;\s*/),
    )
    .find(([name]) => name === type);
  if (!named) return 0;
  const weight = named.find((parameter) => parameter.startsWith("q="))?.slice(2);
  return weight === undefined ? 1 : Number(weight) || 0;
};

/** @param accept the header; undefined where there is none */
export const prefersHtml = (accept: string | undefined): boolean =>
  weightOf(accept ?? "", "text/html") > weightOf(accept ?? "", "application/json");
