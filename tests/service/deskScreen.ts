/** A screen at the desk, as a browser without script has it: it keeps its cookies and sends the forms of its pages. */
import { send } from "./client.ts";

export interface Sent {
  readonly status: number;
  readonly headers: Headers;
  readonly html: string;
}

const unescaped = (text: string): string =>
  text
    .replaceAll("&quot;", '"')
    .replaceAll("&#39;", "'")
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&amp;", "&");

const attribute = (tag: string, name: string): string | undefined => {
  const found = new RegExp(`\\s${name}(?:="([^"]*)")?(?=[\\s/>])`).exec(tag);
  return found ? unescaped(found[1] ?? "") : undefined;
};

/** The fields of the form on a page that is sent to `action`, as a browser sends them untouched. */
export const fieldsOf = (html: string, action: string): URLSearchParams => {
  const forms = [...html.matchAll(/<form\b[^>]*>[^]*?<\/form>/g)].map(([form]) => form);
  const form = forms.find((each) => attribute(each, "action")?.split("#")[0] === action);
  if (form === undefined) throw new Error(`no form on this page is sent to ${action}`);
  const fields = new URLSearchParams();
  const controls = /<input\b[^>]*>|<(?:textarea|select)\b[^>]*>([^]*?)<\/(?:textarea|select)>/g;
  for (const [whole, inner = ""] of form.matchAll(controls)) {
    const [tag = ""] = /^<[^>]*>/.exec(whole) ?? [];
    const name = attribute(tag, "name");
    if (name === undefined) continue;
    if (tag.startsWith("<textarea")) {
      fields.append(name, unescaped(inner.replace(/^\r?\n/, "")).replace(/\r\n?|\n/g, "\r\n"));
    } else if (tag.startsWith("<select")) {
      const options = [...inner.matchAll(/<option\b[^>]*>/g)].map(([option]) => option);
      const chosen = options.find((option) => attribute(option, "selected") !== undefined) ?? options[0];
      if (chosen) fields.append(name, attribute(chosen, "value") ?? "");
    } else {
      const type = attribute(tag, "type");
      const isOff = (type === "checkbox" || type === "radio") && attribute(tag, "checked") === undefined;
      const value = attribute(tag, "value") ?? "";
      if (!isOff && type !== "file" && type !== "submit") {
        fields.append(name, type === undefined ? value.replace(/[\r\n]/g, "") : value.replace(/\r\n?|\n/g, "\r\n"));
      }
    }
  }
  return fields;
};

export class DeskScreen {
  readonly #cookies = new Map<string, string>();

  /** Asks without following where it sends on. */
  async ask(path: string, init: RequestInit = {}): Promise<Sent> {
    const headers = new Headers(init.headers);
    headers.set("accept", "text/html");
    headers.set("sec-fetch-site", headers.get("sec-fetch-site") ?? "same-origin");
    headers.set("cookie", [...this.#cookies].map(([name, value]) => `${name}=${value}`).join("; "));
    const answer = await send(path, { ...init, headers });
    for (const cookie of answer.headers.getSetCookie()) {
      const [, name = "", value = ""] = /^([^=]+)=([^;]*)/.exec(cookie) ?? [];
      this.#cookies.set(name, value);
    }
    return { status: answer.status, headers: answer.headers, html: await answer.text() };
  }

  async signIn(key: string): Promise<void> {
    await this.post("/desk/sign-in", { key, to: "/desk" });
  }

  /** Opens a page, and follows where it sends on. */
  async open(path: string): Promise<Sent> {
    const answer = await this.ask(path);
    const to = answer.headers.get("location");
    return to === null ? answer : this.open(to);
  }

  post(path: string, fields: URLSearchParams | FormData | Record<string, string>): Promise<Sent> {
    const body = fields instanceof FormData ? fields : new URLSearchParams(fields);
    return this.ask(path, { method: "POST", body });
  }

  /** Opens a page, changes fields of one of its forms, and sends it. */
  async press(page: string, action: string, changes: Record<string, string | readonly string[] | null>): Promise<Sent> {
    const { html } = await this.open(page);
    return this.pressOn(html, action, changes);
  }

  /** The same on a page that is open. A field of null is not sent. */
  pressOn(html: string, action: string, changes: Record<string, string | readonly string[] | null>): Promise<Sent> {
    const fields = fieldsOf(html, action);
    for (const [name, value] of Object.entries(changes)) {
      fields.delete(name);
      for (const each of value === null ? [] : [value].flat()) fields.append(name, each);
    }
    return this.post(action, fields);
  }
}

/** What a page says, without its tags. */
export const textOf = (html: string): string =>
  unescaped(html.replace(/<(script|style)\b[^]*?<\/\1>/g, "").replace(/<[^>]*>/g, " ")).replace(/\s+/g, " ");
