import fc from 'fast-check'
import { parse, type DefaultTreeAdapterTypes as Tree } from 'parse5'
import { describe, expect, it } from 'vitest'
import { toQuietDeclarations, toQuietSheet } from '../../../../shared/sources/original-css.ts'
import { maybeOriginalPage, nothingCame } from '../../../../shared/sources/original-page.ts'
import { toOriginal } from '../../../../shared/sources/original.ts'

const nonce = 'n0nce'
const pageOf = (html: string): string => maybeOriginalPage(html, nonce)!.html
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text)
const dot =
  'data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=='

function elementsOf(html: string): Tree.Element[] {
  const found: Tree.Element[] = []
  const walk = (node: Tree.Node): void => {
    if ('tagName' in node) found.push(node)
    if ('childNodes' in node) node.childNodes.forEach(walk)
  }
  walk(parse(html, { scriptingEnabled: false }))
  return found
}

/** What no document that is shown may hold, however it came in. */
function checkHarmless(html: string): void {
  for (const { tagName, attrs } of elementsOf(html)) {
    expect([
      'script',
      'iframe',
      'frame',
      'object',
      'embed',
      'base',
      'link',
      'form',
      'input',
      'button',
      'template',
      'foreignObject',
      'animate',
      'set',
      'use',
      'image',
    ]).not.toContain(tagName)
    for (const { name, value } of attrs) {
      expect(name).not.toMatch(
        /^on|^(?:href|srcset|action|formaction|srcdoc|background|poster|ping|style|xlink:href)$/iu,
      )
      if (name === 'src') expect(value).toMatch(/^data:image\/(?:png|jpeg|gif|webp);base64,/u)
      if (name === 'http-equiv') expect(value).toBe('Content-Security-Policy')
    }
    if (tagName === 'style') expect(attrs.find(({ name }) => name === 'nonce')?.value).toBe(nonce)
  }
}

const attacks = [
  '<script>ran()</script>words',
  '<svg onload="ran()"><circle r="4"/></svg>',
  '<svg><script>ran()</script><a xlink:href="javascript:ran()"><text>x</text></a></svg>',
  '<svg><animate attributeName="href" values="javascript:ran()"/><set/><use href="#x"/><foreignObject><body onload=ran()></foreignObject></svg>',
  '<a href="javascript:ran()">go</a><a href="https://example.org/">out</a>',
  '<meta http-equiv="refresh" content="0;url=https://example.org/">',
  '<iframe srcdoc="<script>parent.ran()</script>"></iframe><object data="x"></object><embed src="x">',
  '<base href="https://example.org/"><link rel="stylesheet" href="https://example.org/a.css">',
  '<form action="https://example.org/"><input name="a"><button formaction="https://example.org/">go</button></form>',
  '<style>@import "https://example.org/a.css"; body { background: url(https://example.org/a.png) }</style>',
  '<div style="background: u\\72l(https://example.org/a.png)">x</div>',
  '<div style="}</style><script>ran()</script>">x</div>',
  '<img src="https://example.org/a.png" srcset="https://example.org/b.png 2x" onerror="ran()" alt="a mast">',
  '<math><mtext><table><mglyph><style><!--</style><img title="--&gt;&lt;img src=1 onerror=ran()&gt;">',
  '<svg></p><style><a id="</style><img src=1 onerror=ran()>">',
  '<noscript><p title="</noscript><img src=x onerror=ran()>">',
  '<form><math><mtext></form><form><mglyph><style></math><img src onerror=ran()>',
  '<xmp><img src=x onerror=ran()></xmp><plaintext><img src=x onerror=ran()>',
  '<template><script>ran()</script></template><textarea></textarea><img src=x onerror=ran()>',
  '<body background="https://example.org/a.png" onload="ran()"><video src="x" autoplay></video>',
  '<details open ontoggle="ran()"><summary>s</summary>d</details>',
  '<input autofocus onfocus="ran()"><select><script>ran()</script></select>',
  '<svg><style>*{background:url("https://example.org/x")}</style></svg>',
]

