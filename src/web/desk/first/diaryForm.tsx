/** Asks for a diary: the address of its feed, or a file. */
import type { FC } from "hono/jsx";
import type { Signed } from "../desk.ts";
import { Fields } from "../press.tsx";

/**
 * @param address what was typed, or what holds
 * @param fault of the address or the file; null: nothing is wrong
 * @param isKeyShown a key stands on this page, and must be kept before it is left
 */
export const DiaryForm: FC<{ signed: Signed; address: string; fault: string | null; isKeyShown?: boolean }> = ({
  signed,
  address,
  fault,
  isKeyShown = false,
}) => (
  <form method="post" action="/desk/new/diary" enctype="multipart/form-data" class="first-visit">
    <Fields signed={signed} />
    {fault === null ? null : (
      <p class="mark" id="diary-fault" role="alert">
        {fault}
      </p>
    )}
    <div class="rule-asked">
      <label for="address">Address of the diary's feed</label>
      <input
        id="address"
        name="address"
        value={address}
        inputmode="url"
        autocomplete="off"
        spellcheck={false}
        aria-describedby={fault === null ? "address-hint" : "diary-fault address-hint"}
        aria-invalid={fault === null ? undefined : "true"}
      />
      <p class="rule-hint" id="address-hint">
        It begins with https or webcal. Calendar programs call it “secret address in iCal format”, “public calendar” or
        “subscribe”. It is asked every 15 minutes.
      </p>
    </div>
    <div class="rule-asked">
      <label for="file">or a file that was exported from it</label>
      <input id="file" name="file" type="file" accept=".ics,.ical,text/calendar" aria-describedby="file-hint" />
      <p class="rule-hint" id="file-hint">
        A file ends in .ics and has at most 27 MB. It follows no change: it has to be given anew after each.
      </p>
    </div>
    {isKeyShown ? (
      <label class="rule-tick">
        <input type="checkbox" name="kept" value="yes" required />
        <span>I have kept the salon's key. It is not shown again.</span>
      </label>
    ) : null}
    <button type="submit" class="first">
      Read the diary
    </button>
  </form>
);
