/** Words that somebody outside wrote, as they stand on the desk's pages: they turn nothing round but themselves. */
import type { FC } from "hono/jsx";
import { shownWords } from "../evidenceWords.ts";

export const Their: FC<{ words: string }> = ({ words }) => <bdi>{shownWords(words)}</bdi>;
