/** Every bound that something from outside can meet, with its unit and its reason. */

/** Bytes of one diary: ten years of a busy salon are about 25 MB; what is refused lies above 25 MB and below 30. */
export const DIARY_MAX_BYTES = 27_000_000;
/** Bytes of any other request body; settings with long word lists stay far below. */
export const BODY_MAX_BYTES = 1_000_000;
/** Octets of one unfolded content line: 16,000 exclusions on one line are 0.3 MB. A longer text is cut, a longer time makes its entry too large. */
export const LINE_MAX_BYTES = 1_000_000;
/** Characters of a UID that are kept as they are: RFC 7986 §5.3 wants fewer than 255 octets. */
export const UID_MAX = 1_000;
/** Characters of a SUMMARY that are read: what it says stands at its beginning, and each occurrence looks through it. */
export const SUMMARY_READ_MAX = 1_000;
/** Characters of a DESCRIPTION that are read: a telephone number is looked for in it. */
export const DESCRIPTION_READ_MAX = 10_000;
/** Attendees of one entry that are looked at: an appointment has a client, a stylist and a room. */
export const ATTENDEES_MAX = 100;

/** Days of the past that are read, planned and published. */
export const HORIZON_PAST_DAYS = 30;
/** Days ahead that are read, planned and published; also how far rules look (counting.md 7). */
export const HORIZON_AHEAD_DAYS = 400;
/** Occurrences that one recurring entry may have inside the horizon: one an hour would be 10,320, and is no booking. */
export const OCCURRENCES_MAX = 1_000;
/**
 * Entries of one diary inside the horizon: twenty chairs with ten appointments a day, 30 days back and six weeks ahead, are
 * 14,400. What begins later than these many is skipped and said: all of them are in memory at once.
 */
export const DIARY_ENTRIES_MAX = 15_000;
/** Years whose occurrences the command line works out at once: more than any calendar has been kept. */
export const WINDOW_YEARS_MAX = 200;
/** Years between a count-back's start and its now: no rule looks farther than 400 days, and holidays of each are loaded. */
export const COUNT_BACK_YEARS_MAX = 10;
/** The year before which nothing that is recorded can have happened: nobody living was coloured in it. */
export const EARLIEST_YEAR = 1900;
/** Faults named in one answer. */
export const ERRORS_MAX = 20;
/**
 * Days or times that the rules of one block may try together: a daily rule counted since 1900 tries 46,000, and this many
 * take less than a tenth of a second. The second reader has as many of its own.
 */
export const RECURRENCE_STEPS_MAX = 250_000;
/**
 * Steps that one period costs the second reader of a rule, which takes a tenth of a millisecond for it, and each time in it,
 * which takes five thousandths.
 */
export const SECOND_READER_STEP_PRICE = 250;
export const SECOND_READER_TIME_PRICE = 12;
/** What one period of a rule may hold for the second reader, all lists multiplied: it builds all of it before it looks. */
export const SECOND_READER_VALUES_MAX = 200;
/** Dates of one series that readers disagree about and that are shown one by one; each row tells how many there are. */
export const DISPUTES_LISTED_MAX = 20;
/** Times of day that one recurrence rule may name (BYHOUR × BYMINUTE × BYSECOND): their product is kept in memory. */
export const RULE_TIMES_MAX = 5_000;
/**
 * Zones of the file's own that the entries of one UID may name: they are stored with each, 50 kB at most. A series has one,
 * a moved one two.
 */
export const BLOCK_ZONES_MAX = 10;
/** Octets of all entries under one UID that are kept: a block is one stored row with room for its names. */
export const BLOCK_MAX_BYTES = 1_500_000;
/** Components open inside one another; a file that goes deeper is no diary. */
export const NESTING_MAX = 100;
/** Days that a change to all following occurrences may move them by and still be followed. */
export const SHIFT_MAX_DAYS = 60;
/** Octets of one zone definition that is read: real ones, with a century of changes, stay below. */
export const ZONE_MAX_BYTES = 50_000;

