/** English as it is written in the United States. */
import type { Catalogue } from "./catalogue.ts";

export const enUS: Catalogue = {
  time: {
    weekdays: ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"],
    months: ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"],
    clock: 12,
    halves: ["AM", "PM"],
    short: "{weekday} {time}",
    long: "{weekday}, {month} {day}, {year}, {time}",
    date: "{weekday}, {month} {day}",
    secondPass: "{time} (after the clocks go back)",
    span: "from {from} to {to}",
    spanInDay: "from {from} to {to}",
    by: "by {to}",
    hour: "1 hour",
    hours: "{count} hours",
    minute: "1 minute",
    minutes: "{count} minutes",
    second: "1 second",
    seconds: "{count} seconds",
  },
  missing: { client: "a client", phone: "the salon" },
  here: { page: "Tell us here", none: "Tell the salon" },
  client: {
    screening: {
      todo: "Answer the salon's questions by {by}",
      hangs: null,
      late: "Have you answered the salon's questions? {here}",
      how: "The salon asks these questions before every color. Answer them first: what comes next depends on them. “Not sure” is an answer too: a person at the salon then decides.",
    },
    rescreening: {
      todo: "Answer the salon's questions again by {by}",
      hangs: null,
      late: "Have you answered the salon's questions again? {here}",
      how: "An earlier test may still count, but the questions are asked again before every color. If an answer has changed you may need a new test, and until then there is time for one.",
    },
    shipping: {
      todo: "The salon mails your skin test kit by {by}",
      hangs: null,
      late: "The salon was to mail your skin test kit by {by}. Has it come? {here}",
      how: "There is nothing for you to do until the kit comes.",
    },
    arrival: {
      todo: "Your skin test kit should come by {by}",
      hangs: null,
      late: "Has your skin test kit come? {here}",
      how: "Say so when it has come. If it has not come by then, say that too: there may still be time for a test at the salon.",
    },
    applicationHome: {
      todo: "Put your skin test on by {by}",
      hangs: null,
      late: "Is your skin test on? {here}",
      how: "Use the kit the salon mailed to you, as its own instructions say. Say when you put it on: every later time counts from that moment.",
    },
    applicationSalon: {
      todo: "Come in for your skin test by {by}",
      hangs: null,
      late: "Is your skin test on? {here}",
      how: "Just walk in while the salon is open. It takes a few minutes.",
    },
    applicationBooked: {
      todo: "Come to the salon for your skin test, {from}",
      hangs: null,
      late: "Is your skin test on? {here}",
      how: "This time is kept for you at the salon. It takes a few minutes. If you cannot come, call at once: a later time may be too late for this appointment.",
    },
    removalHome: {
      todo: "Take the skin test off from {from}, by {by}",
      hangs: "Take the skin test off {after} after you put it on ({moment} if that was {start})",
      late: "Is your skin test off? {here}",
      how: "Not earlier, unless something shows. Say when you took it off.",
    },
    removalSalon: {
      todo: "Have the skin test wiped off from {from}, by {by}",
      hangs: "Have the skin test wiped off {after} after it was put on ({moment} if that was {start})",
      late: "Is your skin test off? {here}",
      how: "Not earlier, unless something shows. Stay at the salon for it, or wipe it off yourself as you were shown.",
    },
    readingHome: {
      todo: "Look at your skin test from {from}, by {by}",
      hangs: "Look at your skin test {after} after you put it on ({moment} if that was {start})",
      late: "Have you looked at your skin test? {here}",
      how: "Look at the place in good light, then say what you see: clear, something shows, or not sure. No answer means that nobody has looked; it never counts as clear. A person at the salon decides.",
    },
    readingSalon: {
      todo: "Look at your skin test from {from}, by {by}",
      hangs: "Look at your skin test {after} after it was put on ({moment} if that was {start})",
      late: "Have you looked at your skin test? {here}",
      how: "Look at the place in good light or show it at the salon, then say what you see: clear, something shows, or not sure. No answer means that nobody has looked; it never counts as clear. A person at the salon decides.",
    },
    result: {
      todo: "The salon records your result by {by}",
      hangs: null,
      late: "The salon still has to record your result",
      how: "The salon colors only if every look is recorded and a person there has confirmed it.",
    },
  },
  salon: {
    screening: {
      todo: "Ask {client} the screening questions by {by}",
      hangs: null,
      late: "Has {client} answered the screening questions? Ask and record",
      how: "They are asked before every color. For a home kit: before it is mailed.",
    },
    rescreening: {
      todo: "Ask {client} the screening questions again by {by}",
      hangs: null,
      late: "Has {client} answered the screening questions again? Ask and record",
      how: "An earlier result may still count, the questions are asked again. Asked by then, there is still time for a whole new test.",
    },
    shipping: {
      todo: "Mail {client}'s kit by {by}",
      hangs: null,
      late: "Has {client}'s kit been mailed? Record it, or mail it now",
      how: "It must make that collection to arrive in time. Record the mailing.",
    },
    arrival: {
      todo: "{client}'s kit should arrive by {by}",
      hangs: null,
      late: "Has {client}'s kit arrived? Ask and record",
      how: "If it has not come by then, there may still be time for a walk-in test.",
    },
    applicationHome: {
      todo: "{client} puts the skin test on at home by {by}",
      hangs: null,
      late: "Is {client}'s skin test on? Ask and record",
      how: "Later times count from the recorded moment. Nothing heard is not a no: ask.",
    },
    applicationSalon: {
      todo: "Walk-in skin test expected: {client}, by {by}",
      hangs: null,
      late: "Is {client}'s skin test on? Ask and record",
      how: "Record the moment it goes on, the product, the batch and the place.",
    },
    applicationBooked: {
      todo: "Skin test in the diary: {client}, {from}",
      hangs: null,
      late: "Is {client}'s skin test on? Ask and record",
      how: "It counts only once it is recorded: the moment it goes on, the product, the batch and the place.",
    },
    removalHome: {
      todo: "{client} takes the skin test off from {from}, by {by}",
      hangs: "{client} takes the skin test off {after} after it went on ({moment} if that was {start})",
      late: "Is {client}'s skin test off? Ask and record",
      how: "Record the moment it comes off.",
    },
    removalSalon: {
      todo: "Wipe {client}'s skin test off from {from}, by {by}",
      hangs: "Wipe {client}'s skin test off {after} after it went on ({moment} if that was {start})",
      late: "Is {client}'s skin test off? Ask and record",
      how: "Record the moment it comes off.",
    },
    readingHome: {
      todo: "{client} looks at the skin test from {from}, by {by}",
      hangs: "{client} looks at the skin test {after} after it went on ({moment} if that was {start})",
      late: "Has {client}'s skin test been looked at? Ask and record",
      how: "Record what is seen. A look that nobody recorded is not read, whatever is remembered.",
    },
    readingSalon: {
      todo: "Look at {client}'s skin test from {from}, by {by}",
      hangs: "Look at {client}'s skin test {after} after it went on ({moment} if that was {start})",
      late: "Has {client}'s skin test been looked at? Ask and record",
      how: "Record what is seen. A look that nobody recorded is not read, whatever is remembered.",
    },
    result: {
      todo: "{client}: record the result by {by}. Color only if it is recorded and confirmed",
      hangs: null,
      late: "{client}: is the result recorded? Color only if it is recorded and confirmed",
      how: "Confirm it on the day: questions asked again, product and shade as tested, the place seen. A client's own word alone is never enough.",
    },
  },
  colour: {
    todo: "Your color at {salon}, {at}",
    how: "The salon colors only if the skin test is recorded and a person there has confirmed it.",
    stop: "Please telephone {salon} about this appointment",
    stopHow:
      "Please call before you come. A person at the salon will look at it with you, and says when what is still on your skin is to come off.",
    stopShownHow: "Please call before you come. A person at the salon will look at it with you.",
    noTime: "Please call {salon}: no time is left for a new skin test before your color, {at}",
    noTimeHow:
      "If your skin test is on, say so and say since when: it may still count. Otherwise the salon finds a later time for your color with you.",
    newTest: "Please call {salon}: a new skin test is needed before your color on {longAt}",
    newTestHow:
      "By your answers the test you have had is not enough for this appointment. The salon finds a time for a new one with you, and if none is left a later time for your color.",
    noTimeOnHow:
      "The skin test that is recorded does not count for this appointment. If it is still on, take it off when its time is over and look at the place all the same. The salon finds a later time for your color with you.",
    asks: "Is your skin test on? {here}, or call {salon} before your color, {at}",
    stopAfter: "Please call {salon} about your color on {longAt}",
    stopAfterHow:
      "A person at the salon will speak with you about what was told. If something still shows, ask a pharmacist or doctor. Do not color your hair, and do not put a skin test on.",
  },
  discreet: {
    steps: {
      screening: {
        todo: "Answer the questions by {by}",
        hangs: null,
        late: "Have you answered the questions? {here}",
      },
      rescreening: {
        todo: "Answer the questions again by {by}",
        hangs: null,
        late: "Have you answered the questions again? {here}",
      },
      shipping: { todo: "Your package goes off by {by}", hangs: null, late: "Has your package come? {here}" },
      arrival: { todo: "Your package should come by {by}", hangs: null, late: "Has your package come? {here}" },
      applicationHome: { todo: "Put it on by {by}", hangs: null, late: "Is it on? {here}" },
      applicationSalon: { todo: "Come in by {by}", hangs: null, late: "Is it on? {here}" },
      applicationBooked: { todo: "Your short visit, {from}", hangs: null, late: "Is it on? {here}" },
      removalHome: {
        todo: "Take it off from {from}, by {by}",
        hangs: "Take it off {after} after you put it on ({moment} if that was {start})",
        late: "Is it off? {here}",
      },
      removalSalon: {
        todo: "Have it wiped off from {from}, by {by}",
        hangs: "Have it wiped off {after} after it was put on ({moment} if that was {start})",
        late: "Is it off? {here}",
      },
      readingHome: {
        todo: "Look at the place from {from}, by {by}",
        hangs: "Look at the place {after} after you put it on ({moment} if that was {start})",
        late: "Have you looked at the place? {here}",
      },
      readingSalon: {
        todo: "Look at the place from {from}, by {by}",
        hangs: "Look at the place {after} after it was put on ({moment} if that was {start})",
        late: "Have you looked at the place? {here}",
      },
      result: { todo: "They record it by {by}", hangs: null, late: "They still have to record it" },
    },
    colour: {
      todo: "Your appointment, {at}",
      stop: "Please call about this appointment",
      noTime: "Please call before your appointment, {at}",
      newTest: "Please call before your appointment on {longAt}",
      asks: "Is it on? {here}, or call before your appointment, {at}",
      stopAfter: "Please call about your appointment on {longAt}",
    },
    looking: "Your answers are being looked at",
    waitTest: "Please call before {by}: your answers are being looked at",
    kitMayBeOn: "If the other one is already on, tell us here; never two.",
    testIsOn: "One is on already: call first.",
    name: "Reminders",
  },
  toConfirm: "{client}: every look is told, nobody has confirmed yet. Confirm before the color on {longAt}",
  says: {
    when: "When: {span}.",
    whenIf: "If it went on {start}: {span}.",
    appointment: "Your color at {salon} is on {at}.",
    appointmentSalon: "Color: {at}.",
    wear: "Leave it on for {after}.",
    wearUntilLook: "Leave it on until you have looked at it.",
    kit: "Your kit: {kit}.",
    kitNote: "The salon writes about the kit: {note}",
    lookFor:
      "What to look for: redness, itching, burning, warmth, swelling, blisters or a rash, or anything else that looks or feels different.",
    somethingShows:
      "If something shows, at any time: take the test off, wash the place with water, do not color your hair. {here}, and call {phone}. Ask a pharmacist or doctor.",
    instructionsWin:
      "The product's or kit's own instructions, the salon's insurer and local rules win over any number or time here.",
    notCertain: "A clear test does not mean that no reaction will happen.",
    kitMayBeOn: "If your kit is already on, tell us here; do not have a second test.",
    kitMayBeOnSalon: "A kit was mailed and may be on already: ask before this test; never two.",
    testIsOn: "A test of yours that does not count is on already: call {phone} before you have another.",
    testIsOnSalon: "A test that does not count is told to be on: speak with the client before this one; never two.",
    unread:
      "The salon's diary cannot be read at this appointment, so its time may be wrong. Call {phone} if you have agreed on another.",
    unreadSalon: "The diary's entry of this appointment can no longer be read: its time may be wrong.",
    doneHow: "This is recorded. There is nothing more to do for it.",
    calledOff:
      "If a skin test is on and nothing shows, take it off when its time is over and look at the place all the same.",
    lateTest: "If it is on, say so and say since when. If it is not, call {phone} before you put one on.",
    reach: "The salon: {contact}",
    page: "Tell us here: {url}",
    rule: "The rule behind this: {rule} ({protocol}). Source: {source}.",
    ruleOnly: "The rule behind this: {protocol}. Source: {source}.",
    source: "The source of this rule: {source}.",
    done: "Done: {summary}",
  },
  feed: {
    clientName: "Skin test, {salon}",
    clientAbout:
      "What to do by when before your appointment at {salon}. Your calendar may look only once a day: the page always shows the present state.",
    salonName: "Skin-test deadlines, {salon}",
    salonAbout: "Every skin-test deadline of {salon}, counted back from the bookings in its diary.",
    leftOut:
      "So that every calendar can load it, this one shows what stands from {from} to {to}. Left out before or after: {count}.",
    once: "This entry was saved once and does not follow: if your appointment moves, its time is wrong. The present state: {url}",
    onceNoPage: "This entry was saved once and does not follow: if your appointment moves, its time is wrong.",
  },
  report: {
    heading: "Tell the salon",
    arrived: "My kit has come",
    notCome: "My kit has not come",
    pleasePost: "I cannot come in: please mail me a kit",
    applied: "My test is on",
    removed: "I have taken it off",
    clear: "I looked: clear",
    notSure: "I looked: not sure",
    somethingShows: "Something shows",
    when: "When it was, if not just now",
    earlier: "Not just now? Set the time",
    saved: "Saved: “{told}”, {when}.",
    last: "You told the salon last: “{told}”, {when}.",
    mistake:
      "If something was told by mistake, telephone {phone}: nothing that is told is deleted, but it can be set right.",
    notSaved: {
      heading: "This was not saved",
      nothing: "Press below what has happened.",
      gone: "This appointment is not there any more.",
      time: "That time cannot be: give one that has passed. It is {now} now.",
    },
  },
  reach: {
    heading: "To reach {salon}",
    telephone: "Telephone {phone}",
    email: "E-mail {email}",
    none: "Ask at the salon: it has left no telephone number here.",
  },
  calendar: {
    heading: "In your calendar",
    add: "Add to my calendar",
    address: "Calendar address",
    surest:
      "Nothing here needs a calendar. One that follows this address shows the same times; it looks again at its own pace, so this page is always the surest.",
    ways: [
      {
        name: "iPhone, iPad, Mac",
        how: "Press “Add to my calendar”. When it asks, leave “Remove Alerts” switched off: the alerts are your reminders. A phone looks again as its own settings say (Fetch New Data); on a Mac set Auto-refresh of this calendar to every hour.",
      },
      {
        name: "Google Calendar",
        how: "On a computer, press + beside “Other calendars”, choose “From URL” and paste the address; your phone then shows it too. Google looks again after 8 to 24 hours and leaves the reminders out: set notifications for this calendar yourself.",
      },
      {
        name: "Outlook",
        how: "On the web, choose “Add calendar”, then “Subscribe from web”, and paste the address. It looks again about every 3 hours, sometimes only after a day, and leaves the reminders out.",
      },
      {
        name: "Thunderbird, ICSx5 on Android and others",
        how: "Add a calendar from the network by its address. They look again as often as you set it (Thunderbird every 30 minutes) and keep the reminders. Nextcloud looks again once a week unless its settings say otherwise, and leaves them out.",
      },
    ],
    once: "Save the times once as a file",
    onceHow:
      "For a calendar that follows no address. The file does not follow if your appointment moves, and knows nothing of what you tell here.",
    keep: "Keep the address to yourself: who has it sees your times.",
    code: "Open this page on another screen",
    codeHow: "Point a phone's camera at it. Who has the code has your page: keep it to yourself.",
  },
  notices: {
    noTime: "No time left for a skin test: {client}, color on {longAt}. Call the client",
    noTimeHow:
      "No test fits any more before this color. Ask whether a test is on: recorded with its true time it may still count. If not, move the appointment; the plan names the earliest time that works. A signed disclaimer protects nobody.",
    noTimeOnHow:
      "No other test fits any more before this color. Move the appointment; the plan names the earliest time that works. A test that is still on is to be taken off and looked at all the same. A signed disclaimer protects nobody.",
    late: "Late: {client}, color on {longAt}. Ask and record",
    lateOf: "Late: {summary} (color on {longAt})",
    lateOpen: "The time of at least one step has passed and nothing is recorded of it.",
    lateHow:
      "That is not a no: ask the client, and record what is so with its true time. The plan says what is open, and whether a test still fits.",
    stop: "Call {client} before anything is done for the color on {longAt}",
    stopHow:
      "This appointment is stopped by what was told or recorded; the record says why. No skin test and no color; a person at the salon looks at the record first. Nothing lifts it by itself, and a signed disclaimer protects nobody.",
    stopAfter: "Call {client} today about the color on {longAt}",
    stopAfterHow:
      "Something was told after the color; the record says what. Speak with the client, record what is seen and done, and tell your insurer. It stops every later color of this client until a person decides.",
    who: "Find out which client {client} is before the color on {longAt}",
    whoHow:
      "Another client of the same name, address, telephone or appointment has a stop on record. Find out whether this is the same person, and record it once: one person, or two. Until then this appointment does not become ready.",
    newTest: "A new skin test is needed: {client}, color on {longAt}. Call the client",
    newTestHow:
      "After the test went on, the answers to the questions asked for a new one, so the test that is on is not enough for this color. Find a time for a new test, or move the appointment.",
    unreadable: "Diary {diary} not read since {since}. The times below may be old",
    unreadableHow:
      "The diary could not be read. What stands here was counted from the last good reading; bookings made or moved since then are missing. The desk says what went wrong.",
    held: "Diary {diary} is held since {since}: too many bookings vanished at once. Confirm at the desk",
    heldHow:
      "The last reading lost so many bookings that it may be a fault. What stands here was counted from the reading before. Look at the diary, then confirm it at the desk.",
    neverRead: "Diary {diary} has not been read yet: none of its bookings are counted",
    neverReadHow:
      "Until the diary has been read once, there are no deadlines from it. That is not the same as no bookings.",
    unread: "Diary {diary}: an appointment can no longer be read since {since}. Look at it in the diary",
    unreadHow:
      "An appointment that was read before still stands in the diary, and what it says now is not understood. Its deadlines are those of the time that was read last and may be wrong. Mend the entry in the diary; the list of entries says what is wrong with it. If the appointment has moved, call the client.",
  },
  questions: {
    title: "Questions, {salon}",
    heading: "Questions before your color on {at}",
    open: "Answer the questions",
    openAgain: "Answer the questions again",
    answerAll:
      "Please answer every question. “Not sure” is an answer too: a person at the salon then decides. If you have never had a skin test here, “since your last skin test” means ever.",
    answers: { yes: "Yes", no: "No", notSure: "Not sure" },
    sources: "Where these questions come from",
    agreeHeading: "Keeping your answers",
    privacy: "What is stored about you, why, and for how long",
    send: "Send my answers",
    back: "Back to your page",
    answered: "You answered on {when}.",
    answeredAtSalon: "The salon has recorded your answers for this appointment.",
    cameOf: {
      pass: "Your answers are with the salon. A person there still decides on the day.",
      testNeeded:
        "By your answers a new skin test is needed before this appointment. What to do by when stands on your page.",
      doNotColour:
        "Because of what you answered, please do not color your hair and do not put a skin test on. A person at the salon will look at it and speak to you.",
      personDecides: "You were not sure of an answer, so a person at the salon looks at it first and decides.",
    },
    askedAgain: "The salon asks you to answer once more.",
    changeHeading: "Has something changed? Answer again",
    stopAgain: "If the salon has asked you to answer again",
    looking: "The salon is looking at your answers",
    lookingDetail:
      "You were not sure of an answer, so a person at the salon decides first and speaks to you. If you have heard nothing, call {phone}. You can answer again at any time.",
    lookingState: "with the salon",
    lookingHow:
      "You have answered. A person at the salon looks at it and speaks to you; if you have heard nothing, call {phone}.",
    toDecideLate: "Look at {client}'s answers and decide: its time has passed",
    waitTest: "Call {salon} before your skin test: your answers are being looked at (latest time {by})",
    waitTestHow:
      "A person at the salon decides first whether a test may go on. If you have heard nothing, call {phone}. Put none on before that.",
    toDecide: "Look at {client}'s answers and decide, by {by}",
    toDecideHow:
      "{client} has answered, and a person at the salon has to decide. Look at the answers, call, then record the screening. Until then it stays open.",
    none: "No appointment ahead",
    noneDetail:
      "There is no color appointment of yours ahead, so there is nothing to answer now. When you have one, its questions will be here.",
    afterHeading: "What happens with your answers",
    after:
      "The salon sees them beside the questions as they stand here, and uses them to decide whether a new skin test is needed and whether a person has to look first. They stand in no calendar. A single answer cannot be changed afterwards, by you or by the salon; all the questions can be answered again.",
    afterWithdrawal:
      "You can take your agreement back on your page at any time. Your answers are then deleted. That you were asked, when, and what came of it stays.",
    instead: "Rather say it than write it? Call {phone} instead, and the salon asks you in person.",
    faults: {
      heading: "Your answers were not sent yet",
      unanswered: "Question {number} is not answered",
      mark: "Please choose an answer.",
      consent:
        "You have not agreed that the salon keeps your answers. Without that they cannot be kept, and nothing of them was. You can call {phone} instead: the salon then asks you in person.",
      changed:
        "The salon has changed its questions since you opened this page. Please answer them as they stand here now.",
      notAhead: "The appointment that you answered for is not ahead any more, so nothing was kept.",
      other: "What was sent could not be understood. Please answer here again, or call {phone}.",
    },
    kept: {
      heading: "Your answers",
      since: "Answers of yours to the salon's questions have been kept since {when}.",
      none: "You agreed on {when} that the salon keeps your answers. None are kept at present.",
      withdrawn: "You took your agreement back on {when}. None of your answers are kept.",
      withdraw: "Take my agreement back",
      deleted: "Your answers are deleted.",
      follows:
        "If you take your agreement back, your answers are deleted. That you were asked, when, and what came of it stays, for your protection and in case of legal claims; so does anything that speaks against coloring. The salon then asks you in person.",
      followed:
        "That you were asked, when, and what came of it stays, for your protection and in case of legal claims; so does anything that speaks against coloring. The salon asks you in person, or you agree anew with your next answers.",
      given: "You agree that the salon keeps your answers. You can take this back at any time.",
      never: "You never gave such an agreement, and none of your answers are kept. Nothing was changed.",
    },
  },
  page: {
    title: "Skin test, {salon}",
    none: "Nothing to do at present",
    noneDetail: "When you have an appointment for color, what to do before it stands here.",
    moved: "It has moved: before, it was on {at}.",
    everyStep: "Every step",
    later: "Later appointments",
    laterDetail: "What to do before each of these stands here when its time is near.",
    how: "How to do it",
    cautions:
      "The product's or kit's own instructions, the salon's insurer, local rules and medical advice win over any time given here. A clear test does not mean that no reaction will happen.",
    privacy: "What is stored about you, and why",
    cancelled: "This appointment is canceled",
    cancelledDetail:
      "There is nothing to do for it. If a skin test is on, take it off when its time is over and look at the place all the same. If something shows, take it off at once, wash the place with water and say so.",
    past: "Your color at {salon} was on {at}",
    pastDetail: "A reaction can come days or even weeks later. If something shows, say so here and call {phone}.",
    ready: "Nothing more to do before your color on {at}",
    readyDetail: "The salon asks you again on the day whether anything has changed.",
    waiting: "Nothing to do right now",
    waitingDetail: "The salon will look at what you reported before your color on {at}.",
    reported: "Reported so far: {list}.",
    nothingReported: "Nothing is reported so far.",
    reportedSteps: {
      screening: "questions answered",
      rescreening: "questions answered again",
      shipping: "kit mailed",
      arrival: "kit arrived",
      applicationHome: "skin test put on",
      applicationSalon: "skin test put on",
      applicationBooked: "skin test put on",
      removalHome: "skin test taken off",
      removalSalon: "skin test wiped off",
      readingHome: "look {n} told",
      readingSalon: "look {n} told",
      result: "every look recorded",
    },
    states: { open: "to come", now: "to do now", asked: "not recorded yet", done: "done", off: "called off" },
  },
  picture: {
    steps: {
      screening: "Questions",
      rescreening: "Questions again",
      shipping: "Kit mailed",
      arrival: "Kit comes",
      application: "Test on",
      removal: "Test off",
      reading: "Look",
      result: "Result",
    },
    look: "Look {n}",
    colour: "Color",
    now: "Now",
    by: "by {at}",
    from: "from {at}",
    about: "about {day}",
    label: "Every step along its days: {done} of {count} done, color on {at}",
    labelNext: "Every step along its days: {done} of {count} done, next {next}, color on {at}",
    shut: { salon: "the salon is shut", post: "no post", both: "the salon is shut, no post" },
    shutDay: "{day}: {name}",
  },
};
