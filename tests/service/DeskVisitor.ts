/** Visits a salon's desk as a browser without script does: keeps cookies, follows what a press answers, sends forms as pages give them. */
import { expect } from "vitest";
import { ORIGIN, send, type TestSalon } from "./client.ts";

export interface Seen {
  readonly status: number;
  readonly html: string;
  readonly headers: Headers;
  /** Where the last redirect led, with its mark; the path asked for where there was none. */
  readonly path: string;
}

type Fields = Readonly<Record<string, string | readonly string[]>>;

export class DeskVisitor {
  readonly #cookies = new Map<string, string>();

  static async signIn({ key }: Pick<TestSalon, "key">): Promise<DeskVisitor> {
    const visitor = new DeskVisitor();
    const seen = await visitor.#send("/desk/sign-in", new URLSearchParams({ key, to: "/desk/clients", keep: "yes" }));
    expect(seen.status).toBe(200);
    return visitor;
  }

  open(path: string): Promise<Seen> {
    return this.#send(path);
  }

  /** Sends the form of a page whose action this is, filled in; its hidden fields go along. */
  press(page: Seen, action: string, fields: Fields = {}): Promise<Seen> {
    return this.#send(action, bodyOf(page, action, fields));
  }

  /** The same with a file. */
  upload(
    page: Seen,
    action: string,
    fields: Fields,
    file: { readonly name: string; readonly text: string },
  ): Promise<Seen> {
    const form = new FormData();
    for (const [name, value] of bodyOf(page, action, fields)) form.append(name, value);
    form.append("file", new File([file.text], file.name));
    return this.#send(action, form);
  }

  async #send(path: string, body?: URLSearchParams | FormData): Promise<Seen> {
    const cookie = [...this.#cookies].map(([name, value]) => `${name}=${value}`).join("; ");
    const answer = await send(path, {
      method: body ? "POST" : "GET",
      headers: { cookie, "sec-fetch-site": "same-origin" },
      ...(body ? { body } : {}),
    });
    for (const line of answer.headers.getSetCookie()) {
      const [, name, value] = /^([^=]+)=([^;]*)/.exec(line) ?? [];
      if (name !== undefined) this.#cookies.set(name, value ?? "");
    }
    const to = answer.headers.get("location");
    if (to !== null) {
      await answer.body?.cancel();
      const url = new URL(to, ORIGIN);
      const seen = await this.#send(`${url.pathname}${url.search}`);
      return { ...seen, path: `${url.pathname}${url.search}${url.hash}` };
    }
    return { status: answer.status, html: await answer.text(), headers: answer.headers, path };
  }
}

/** The form's own hidden fields, then those that are filled in. */
const bodyOf = ({ html }: Seen, action: string, fields: Fields): URLSearchParams => {
  const form = html.split("<form").find((each) => each.includes(`action="${action}"`));
  if (form === undefined) throw new Error(`no form of this page leads to ${action}`);
  const body = new URLSearchParams();
  for (const [, name, value] of (form.split("</form>")[0] ?? "").matchAll(
    /<input type="hidden" name="([^"]*)" value="([^"]*)"/g,
  )) {
    if (fields[name ?? ""] === undefined) body.append(name ?? "", unescaped(value ?? ""));
  }
  for (const [name, value] of Object.entries(fields)) for (const each of [value].flat()) body.append(name, each);
  return body;
};

const unescaped = (text: string): string =>
  text
    .replaceAll("&quot;", '"')
    .replaceAll("&#39;", "'")
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&amp;", "&");

/** What a page says, without its marks. */
export const wordsOf = ({ html }: Seen): string => unescaped(html.replace(/<[^>]*>/g, " ")).replace(/\s+/g, " ");