/** Octets of a feed's events: calendars load about a million (counted in readers' reports, calendar by calendar). */
export const FEED_MAX_BYTES = 880_000;
/** Forms of one feed that are kept: what nobody asks for again makes room. */
export const FEED_VARIANTS_MAX = 20;
/** Octets of feeds that a salon keeps at hand: its own and those of some clients. */
export const FEEDS_AT_HAND_BYTES = 6_000_000;

/** Days before the colour from which a notice of a booking stands at most: a year of them would be hidden. */
export const NOTICE_DAYS = 28;
/** Days a cancelled event stays as a tombstone: clients that poll rarely must see it. */
export const TOMBSTONE_DAYS = 30;
/** Days between a vanished and a new booking of one client and service that are still one moved booking. */
export const MOVE_MAX_DAYS = 60;
/** Successors that a report names for one vanished booking: a person looks through no more. */
export const CANDIDATES_MAX = 10;
/** Hours between a vanished and a new booking of one client, of whatever service, that are still one visit: a long day. */
export const SAME_VISIT_HOURS = 12;
/** Minutes between the end of one colour service and the start of the next that make them one booking. */
export const BACK_TO_BACK_MINUTES = 60;
/** Share of the future bookings whose loss in one reading is suspicious. */
export const SUSPICIOUS_LOSS = 0.5;
/** Share of the entries still there whose move in one reading is suspicious, and how many they must be at least. */
export const SUSPICIOUS_JUMP = 0.5;
export const JUMPED_LEAST = 3;
/** Minutes until a pushed diary's suspicious reading counts as seen again. */
export const PUSH_CONFIRM_MINUTES = 15;

/** Minutes a record's `at` may lie ahead of the clock, for clocks that differ (counting.md 30). */
export const RECORD_AHEAD_MINUTES = 5;
/** Minutes of a skin test that the diary enters without an end. */
export const APPOINTMENT_MINUTES = 15;
/** Minutes a removal may come early and the wear still count (counting.md 17). */
export const REMOVAL_EARLY_MINUTES = 15;

/** Hours of one length in settings: 400 days of 24 hours, beyond which nothing is looked for (counting.md 7). */
export const LENGTH_MAX_HOURS = 9_600;
/** Days of `post.transit`: what takes longer than two months is lost, not on its way. */
export const TRANSIT_MAX_DAYS = 60;

/** Milliseconds until an upstream diary must have answered in full. */
export const DIARY_FETCH_TIMEOUT_MS = 20_000;
/** Redirects followed when a diary is fetched. */
export const DIARY_FETCH_REDIRECTS = 5;
/** Minutes between two pulls of one diary, at least: an export is not made fresher than that. */
export const POLL_MINUTES_MIN = 5;
/** Minutes between two pulls, at most: a day's bookings must be known within the day. */
export const POLL_MINUTES_MAX = 1_440;
/** Minutes that a failing diary's interval may grow to: a colour booked meanwhile must be seen while its test can still begin. */
export const POLL_BACKOFF_MAX_MINUTES = 60;
/** Diaries of one salon asked at once: the platform lets an object wait for six answers, and a seventh would stand in line. */
export const PULLS_AT_ONCE = 4;
/** Characters of an address that is asked: a redirect may carry a signature of some thousands. */
export const ADDRESS_MAX = 8_000;
/** Characters of a diary's address in settings. */
export const DIARY_URL_MAX = 2_000;
/** Characters of an ETag or a Last-Modified that is kept and sent back; a server that needs more is asked without. */
export const VALIDATOR_MAX = 500;

/** Diaries of one salon: a chair each, with room. */
export const DIARIES_MAX = 50;
/** Words of one list in settings. */
export const WORDS_MAX = 200;
/** Sets of answers that a client may send in a local day: each is kept, and nobody changes her mind more often. */
export const ANSWERS_PER_DAY_MAX = 20;
/**
 * Answers to entries of the diary that a salon keeps: what comes so often that it would need more belongs into the words of
 * its settings. All are in memory, below 2 kB each.
 */
