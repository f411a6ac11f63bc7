/**
 * How the page is served, alike by the Electron shell and by the browser's server: which paths there are, with which
 * media types and headers. Kept in one place so that the two can never differ in what they forbid.
 */

/** Stands in index.html where the nonce of that one answer goes. */
export const noncePlaceholder = '__STYLE_NONCE__'

/**
 * The Content Security Policy (W3C CSP Level 3) of the page.
 *
 * Scripts come from our own origin only; WebAssembly may be compiled, eval may not. Style elements need the nonce of
 * this answer, which the editor library puts on the one it makes. Nothing is loaded from anywhere else.
 */
export function contentSecurityPolicy(nonce: string): string {
  return [
    "default-src 'none'",
    "script-src 'self' 'wasm-unsafe-eval'",
    `style-src 'self' 'nonce-${nonce}'`,
    "img-src 'self' data: blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "manifest-src 'self'",
    "frame-src 'none'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; ')
}

/** The headers of every answer that holds a part of the page. The nonce is fresh for each answer. */
export function pageHeaders(mediaType: string, nonce: string): Record<string, string> {
  return {
    'Content-Type': mediaType,
    'Content-Security-Policy': contentSecurityPolicy(nonce),
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Embedder-Policy': 'require-corp',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'Permissions-Policy':
      'camera=(), microphone=(), geolocation=(), usb=(), serial=(), hid=(), bluetooth=(), midi=(), payment=(), display-capture=()',
    'Cache-Control': 'no-cache',
  }
}

const mediaTypes: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  mjs: 'text/javascript; charset=utf-8',
  css: 'text/css; charset=utf-8',
  json: 'application/json; charset=utf-8',
  txt: 'text/plain; charset=utf-8',
  wasm: 'application/wasm',
  svg: 'image/svg+xml',
  png: 'image/png',
  jpg: 'image/jpeg',
  webp: 'image/webp',
  ico: 'image/x-icon',
  woff2: 'font/woff2',
  woff: 'font/woff',
  zip: 'application/zip',
  // Tables of characters that come with the reader of PDFs.
  bcmap: 'application/octet-stream',
  // Dictionaries.
  aff: 'text/plain; charset=utf-8',
  dic: 'text/plain; charset=utf-8',
}

/** A file of the page: its path below the page's folder, with forward slashes, and its media type. */
export interface PageFile {
  readonly path: string
  readonly mediaType: string
}

/**
 * The file that a URL's path names, null when it cannot name one.
 *
 * Only plain segments pass: letters, digits, `_`, `-` and inner dots. So there is nothing to decode and no way up: `..`,
 * `%2e`, backslashes, empty segments and hidden files are refused by the same rule.
 */
export function maybePageFile(pathname: string): PageFile | null {
  const path = pathname === '/' ? 'index.html' : pathname.slice(1)
  if (!pathname.startsWith('/') || !path.split('/').every(isPlainSegment)) return null
  const mediaType = mediaTypes[path.slice(path.lastIndexOf('.') + 1)]
  return mediaType === undefined ? null : { path, mediaType }
}

function isPlainSegment(segment: string): boolean {
  return /^[A-Za-z0-9_][A-Za-z0-9_.-]*$/.test(segment) && !segment.includes('..')
}