describe('maybeOriginalPage', () => {
  it.each(attacks)('makes harmless %s', (attack) => {
    const html = pageOf(`<!DOCTYPE html><title>t</title><p>before</p>${attack}<p>behind</p>`)
    checkHarmless(html)
    expect(html).toContain('before')
    expect(html).not.toContain('https://example.org/a.css')
    expect(html).not.toContain('example.org/a.png')
  })

  it('is harmless however attacks are put together, and the same when it is read again', () => {
    const pieces = fc.array(fc.oneof(fc.constantFrom(...attacks), fc.string({ maxLength: 12 })), {
      maxLength: 5,
    })
    fc.assert(
      fc.property(pieces, (all) => {
        const html = pageOf(all.join(''))
        checkHarmless(html)
        expect(pageOf(html)).toBe(html)
      }),
      { numRuns: 150 },
    )
  })

  it('puts its policy before everything that could load', () => {
    const html = pageOf('<style>p { color: teal }</style><p>x')
    const policy = html.indexOf('Content-Security-Policy')
    expect(policy).toBeGreaterThan(0)
    expect(policy).toBeLessThan(html.indexOf('<style'))
    expect(html).toContain("default-src 'none'; img-src data:; style-src 'nonce-n0nce'")
  })

  it('keeps the page as it looked: styles with the nonce, style attributes as rules, tables, drawings, own pictures', () => {
    const html = pageOf(
      `<style media="screen">p { color: teal }</style><p style="margin: 1em; color: red">one</p><p style="margin: 1em; color: red">two</p><table><tr><td colspan="2" align="right">4</td></tr></table><svg viewBox="0 0 4 4"><path d="M0 0L4 4" stroke="black"/></svg><img src="${dot}" alt="dot" width="9">`,
    )
    expect(html).toMatch(/<style nonce="n0nce" media="screen">p \{ color: teal \}<\/style>/u)
    expect(html).toContain('.of-attribute-1:not(#_):not(#_):not(#_){margin: 1em; color: red}')
    expect(html.match(/class="of-attribute-1"/gu)).toHaveLength(2)
    expect(html).toContain('<td colspan="2" align="right">4</td>')
    expect(html).toContain('<svg viewBox="0 0 4 4"><path d="M0 0L4 4" stroke="black"></path></svg>')
    expect(html).toContain(`src="${dot}"`)
    expect(html).toContain('width="9"')
  })

  it('shows the words of a picture that did not come along, and the address of a link when it is pointed at', () => {
    const html = pageOf(
      '<img src="https://example.org/m.png" alt="the mast" width="400"><a href="https://example.org/t">t</a>',
    )
    expect(html).toContain('<span>the mast</span>')
    expect(html).toContain('<a title="https://example.org/t">t</a>')
  })

  it('puts in a style sheet and pictures that came along', () => {
    const html = maybeOriginalPage('<link rel="stylesheet" href="a.css"><img src="m.png" alt="m">', nonce, {
      picture: (address) => (address === 'm.png' ? dot : undefined),
      sheet: (address) =>
        address === 'a.css'
          ? { css: 'p { background: url(b.png) }', picture: (one) => (one === 'b.png' ? dot : undefined) }
          : undefined,
    })!.html
    expect(html).toContain(`<style nonce="n0nce">p { background: url("${dot}") }</style>`)
    expect(html).toContain(`alt="m" src="${dot}"`)
  })

  it('refuses what is nested deeper than any page', () => {
    expect(maybeOriginalPage('<div>'.repeat(2000), nonce, nothingCame)).toBeUndefined()
  })
})

