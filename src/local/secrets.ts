/** The secrets of a service on one's own machine: from the environment, else from .dev.vars, else made and kept there. */
import { randomBytes } from "node:crypto";
import { appendFileSync, chmodSync, existsSync, readFileSync } from "node:fs";

const FILE = ".dev.vars";
const NAMES = ["OPERATOR_KEY", "LINK_SECRET"] as const;

export type Secrets = Readonly<Record<(typeof NAMES)[number], string>>;

const readFile = (): Map<string, string> => {
  const found = new Map<string, string>();
  if (!existsSync(FILE)) return found;
  for (const line of readFileSync(FILE, "utf8").split("\n")) {
    const [, name, value] = /^\s*([A-Z_]+)\s*=\s*"?([^"\n]*)"?\s*$/.exec(line) ?? [];
    if (name && value) found.set(name, value);
  }
  return found;
};

/** Makes what is missing, once; the file is for this user's eyes only. */
export const findSecrets = (): { readonly secrets: Secrets; readonly made: readonly string[] } => {
  const kept = readFile();
  const made: string[] = [];
  const entries = NAMES.map((name) => {
    const given = process.env[name] ?? kept.get(name);
    if (given) return [name, given];
    const value = randomBytes(30).toString("base64url");
    appendFileSync(FILE, `${name}="${value}"\n`);
    chmodSync(FILE, 0o600);
    made.push(name);
    return [name, value];
  });
  return { secrets: Object.fromEntries(entries) as Secrets, made };
};
