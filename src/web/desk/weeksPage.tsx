/** The coming weeks, a row an appointment: when, whose, how it stands, what comes next, and its plan along the days. */
import type { FC } from "hono/jsx";
import { raw } from "hono/html";
import { catalogueOf } from "../../feed/language/catalogueOf.ts";
import { type Day, formatDay, partsOfDay, weekdayOf } from "../../time/instant.ts";
import { alongOf, daysOf } from "../chainAxis.ts";
import { RowScale } from "../chainRow.tsx";
import { ChainSymbols } from "../chainSymbols.tsx";
import type { Signed } from "./desk.ts";
import { DeskPage } from "./frame.tsx";
import { Legend } from "./legend.tsx";
import { timesOf } from "./times.ts";
import type { WeeksMade } from "./weekRows.ts";

/** Where the rows go that were made before. */
export const ROWS_MARK = "<!--rows-->";

const address = (start: Day, weeks: number): string => `/desk/weeks?from=${formatDay(start)}&weeks=${weeks}`;

export const WeeksPage: FC<{ signed: Signed; made: WeeksMade; count: number }> = ({ signed, made, count }) => {
  const { zone } = timesOf(signed);
  const { from, to, shades, ahead } = made.weeks;
  const day = zone.dayAt(from);
  return (
    <DeskPage title="Coming weeks" place="weeks" signed={signed}>
      <h1>Coming weeks</h1>
      <nav class="pager" aria-label="Weeks">
        <a class="button" href={address(day - 7 * count, count)}>
          Earlier
        </a>
        <a class="button" href="/desk/weeks">
          From today
        </a>
        <a class="button" href={address(zone.dayAt(to), count)}>
          Later
        </a>
        <form method="get" action="/desk/weeks" class="press">
          <label>
            From <input type="date" name="from" value={formatDay(day)} />
          </label>
          <label>
            for{" "}
            <select name="weeks">
              {[1, 2, 4, 8].map((each) => (
                <option value={String(each)} selected={each === count}>
                  {each === 1 ? "1 week" : `${each} weeks`}
                </option>
              ))}
            </select>
          </label>
          <button type="submit">Show</button>
        </form>
      </nav>
      <p class="small">
        {made.count === 1 ? "1 appointment" : `${made.count} appointments`} for colour in these{" "}
        {count === 1 ? "seven days" : `${count} weeks`}; {ahead} ahead in all.
      </p>
      {made.count === 0 ? (
        <p>
          No colour appointment is in the diary for these days. <a href="/desk/diaries">What was read</a> says what is.
        </p>
      ) : (
        <>
          <ChainSymbols />
          <RowScale from={from} to={to} now={signed.head.now} shades={shades} zone={zone} />
          <table class="weeks">
            <caption class="unseen">Appointments for colour, with each plan along the days</caption>
            <thead>
              <tr>
                <th scope="col">Time</th>
                <th scope="col">Client</th>
                <th scope="col">Stands</th>
                <th scope="col">Next</th>
                <th scope="col" class="along">
                  <span class="unseen">Plan along the days</span>
                  <DayScale signed={signed} from={from} to={to} />
                </th>
              </tr>
            </thead>
            {raw(ROWS_MARK)}
          </table>
          <Legend />
        </>
      )}
    </DeskPage>
  );
};

/** At most so many days have a label each. */
const LABELS_MOST = 15;

const DayScale: FC<{ signed: Signed; from: number; to: number }> = ({ signed, from, to }) => {
  const { zone } = timesOf(signed);
  const { weekdays } = catalogueOf(signed.head.settings.language).time;
  const days = daysOf({ from, to }, zone);
  const each = Math.ceil(days.length / LABELS_MOST);
  return (
    <svg class="day-scale" width="100%" height="34" aria-hidden="true">
      {days.map(({ day, from: begins }, index) =>
        index % each === 0 ? (
          <g class="day">
            <text x={`${alongOf((begins + (days[index + 1]?.from ?? to)) / 2, { from, to }).toFixed(2)}%`} y="13">
              {(weekdays[weekdayOf(day) - 1] ?? "").slice(0, 2)}
            </text>
            <text x={`${alongOf((begins + (days[index + 1]?.from ?? to)) / 2, { from, to }).toFixed(2)}%`} y="28">
              {partsOfDay(day).dayOfMonth}
            </text>
          </g>
        ) : null,
      )}
    </svg>
  );
};