describe('style sheets', () => {
  const none = () => undefined
  it.each([
    '@import url(https://example.org/a);',
    '@im\\70ort "https://example.org/a";',
    'a{b:url(https://example.org/a)}',
    'a{b:URL( "https://example.org/a" )}',
    'a{b:u\\72l(https://example.org/a)}',
    'a{b:url(/**/"https://example.org/a")}',
    'a{b:image-set("https://example.org/a" 1x)}',
    'a{b:src("https://example.org/a")}',
    'a{b:url(https://example.org/a b',
    '@font-face{src:url(https://example.org/a)}',
  ])('reach nowhere: %s', (css) => {
    expect(toQuietSheet(css, none)).not.toContain('example.org')
    expect(toQuietDeclarations(css, none)).not.toContain('example.org')
  })

  it.each(['a{b:u/**/rl(x)}', 'a{b:u)rl(x)}', 'a{b:u<!--rl(x)}'])('make no new word of two: %s', (css) => {
    expect(toQuietSheet(css, none)).toBe('a{b:u rl(x)}')
  })

  it('stay within their element and their rule, and are the same when they are read again', () => {
    const piece = fc.constantFrom(
      '{',
      '}',
      '(',
      ')',
      '[',
      ']',
      '"',
      "'",
      '/*',
      '*/',
      '</style>',
      '<!--',
      ';',
      'a',
      'u',
      'rl(',
      '\\',
      '\n',
      'url(',
      '@import',
      ':',
      '#b',
    )
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 14 }), (all) => {
        const css = all.join('')
        const [sheet, inside] = [toQuietSheet(css, none), toQuietDeclarations(css, none)]
        expect(sheet).not.toMatch(/<\/|<!/u)
        expect(inside.replace(/\\[^]/gu, '').replace(/"[^"]*"|'[^']*'/gu, '')).not.toMatch(/[{}]|<\//u)
        expect(toQuietSheet(sheet, none).replace(/\s+/gu, ' ')).toBe(sheet.replace(/\s+/gu, ' '))
        expect(sheet).not.toMatch(/(?<![\w\\])url\s*\(/iu)
        expect(toQuietSheet(`.a{${inside}}.b{c:d}`, none)).toContain('.b{c:d}')
      }),
      { numRuns: 400 },
    )
  })
})

describe('toOriginal', () => {
  it('tells kinds by the bytes and not by what was said of them', async () => {
    expect((await toOriginal(bytesOf('%PDF-1.7\n'), 'text/html', nonce)).kind).toBe('pdf')
    expect(await toOriginal(bytesOf('plain <b>words</b>'), 'text/plain', nonce)).toEqual({
      kind: 'text',
      text: 'plain <b>words</b>',
      encoding: 'utf-8',
    })
    expect((await toOriginal(bytesOf('<p>words</p>'), 'text/html', nonce)).kind).toBe('page')
    const picture = Uint8Array.from(atob(dot.slice(dot.indexOf(',') + 1)), (sign) => sign.charCodeAt(0))
    expect(await toOriginal(picture, 'text/html', nonce)).toEqual({
      kind: 'picture',
      mediaType: 'image/png',
      width: 1,
      height: 1,
    })
    expect(
      (await toOriginal(new Uint8Array([0x50, 0x4b, 3, 4, 0, 0, 0, 0]), 'application/zip', nonce)).kind,
    ).toBe('not shown')
  })

  it('shows a page of an MHTML file with the style sheet and the pictures beside it (RFC 2557)', async () => {
    const archive = [
      'From: <Saved>',
      'Snapshot-Content-Location: https://mast.example.org/a/page.html',
      'MIME-Version: 1.0',
      'Content-Type: multipart/related; type="text/html"; boundary="b"',
      '',
      '--b',
      'Content-Type: text/html; charset=utf-8',
      'Content-Location: https://mast.example.org/a/page.html',
      '',
      '<link rel="stylesheet" href="cid:css@mhtml"><p>gusts</p><img src="m.png" alt="mast"><img src="gone.png" alt="gone">',
      '--b',
      'Content-Type: text/css; charset=utf-8',
      'Content-ID: <css@mhtml>',
      'Content-Location: https://mast.example.org/css/a.css',
      '',
      'p { color: teal; background: url(../a/m.png) }',
      '--b',
      'Content-Type: image/png',
      'Content-Transfer-Encoding: base64',
      'Content-Location: https://mast.example.org/a/m.png',
      '',
      dot.slice(dot.indexOf(',') + 1),
      '--b--',
      '',
    ].join('\r\n')
    const original = await toOriginal(bytesOf(archive), 'multipart/related', nonce)
    const html = original.kind === 'page' ? original.html : ''
    expect(html).toContain(`p { color: teal; background: url("${dot}") }`)
    expect(html).toContain(`alt="mast" src="${dot}"`)
    expect(html).toContain('<span>gone</span>')
    checkHarmless(html)
  })
})
