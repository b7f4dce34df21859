/** Reads a date of HTTP in its three forms (RFC 9110 §5.6.7), the two obsolete ones too. Pure; takes nothing else for a date. */

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const MONTH = `(${MONTHS.join("|")})`;
const TIME = String.raw`(\d\d):(\d\d):(\d\d)`;

/** Sun, 06 Nov 1994 08:49:37 GMT */
const FIXED = new RegExp(String.raw`^[A-Z][a-z]{2}, (\d\d) ${MONTH} (\d{4}) ${TIME} GMT$`);
/** Sunday, 06-Nov-94 08:49:37 GMT (RFC 850) */
const DASHED = new RegExp(String.raw`^[A-Z][a-z]{5,8}, (\d\d)-${MONTH}-(\d\d) ${TIME} GMT$`);
/** Sun Nov  6 08:49:37 1994 (asctime, always UTC) */
const ASCTIME = new RegExp(String.raw`^[A-Z][a-z]{2} ${MONTH} ([ \d]\d) ${TIME} (\d{4})$`);

const secondsOf = (year: number, month: string, day: number, time: readonly string[]): number | null => {
  const [hours = 0, minutes = 0, seconds = 0] = time.map(Number);
  const date = new Date(Date.UTC(year, MONTHS.indexOf(month), day, hours, minutes, seconds));
  const isReal = date.getUTCDate() === day && hours < 24 && minutes < 60 && seconds <= 60;
  return isReal ? date.getTime() / 1000 : null;
};

/** Two digits are the year of that ending that is not more than fifty years ahead. */
const fullYear = (short: number, thisYear: number): number => {
  const year = thisYear - (thisYear % 100) + short;
  return year > thisYear + 50 ? year - 100 : year;
};

/** Seconds since 1970, or null for any other text. @param thisYear for a year of two digits */
export const parseHttpDate = (text: string, thisYear: number): number | null => {
  const fixed = FIXED.exec(text);
  if (fixed) return secondsOf(Number(fixed[3]), fixed[2] as string, Number(fixed[1]), fixed.slice(4, 7));
  const dashed = DASHED.exec(text);
  if (dashed) {
    const year = fullYear(Number(dashed[3]), thisYear);
    return secondsOf(year, dashed[2] as string, Number(dashed[1]), dashed.slice(4, 7));
  }
  const asctime = ASCTIME.exec(text);
  if (!asctime) return null;
  return secondsOf(Number(asctime[6]), asctime[1] as string, Number(asctime[2]), asctime.slice(3, 6));
};
