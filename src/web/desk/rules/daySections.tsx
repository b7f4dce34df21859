/** The rules' form: when the salon is open, when clients can be asked, and how the post goes. */
import type { FC } from "hono/jsx";
import { WEEKDAYS } from "../../../settings.ts";
import { OPENING_DAYS } from "./dayFields.ts";
import { Choice, type FormShown, LongField, TextField, Tick, Ticks } from "./fields.tsx";
import { DAY_NAMES } from "./labels.ts";

/** What `/desk/new` asks too. */
export const OpeningFields: FC<{ form: FormShown }> = ({ form }) => (
  <div class="rule-opening">
    <Choice
      form={form}
      name="opening"
      choices={[
        ["kept", "As below; a day left blank is closed"],
        ["none", "No hours kept: every day counts as open all day"],
      ]}
    />
    <p class="rule-hint rule-unkept">Without hours a walk-in test may be planned at any time of day or night.</p>
    <div class="rule-week">
      {OPENING_DAYS.map((day) => (
        <TextField form={form} name={`opening.${day}`} />
      ))}
    </div>
    <p class="rule-hint">
      As in 09:00-17:30. A break is two times with a comma between them: 09:00-13:00, 14:00-18:00. A public holiday left
      blank is closed.
    </p>
  </div>
);

export const HoursSection: FC<{ form: FormShown }> = ({ form }) => (
  <section class="card" aria-labelledby="hours">
    <h2 id="hours">Hours and closed days</h2>
    <OpeningFields form={form} />
    <div class="rule-pair">
      <div>
        <TextField
          form={form}
          name="lastWalkIn"
          size={12}
          hint="A test is put on no later than this before the salon closes. Blank: 30 minutes."
        />
        <TextField
          form={form}
          name="clientHours"
          size={14}
          hint="Clients are asked to do something at home between these times alone. Blank: 08:00-21:00."
        />
        <LongField
          form={form}
          name="closed"
          rows={4}
          hint="One day a line, 2026-12-24, or the first and the last, 2026-12-24 to 2027-01-02."
        />
      </div>
      <div class="rule-holidays">
        <Choice
          form={form}
          name="holidays"
          choices={[
            ["own", "Those of the salon's country"],
            ["named", "Those of the country named here"],
            ["none", "No country's, only the days below"],
          ]}
        />
        <div class="rule-pair rule-tight">
          <div class="rule-named">
            <TextField form={form} name="holidays.country" size={4} hint="Two letters." />
          </div>
          <TextField
            form={form}
            name="holidays.region"
            size={8}
            hint="As in ENG, SCT or NIR. Blank: the whole country."
          />
        </div>
        <LongField
          form={form}
          name="holidays.add"
          rows={4}
          hint="Further ones, one day a line, as under closed days."
        />
      </div>
    </div>
  </section>
);

const WEEK = WEEKDAYS.map((day) => ({ value: day, words: (DAY_NAMES[day] ?? day).slice(0, 3) }));

export const PostSection: FC<{ form: FormShown }> = ({ form }) => (
  <section class="card" aria-labelledby="post">
    <h2 id="post">Post</h2>
    <p class="rule-hint">For home kits. The times are those of the slowest post you use.</p>
    <Ticks form={form} name="post.collection" choices={WEEK} isRow />
    <Ticks form={form} name="post.delivery" choices={WEEK} isRow />
    <div class="rule-trio">
      <TextField form={form} name="post.lastCollection" size={8} hint="Blank: 16:30." />
      <TextField form={form} name="post.deliveredBy" size={8} hint="Blank: 18:00." />
      <TextField form={form} name="post.transit" mode="numeric" size={4} hint="1 is the next day. Blank: 3." />
    </div>
    <div class="rule-pair">
      <Choice
        form={form}
        name="post.count"
        choices={[
          ["delivery", "Only days with a delivery count"],
          ["calendar", "Every day counts"],
        ]}
      />
      <LongField form={form} name="post.closed" rows={3} hint="One day a line, as under closed days." />
    </div>
    <Tick form={form} name="post.holidays" />
  </section>
);
