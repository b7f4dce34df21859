/** Searches the whole storage of the salon, every row of every table, for what must not be there any more. */
import { storedTexts } from "../service/storage.ts";
import { DAY } from "./calendar.ts";
import type { Holder, LogRecord } from "./log.ts";
import type { World } from "./world.ts";

/** Where what is kept for a claim may stand. */
const NAME_MAY_STAND = new Set(["clients"]);
const WORDS_MAY_STAND = new Set(["facts"]);
const REASONS_MAY_STAND = new Set(["deeds"]);

/** Words that stand nowhere but in what was told of her. */
const wordsOf = ({ note, batch, reason, reaction }: LogRecord): readonly string[] =>
  [note, batch, reason, ...Object.values(reaction ?? {})].flatMap(
    (text) => text?.match(/\b(?:note|lot|kit|why)[0-9a-z]{5}q\b/g) ?? [],
  );

/** Where a word stands, for whoever looks for the reason. */
const around = (text: string, word: string): string => {
  const at = text.indexOf(word);
  return text.slice(Math.max(0, at - 250), at + 150).replaceAll("\n", " | ");
};

export const searchErased = async (world: World): Promise<void> => {
  const { log } = world;
  const tables = await storedTexts(world.salon);
  const texts = new Map([...tables].map(([name, rows]) => [name, rows.join("\n").toLowerCase()]));
  world.counts["rows searched"] =
    (world.counts["rows searched"] ?? 0) + [...tables.values()].reduce((sum, rows) => sum + rows.length, 0);
  world.counts["characters stored"] = [...texts.values()].reduce((sum, text) => sum + text.length, 0);
  const live = liveFaces(world);
  const find = (word: string, may: ReadonlySet<string>, whose: string): void => {
    world.count("words searched for");
    const found = [...texts]
      .filter(([name, text]) => !may.has(name) && text.includes(word.toLowerCase()))
      .map(([name, text]) => `${name} (${around(text, word.toLowerCase())})`);
    if (found.length > 0)
      world.fault(`${JSON.stringify(word)} of ${whose}, who was erased, stands in ${found.join(", ")}`);
  };
  const none: ReadonlySet<string> = new Set();
  for (const holder of log.holders.values()) {
    if (holder.erased === null) continue;
    const { face, id, gone } = holder;
    if (face.email !== null && !live.has(face.email)) find(face.email, none, id);
    if (face.phone !== null) for (const phone of [face.phone, face.phone.replaceAll(/\D/g, "")]) find(phone, none, id);
    if (!live.has(face.name)) find(face.name, gone ? none : NAME_MAY_STAND, id);
  }
  for (const { face, erased, gone, email, id } of log.holders.values()) {
    const isForgotten = erased === null && face.email !== null && (gone || email === null);
    if (isForgotten && !isAbout(world, face.email)) find(face.email, none, `${id}, whose time is over and`);
  }
  for (const record of log.records.values()) {
    const owner = log.holders.get(log.ownerOf(record));
    if (!owner || owner.erased === null) continue;
    for (const word of wordsOf(record)) find(word, record.gone ? none : WORDS_MAY_STAND, owner.id);
  }
  for (const { client, reason } of log.deeds) {
    const owner = log.holders.get(log.person(client));
    if (owner && owner.erased !== null && reason !== null)
      find(reason, owner.gone ? none : REASONS_MAY_STAND, owner.id);
  }
};

/** Days after which no diary that was pushed holds an entry any more. */
const DIARY_DAYS = 75;

/** Whether somebody still has an address, or a diary may hold it. */
const isAbout = ({ log, now }: World, email: string): boolean => {
  const theirs = new Set([...log.holders.values()].filter(({ face }) => face.email === email).map(({ id }) => id));
  if ([...theirs].some((id) => log.holder(id).email !== null)) return true;
  return [...log.bookings.values()].some(({ under, start }) => theirs.has(under) && start > now - DIARY_DAYS * DAY);
};

/** Names and addresses that somebody else still has, or that a diary gives to somebody else. */
const liveFaces = ({ log, women }: World): ReadonlySet<string> => {
  const isLive = ({ erased, gone }: Holder): boolean => erased === null && !gone;
  const faces = [...log.holders.values()].filter(isLive).map(({ face }) => face);
  const coming = women.filter(({ retired }) => !retired).flatMap((woman) => woman.faces);
  return new Set([...faces, ...coming].flatMap(({ name, email }) => [name, email ?? name]));
};
