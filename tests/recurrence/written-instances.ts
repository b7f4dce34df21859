/** Reads the short notation of libical-cases.ts. */
import { DAY_SECONDS, type Wall } from "../../src/time/instant.ts";

/** `20241023T154000`, `20241023` or either with Z, as wall time. */
export const wallOf = (written: string): Wall => {
  const [, year, month, day, hour = "0", minute = "0", second = "0"] =
    /^(\d{4})(\d{2})(\d{2})(?:T(\d{2})(\d{2})(\d{2})?)?Z?$/.exec(written) ?? [];
  const wall =
    Date.UTC(Number(year), Number(month) - 1, Number(day), Number(hour), Number(minute), Number(second)) / 1000;
  if (Number.isNaN(wall)) throw new Error(`no date: ${written}`);
  return wall;
};

const dateOf = (wall: Wall): string => new Date(wall * 1000).toISOString().slice(0, 10).replaceAll("-", "");

/** @param start as the case writes it: its time of day is that of every date written alone */
export const readInstances = (start: string, instances: string): Wall[] => {
  const time = wallOf(start) % DAY_SECONDS;
  const walls: Wall[] = [];
  let date = "";
  const complete = (written: string): string => {
    date = date.slice(0, 8 - written.length) + written;
    return date;
  };
  for (const token of instances.split(" ")) {
    const [from = "", to] = token.split("..");
    const [day = "", clock] = from.split("T");
    complete(day);
    if (to !== undefined) {
      const begin = wallOf(date);
      const end = wallOf(complete(to));
      for (let wall = begin; wall <= end; wall += DAY_SECONDS) walls.push(wall + time);
      date = dateOf(end);
    } else walls.push(clock === undefined ? wallOf(date) + time : wallOf(`${date}T${clock}`));
  }
  return walls;
};
