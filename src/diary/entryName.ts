/** What the key of an entry says of it. A key is `UID`, `UID/original start`, and may end in `#2`, `#3` …. Pure text. */

const NUMBER = /#\d+$/;
const ORIGINAL_START = /\/\d{4}-\d\d-\d\d(?:T\d\d:\d\d:\d\dZ)?$/;

/** Whether the file gives this name to several entries, so that the number behind it hangs on the file's order. */
export const isNumbered = (key: string): boolean => NUMBER.test(key);

/** The key without that number. */
export const entryName = (key: string): string => key.replace(NUMBER, "");

/** The UID that an entry shares with all others of its series. */
export const seriesOf = (key: string): string => entryName(key).replace(ORIGINAL_START, "");
