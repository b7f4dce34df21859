/**
 * What somebody typed, on top of what was saved meanwhile: a field that was left alone takes what is saved now, one that was
 * changed keeps what was typed. Pure.
 */
import type { Typed } from "./rulesForm.ts";

export interface Merged {
  readonly typed: Typed;
  /** Fields that show now what was saved meanwhile. */
  readonly taken: readonly string[];
  /** Fields that both have changed, left as they were typed. */
  readonly both: readonly string[];
}

/** Rows of services belong together: one that was put in or taken out moves all below it. */
const groupOf = (name: string): string => (name.startsWith("service.") ? "services" : name);

const byGroup = (typed: Typed): ReadonlyMap<string, string> =>
  new Map(
    [
      ...Map.groupBy(
        [...typed].filter(([, text]) => text.trim() !== ""),
        ([name]) => groupOf(name),
      ),
    ].map(([group, fields]) => [
      group,
      JSON.stringify(fields.map(([name, text]) => `${name}=${text.replace(/\r\n?/g, "\n")}`).toSorted()),
    ]),
  );

/**
 * @param typed what came, fields of the form alone
 * @param seen what the form was filled with
 * @param now what it would be filled with now
 */
export const mergeTyped = (typed: Typed, seen: Typed, now: Typed): Merged => {
  const [mine, was, is] = [typed, seen, now].map(byGroup) as [
    ReadonlyMap<string, string>,
    ReadonlyMap<string, string>,
    ReadonlyMap<string, string>,
  ];
  const groups = [...new Set([...typed.keys(), ...now.keys()].map(groupOf))];
  const asked = new Set([...typed.keys()].map(groupOf));
  const isMine = (group: string): boolean => asked.has(group) && mine.get(group) !== was.get(group);
  const isTheirs = (group: string): boolean => is.get(group) !== was.get(group);
  const merged = new URLSearchParams([
    ...[...typed].filter(([name]) => isMine(groupOf(name))),
    ...[...now].filter(([name]) => !isMine(groupOf(name))),
  ]);
  const isOtherwise = (group: string): boolean => mine.get(group) !== is.get(group);
  return {
    typed: merged,
    taken: groups.filter((group) => isTheirs(group) && !isMine(group)),
    both: groups.filter((group) => isTheirs(group) && isMine(group) && isOtherwise(group)),
  };
};
