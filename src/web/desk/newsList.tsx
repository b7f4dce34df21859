/** What came about since somebody last looked: what the diaries did, and what clients and tools told. */
import type { FC } from "hono/jsx";
import type { News } from "../../salon/deskNews.ts";
import type { DeskToday } from "../../salon/deskToday.ts";
import { reportWords } from "../../feed/reportWords.ts";
import { KIND_WORDS, OUTCOME_WORDS, ROUTE_WORDS } from "../evidenceWords.ts";
import { Booked } from "./booked.tsx";
import type { Signed } from "./desk.ts";
import { type Times, timesOf } from "./times.ts";

export const NewsList: FC<{ signed: Signed; today: DeskToday }> = ({ signed, today }) => {
  const times = timesOf(signed);
  if (today.news.length === 0) return <p class="small">Nothing new.</p>;
  const groups = [...Map.groupBy(today.news, aboutOf).values()];
  return (
    <>
      <ul class="rows">
        {groups.map((group) =>
          group.slice(0, 1).map((newest) => (
            <li>
              <span class="when">{times.near(newest.at)}</span>
              <Whose signed={signed} today={today} news={newest} />
              <span class="about">
                {group.map((each) => (
                  <span class="line">{newsWords(each, times, signed)}</span>
                ))}
              </span>
            </li>
          )),
        )}
      </ul>
      {today.newsCount > today.news.length ? (
        <p class="small">
          And {today.newsCount - today.news.length} more, longer ago: <a href="/desk/weeks">the coming weeks</a> and{" "}
          <a href="/desk/log">the log</a> have them.
        </p>
      ) : null}
    </>
  );
};

/** What is new of one appointment stands together, where its newest stands. */
const aboutOf = (news: News): string =>
  "booking" in news && news.booking !== null
    ? `booking ${news.booking}`
    : "client" in news
      ? `client ${news.client}`
      : `diary ${"diary" in news ? news.diary : ""}`;

const Whose: FC<{ signed: Signed; today: DeskToday; news: News }> = ({ signed, today, news }) => {
  const booking = "booking" in news ? today.bookings.find(({ uid }) => uid === news.booking) : undefined;
  const id = "client" in news ? news.client : booking?.client;
  const name = today.clients.find((client) => client.id === id)?.name ?? "";
  if (booking) return <Booked signed={signed} booking={booking} name={name} />;
  if (id === undefined) return <a href="/desk/diaries">Diaries</a>;
  return (
    <a href={`/desk/clients/${id}`}>
      <bdi>{name}</bdi>
    </a>
  );
};

const newsWords = (news: News, { near, dated }: Times, { head }: Signed): string => {
  switch (news.kind) {
    case "new":
      return "New";
    case "cancelled":
      return "Cancelled";
    case "returned":
      return "Back in the diary";
    case "moved":
      return `Moved: it was ${dated(news.from)}`;
    case "reacted":
      return `Something showed, ${near(news.record.at)}`;
    case "told": {
      const { kind, outcome, route, at, via } = news.record;
      const pressed = via === "client-link" ? reportWords(news.record, head.settings.language) : null;
      if (pressed !== null) return `She told: “${pressed}”, ${near(at)}`;
      const said =
        outcome !== null ? OUTCOME_WORDS[outcome] : kind === "route" && route ? ROUTE_WORDS[route] : undefined;
      return `${KIND_WORDS[kind]}${said === undefined ? "" : `: ${said}`}, ${near(at)}`;
    }
    case "held":
      return `“${news.diary}” looks wrong and is held`;
    case "unreadable":
      return `“${news.diary}” could not be read`;
  }
};