export const ENTRY_ANSWERS_MAX = 2_000;
/** Characters of one foreign text of a listed entry: a page of 2,000 entries stays below the 32 MB of an answer. */
export const ENTRY_TEXT_MAX = 1_000;
/** Years since a client's request was received: an older one was answered long ago. */
export const REQUEST_YEARS_MAX = 10;
/** Octets and lines of one import: ten years of a busy salon's results are 20,000 lines of 200 octets. */
export const IMPORT_MAX_BYTES = 10_000_000;
export const IMPORT_LINES_MAX = 20_000;
/** Hours for which a request sent again under its Idempotency-Key is answered as the first time: a retry comes within minutes. */
export const REPEATS_KEPT_HOURS = 24;
/** Health questions of a salon: what a person can answer with care on a telephone. */
export const QUESTIONS_MAX = 40;
/** Characters of a name, a word or another short text in settings and requests. */
export const TEXT_MAX = 200;
/** Characters of a free note. */
export const NOTE_MAX = 4_000;
/** Characters of a SUMMARY or calendar name: above 255 some clients cut or fail. */
export const SUMMARY_MAX = 255;
/** Characters of a name inside a SUMMARY: the deadline behind it must not be what is cut. */
export const LABEL_MAX = 80;
/** Plans of one answer, by default and at most. */
export const PAGE_DEFAULT = 500;
export const PAGE_MAX = 2_000;
/** Entries in each list of a diary report; the counts tell how many there are in all, and `/api/salon/entries` gives them. */
export const REPORT_LIST_MAX = 200;

/** Minutes after a stretch begins until a step may be due in it: a due at the opening second leaves no time (counting.md 9). */
export const AFTER_OPENING_MINUTES = 15;
/** Minutes of the client's day that must be left for a look to be due on it (counting.md 18). */
export const LOOK_ROOM_MINUTES = 15;
/** Days after the colour in which a reaction is still asked for (counting.md 30; late readings D7, D14, D21: Hillen et al. 2011). */
export const LATE_REACTION_DAYS = 21;
/** Characters of one foreign text in a report: five of them, three octets each, 200 times, are 0.6 MB; a row holds 2 MB. */
export const REPORT_TEXT_MAX = 200;
/** Characters of one stored part, or of one batch of rows: a character may take three bytes, and a row holds 2 MB. */
export const PART_MAX_CHARACTERS = 600_000;

/** How long a desk's screen stays signed in: a working day, so that a shared one is not left open; or a month where asked for. */
export const SIGNED_IN_HOURS = 12;
export const KEPT_SIGNED_IN_DAYS = 30;

/** A step due within this long of being first said, or moved, is told by telephone too: many calendars look once a day. */
export const SHORT_NOTICE_HOURS = 24;
/** How long after a link was given the desk is told that nobody has opened it: a day, so that she had an evening for it. */
export const LINK_UNOPENED_HOURS = 24;
/** Of those to telephone, as many as stand with their words on one page, and by name alone: the page stays small. */
export const CALLS_WHOLE = 10;
export const CALLS_BRIEF = 20;
/** Of each kind of news, as many as one reads; the rest is counted. */
export const NEWS_MAX = 24;

/** Openings of the desk's first page farther apart than this are two looks: what came between them is news to the second. */
export const LOOK_APART_MINUTES = 30;
/** How far back news goes for a screen that never looked, and at the longest. */
export const NEWS_FIRST_DAYS = 2;
export const NEWS_LONGEST_DAYS = 60;
/** How long the desk keeps what somebody was looked up by: until one has gone back to the list a few times. */
export const SOUGHT_MINUTES = 15;

/** Weeks that the desk shows at first, and at most at once. */
export const WEEKS_SHOWN = 2;
export const WEEKS_MAX = 8;
/** Octets of rows that are kept made in one isolate's memory: some twenty full pages. */
export const ROWS_KEPT_BYTES = 8_000_000;
/** Octets that each of them counts for besides its rows: the shut days of eight weeks, and what it is known by. */
export const ROWS_KEPT_LEAST_BYTES = 10_000;
/** Entries that could not be read which stand beside their diary at the desk; the others have a page of their own. */
export const ENTRIES_SHOWN = 20;

/** How long an earliest start that was reckoned is still said: it moves with the clock, and by no more than this. */
export const EARLIEST_KEPT_SECONDS = 60;
