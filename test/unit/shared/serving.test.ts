import { resolve } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { contentSecurityPolicy, maybePageFile, pageHeaders } from '../../../shared/serving.ts'

describe('a path of a URL', () => {
  it.each([
    ['/', 'index.html', 'text/html; charset=utf-8'],
    ['/assets/index-Ab_9.js', 'assets/index-Ab_9.js', 'text/javascript; charset=utf-8'],
    ['/assets/sqlite3.wasm', 'assets/sqlite3.wasm', 'application/wasm'],
    ['/assets/commit-mono-latin-400-normal.woff2', 'assets/commit-mono-latin-400-normal.woff2', 'font/woff2'],
  ])('%s names the file %s', (pathname, path, mediaType) => {
    expect(maybePageFile(pathname)).toEqual({ path, mediaType })
  })

  it.each([
    '',
    'index.html',
    '//',
    '/../a.js',
    '/a/../b.js',
    '/%2e%2e/a.js',
    '/a%2fb.js',
    '/a\\b.js',
    '/.env',
    '/a/',
    '/a',
    '/a.b..js',
    '/a\0.js',
    '/a.exe',
  ])('%j names none', (pathname) => {
    expect(maybePageFile(pathname)).toBeNull()
  })

  it('never leads out of the folder, whatever it is', () => {
    const segment = fc.oneof(
      fc.constantFrom('..', '.', '%2e%2e', '', 'a', 'index.html', '\\', '..%5c'),
      fc.string(),
    )
    fc.assert(
      fc.property(fc.array(segment), (segments) => {
        const file = maybePageFile(`/${segments.join('/')}`)
        if (file !== null) expect(resolve('/page', file.path).startsWith('/page/')).toBe(true)
      }),
    )
  })
})

describe('the policy', () => {
  it('allows no inline code, no eval and nothing foreign', () => {
    const policy = contentSecurityPolicy('bm9uY2U=')
    expect(policy).not.toContain('unsafe-inline')
    expect(policy).not.toContain("'unsafe-eval'")
    expect(policy).not.toMatch(/https?:|\*/)
    expect(policy.startsWith("default-src 'none'; ")).toBe(true)
  })

  it('goes with every answer, with the headers of an isolated page', () => {
    expect(pageHeaders('text/plain; charset=utf-8', 'x')).toMatchObject({
      'Cross-Origin-Opener-Policy': 'same-origin',
      'Cross-Origin-Embedder-Policy': 'require-corp',
      'X-Content-Type-Options': 'nosniff',
    })
  })
})
