/**
 * The frame of every page: head, stylesheet, language. Works without script; sends nothing to anyone else. One that is kept as a
 * file brings its stylesheet with it.
 */
import { createHash } from "node:crypto";
import { raw } from "hono/html";
import type { Child, FC } from "hono/jsx";
import { PAGE_STYLES_ADDRESS } from "./pageStyles.ts";
import { STYLESHEET } from "./stylesheet.ts";

/**
 * @param isKept it is kept as a file, with its stylesheet in it
 * @param styles addresses of further stylesheets
 * @param script the address of its script; undefined: it has none
 * @param top what stands above its main part
 * @param isWide it takes the width there is
 */
export const Page: FC<{
  title: string;
  language: string;
  isKept?: boolean;
  styles?: readonly string[];
  script?: string;
  top?: Child;
  isWide?: boolean;
  children: Child;
}> = ({ title, language, isKept = false, styles = [], script, top, isWide = false, children }) => (
  <>
    {raw("<!doctype html>")}
    <html lang={language}>
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="robots" content="noindex" />
        <title>{title}</title>
        {isKept ? <style>{raw(STYLESHEET)}</style> : <link rel="stylesheet" href={PAGE_STYLES_ADDRESS} />}
        {styles.map((address) => (
          <link rel="stylesheet" href={address} />
        ))}
        {script === undefined ? null : <script src={script} defer />}
      </head>
      <body>
        {top}
        <main id="main" class={isWide ? "wide-page" : undefined}>
          {children}
        </main>
      </body>
    </html>
  </>
);

/** Headers of every page: nothing is loaded from elsewhere, framed, cached or passed on. */
export const PAGE_HEADERS = {
  "content-security-policy":
    "default-src 'none'; style-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
  "cache-control": "private, no-store",
  "referrer-policy": "no-referrer",
  "x-content-type-options": "nosniff",
  "x-robots-tag": "noindex",
} as const;

/** The same for a page with a script of this service's own. */
export const SCRIPT_PAGE_HEADERS = {
  ...PAGE_HEADERS,
  "content-security-policy": `${PAGE_HEADERS["content-security-policy"]}; script-src 'self'; connect-src 'self'`,
} as const;

/** The same for a page that brings its stylesheet with it: that text and no other. */
export const KEPT_PAGE_HEADERS = {
  ...PAGE_HEADERS,
  "content-security-policy": PAGE_HEADERS["content-security-policy"].replace(
    "style-src 'self'",
    `style-src 'sha256-${createHash("sha256").update(STYLESHEET).digest("base64")}'`,
  ),
} as const;
