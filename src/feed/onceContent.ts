/** An event of a file that is imported once: it says so first, since nothing will ever change it there. */
import type { Settings } from "../settings.ts";
import { fill } from "./fill.ts";
import { catalogueOf } from "./language/catalogueOf.ts";
import type { EventContent } from "./types.ts";

export const onceContent = (content: EventContent, language: Settings["language"]): EventContent => {
  const { once, onceNoPage } = catalogueOf(language).feed;
  const words = content.url === null ? onceNoPage : fill(once, { url: content.url });
  return { ...content, description: `${words}\n\n${content.description}` };
};
