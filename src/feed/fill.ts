/** Fills the names in a language file's text. Never reads what is filled in: braces in a client's name stay braces. */

/** @throws where the text asks for a name that is not given: a fault of the code or of a language file, not of data. */
export const fill = (text: string, values: Readonly<Record<string, string>>): string =>
  text.replace(/\{(\w+)\}/g, (_, name: string) => {
    const value = values[name];
    if (value === undefined) throw new Error(`No value for {${name}} in "${text}"`);
    return value;
  });
