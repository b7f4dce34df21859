/** Text as it stands in HTML, between tags and in quoted attributes: for the few places that write HTML as text. */
const MARKS: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

export const escapeHtml = (text: string): string => text.replaceAll(/[&<>"']/g, (mark) => MARKS[mark] as string);
