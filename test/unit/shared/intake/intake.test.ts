import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { intakeFile } from '../../../../shared/intake/file.ts'
import { intakeHtml, intakePastedHtml } from '../../../../shared/intake/html.ts'
import { bytesLabel, maxHtmlBytes, maxHtmlElements, maxTextBytes } from '../../../../shared/intake/limits.ts'
import { nothingStated, type Intake, type TakenIn } from '../../../../shared/intake/taken.ts'
import { intakePastedText, intakeText } from '../../../../shared/intake/text.ts'
import { addressesFromUriList, textFromUriList } from '../../../../shared/intake/uri-list.ts'
import { parseMarkdown } from '../../../../shared/markdown/parse.ts'
import { hostileMarkdown } from '../markdown/hostile.ts'

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text)
const taken = (intake: Intake): TakenIn => {
  if (!intake.ok) throw new Error(intake.sentence)
  return intake
}
const page = (html: string, address: string | null = null): TakenIn =>
  taken(intakeHtml('page.html', bytesOf(html), address))
const body = (html: string): string => page(`<!doctype html><title>t</title><body>${html}`).text

describe('text', () => {
  test('a Markdown file keeps its words and takes its title from the first heading', () => {
    const text = 'before\n\n# The *rack* `r1`\n\nbody\n'
    expect(intakeText('notes/rack.md', bytesOf(text))).toEqual({
      ok: true,
      title: 'The rack r1',
      address: null,
      kind: 'markdown',
      text,
      mediaType: 'text/markdown',
      ...nothingStated,
      notes: [],
    })
  })
  test('a plain file is titled by its name', () => {
    expect(taken(intakeText('/var/log/logger.1.log', bytesOf('# not a heading')))).toMatchObject({
      title: 'logger.1',
      kind: 'text',
      mediaType: 'text/plain',
      text: '# not a heading',
    })
  })
  test('line ends become plain ones', () => {
    expect(taken(intakeText('a.txt', bytesOf('a\r\nb\rc\n'))).text).toBe('a\nb\nc\n')
  })
  test.each([
    ['UTF-8 with a mark', [0xef, 0xbb, 0xbf, 0x61, 0xc3, 0xa4], 'aä', []],
    ['UTF-16LE', [0xff, 0xfe, 0x61, 0x00, 0xe4, 0x00], 'aä', ['It was read as utf-16le.']],
    ['UTF-16BE', [0xfe, 0xff, 0x00, 0x61, 0x00, 0xe4], 'aä', ['It was read as utf-16be.']],
    ['windows-1252', [0x61, 0xe4, 0x80], 'aä€', ['It was read as windows-1252.']],
    [
      'broken UTF-8 with a mark',
      [0xef, 0xbb, 0xbf, 0x61, 0xff],
      'a\ufffd',
      ['Some bytes mean nothing in utf-8 and were replaced by the sign \ufffd.'],
    ],
  ])('%s is read as what it is', (_, bytes, text, notes) => {
    expect(taken(intakeText('a.txt', Uint8Array.from(bytes)))).toMatchObject({ text, notes })
  })
  test('a few zero bytes are replaced and reported, many are no text', () => {
    expect(taken(intakeText('a.log', bytesOf('a\0b\0')))).toMatchObject({
      text: 'a\ufffdb\ufffd',
      notes: ['2 zero bytes were replaced by the sign \ufffd.'],
    })
    const refused = intakeText('disk.img', new Uint8Array(4000))
    expect(refused).toMatchObject({ ok: false, code: 'not-text' })
    expect(!refused.ok && refused.sentence).toContain(
      '“disk.img” holds more control characters than any text does',
    )
  })
  test('terminal output with colours and bells is text', () => {
    expect(taken(intakeText('a.log', bytesOf('\u001b[31mred\u001b[0m\u0007\b'.repeat(50)))).ok).toBe(true)
  })
  test.each([
    ['%PDF-1.7', 'is a PDF'],
    ['PK\u0003\u0004', 'is a zip archive'],
    ['\u007fELF', 'is a program'],
  ])('a file that begins with %j is refused by its kind', (start, words) => {
    const refused = intakeText('x', bytesOf(`${start} and words enough to look like a text`))
    expect(!refused.ok && refused.sentence).toContain(words)
  })
  test('a text that is too large is refused with its name, its size and the limit', () => {
    const refused = intakeText('boot.log', new Uint8Array(50 * 1024 * 1024))
    expect(refused).toMatchObject({ ok: false, code: 'too-large' })
    expect(!refused.ok && refused.sentence).toBe(
      '“boot.log” has 50 MiB; up to 16 MiB can be taken in at once. The file is unchanged: split it, or take the lines that you need from it.',
    )
    expect(intakeText('edge.log', new Uint8Array(maxTextBytes).fill(0x61)).ok).toBe(true)
  })
  test('nothing but space is refused as empty', () => {
    expect(intakeText('a.txt', bytesOf(' \n\t'))).toMatchObject({ ok: false, code: 'empty' })
  })
  test('lone halves of a character are replaced in what is pasted', () => {
    expect(taken(intakePastedText('Pasted text', 'a\ud83db\ude00'))).toMatchObject({ text: 'a\ufffdb\ufffd' })
    expect(taken(intakePastedText('Pasted text', '\u{1f52d}')).text).toBe('\u{1f52d}')
  })
  test('whatever bytes come, the answer is a clean text or a sentence', () => {
    fc.assert(
      fc.property(
        fc.uint8Array({ maxLength: 300 }),
        fc.constantFrom('a', 'a.md', 'a.html'),
        (bytes, name) => {
          const intake = intakeFile(name, bytes)
          if (!intake.ok) {
            expect(intake.sentence).toContain(`“${name}”`)
            return
          }
          expect(intake.text).not.toMatch(/[\0\r]|\p{Surrogate}/u)
          expect(intake.title).not.toBe('')
        },
      ),
      { numRuns: 500 },
    )
  })
  test('sizes are told in units of 1024', () => {
    expect([500, 1536, 16 * 1024 * 1024, 3.2 * 1024 ** 3].map(bytesLabel)).toEqual([
      '500 bytes',
      '1.5 KiB',
      '16 MiB',
      '3.2 GiB',
    ])
  })
})

describe('a page', () => {
  test('becomes Markdown with its title and its own address', () => {
    const html = `<!doctype html><html><head><meta charset="utf-8"><title> The
      rack </title><link rel="canonical" href="https://docs.example.org/rack"></head><body>
      <nav><a href="/">Home</a></nav><header><div>Banner</div></header>
      <main><h1>The rack</h1><p>Stop the <b>logger</b> <i>first</i>; see <a href="../logger#stop">how</a>.</p>
      <ul><li>one</li><li>two<ol><li>deep</li></ol></li></ul>
      <pre><code class="language-sh">sudo <span class="k">systemctl</span> stop logger<br>echo done
      </code></pre>
      <table><thead><tr><th>disk</th><th>size</th></tr></thead><tbody><tr><td>sda</td><td>91&nbsp;G</td></tr></tbody></table></main>
      <aside>Ads</aside><footer>Imprint</footer></body></html>`
    expect(page(html)).toEqual({
      ok: true,
      title: 'The rack',
      address: 'https://docs.example.org/rack',
      kind: 'page',
      mediaType: 'text/html',
      ...nothingStated,
      notes: [],
      text: `# The rack

Stop the **logger** *first*; see [how](https://docs.example.org/logger#stop).

- one
- two
  1. deep

\`\`\`sh
sudo systemctl stop logger
echo done
      
\`\`\`

| disk | size |
| - | - |
| sda | 91\u00a0G |
`,
    })
  })

  test.each([
    ['<script>alert(1)</script><p>words</p><style>p{}</style>', 'words\n'],
    ['<p onclick="alert(1)">words<img src=x onerror=alert(1) alt="dome"></p>', 'wordsdome\n'],
    ['<a href="javascript:alert(1)">words</a> <a href=" JAVA&#10;SCRIPT:alert(1)">more</a>', 'words more\n'],
    ['<svg onload=alert(1)><text>drawn</text></svg><p>words</p>', 'words\n'],
    ['<p>unclosed <b>bold <i>both<p>next', 'unclosed **bold _both_**\n\n**_next_**\n'],
    ['<iframe src="https://x.example.org"></iframe><object data=x>fallback</object><p>words', 'words\n'],
    ['<p>5 &lt; 6 &amp; &lt;script&gt;alert(1)&lt;/script&gt;', '5 < 6 & \\<script>alert(1)\\</script>\n'],
    [
      '<form><input value=secret><button>Go</button></form><p hidden>hidden</p><p style="display: none">gone</p><p>words',
      'words\n',
    ],
    ['<a href="data:text/html,<script>">words</a>', 'words\n'],
    ['<p>a<wbr>b<br>c</p>', 'ab\\\nc\n'],
    ['<math><mi>x</mi></math><template><p>t</p></template><noscript>n</noscript>words', 'words\n'],
  ])('%j becomes %j', (html, text) => expect(body(html)).toBe(text))

  test('hostile markup never leaves live HTML or a runnable address in the Markdown', () => {
    const parts = fc.constantFrom(
      '<script>',
      '</script>',
      '<p>',
      '</p>',
      '<a href="javascript:x">',
      '</a>',
      '<img src=x onerror=y>',
      '<svg onload=x>',
      '<table><tr><td>',
      '</table>',
      '<pre>',
      '</pre>',
      '<!--',
      '-->',
      '<b>',
      '</i>',
      'words',
      '&lt;script&gt;',
      '<math><mi>',
      '<template>',
      '<![CDATA[',
      ']]>',
      '<plaintext>',
      '<select>',
      '\0',
      '`',
      '```\n',
      '[x](javascript:y)',
    )
    fc.assert(
      fc.property(fc.array(parts, { maxLength: 20 }), (pieces) => {
        const intake = intakeHtml('a.html', bytesOf(pieces.join('')))
        if (!intake.ok) return
        const look = (node: { type: string; url?: string; children?: unknown[] }): void => {
          expect(node.type).not.toBe('html')
          if (node.url !== undefined) expect(node.url).toMatch(/^https?:/)
          for (const child of node.children ?? []) look(child as typeof node)
        }
        look(parseMarkdown(intake.text))
      }),
      { numRuns: 400, examples: [[['<p>', '<table><tr><td>', ']]>', '<plaintext>', '<script>']]] },
    )
  })

  test('code survives to the last character, whatever it holds', () => {
    fc.assert(
      fc.property(hostileMarkdown, (raw) => {
        const code = raw
          .replace(/\r\n?/g, '\n')
          .replaceAll('\0', '\ufffd')
          .replace(/^\ufeff/, '')
        if (code.trim() === '') return
        const escaped = code
          .replace(/&/g, '&amp;')
          .replace(/</g, '&lt;')
          .replace(/\n/g, (_, at: number) => (at % 2 ? '<br>' : '\n'))
        const tree = parseMarkdown(body(`<p>before</p><pre>\n<span>${escaped}</span>\n</pre>`))
        const fence = tree.children[1]
        expect(fence?.type === 'code' && fence.value).toBe(code)
      }),
      { numRuns: 300 },
    )
  })

  test('a table with code, lists or one column was there for the layout: its boxes follow each other', () => {
    expect(
      body('<table><tr><td class="linenos"><pre>1\n2</pre></td><td><pre>ls\ndf</pre></td></tr></table>'),
    ).toBe('```\nls\ndf\n```\n')
    expect(
      body(
        '<table><tr><td><table><tr><td>in</td><td>side</td></tr></table></td><td>beside</td></tr></table>',
      ),
    ).toBe('| | |\n| - | - |\n| in | side |\n\nbeside\n')
  })

  test('a caption stands above its table', () => {
    expect(body('<table><caption>Disks</caption><tr><th>a<th>b<tr><td>1<td>2</table>')).toBe(
      'Disks\n\n| a | b |\n| - | - |\n| 1 | 2 |\n',
    )
  })

  test('pictures are named with their address; large ones and dots that count readers are left out', () => {
    const html =
      '<p>see <img alt="the dome" src="dome.png"><img src="https://192.0.2.9/dot.gif" width=1 height=1></p>'
    expect(page(html, 'https://docs.example.org/a/').text).toBe(
      'see ![the dome](https://docs.example.org/a/dome.png)\n',
    )
    const large = page(`<p>words <img alt="big" src="data:image/png;base64,${'A'.repeat(20000)}"></p>`)
    expect(large).toMatchObject({ text: 'words big\n', notes: ['Left out: 1 picture.'] })
  })

  test('a known address counts more than what the page says, and an address that is not of the web counts nothing', () => {
    const html = '<link rel=canonical href="https://other.example.org/"><p>words'
    expect(page(html, 'https://docs.example.org/x').address).toBe('https://docs.example.org/x')
    expect(page(html, 'file:///home/me/x.html').address).toBe('https://other.example.org/')
    expect(page('<link rel=canonical href="javascript:x"><p>words').address).toBeNull()
    expect(page('<meta property="og:url" content="https://docs.example.org/og"><p>words').address).toBe(
      'https://docs.example.org/og',
    )
  })

  test('the encoding that a page names is used', () => {
    const html = '<meta charset="iso-8859-2"><p>'
    const bytes = Uint8Array.from([...bytesOf(html), 0xb3, 0x61])
    expect(taken(intakeHtml('a.html', bytes)).text).toBe('ła\n')
  })

  test('ten thousand nested elements are refused with a sentence, not with a crash', () => {
    for (const html of [
      '<div>'.repeat(10_000),
      '<b>'.repeat(10_000),
      '<table><tr><td>'.repeat(4_000),
      '<ul><li>'.repeat(5_000),
    ]) {
      const refused = intakeHtml('deep.html', bytesOf(`${html}words`))
      expect(refused).toMatchObject({ ok: false, code: 'too-deep' })
    }
    expect(intakeHtml('deep.html', bytesOf(`${'<div>'.repeat(300)}words`))).toMatchObject({
      ok: true,
      text: 'words\n',
    })
  })

  test('a page that is too large is refused with its name, its size and the limit', () => {
    const refused = intakeHtml('dump.html', new Uint8Array(maxHtmlBytes + 1))
    expect(!refused.ok && refused.sentence).toContain('“dump.html” has 8 MiB; up to 8 MiB')
    const many = intakeHtml('many.html', bytesOf('<hr>'.repeat(maxHtmlElements + 1)))
    expect(many).toMatchObject({ ok: false, code: 'too-large' })
  })

  test('a page without words is refused as empty', () => {
    expect(intakeHtml('a.html', bytesOf('<script>x</script>'))).toMatchObject({ ok: false, code: 'empty' })
  })
})

describe('what is pasted or dropped', () => {
  test('a fragment in the Windows clipboard format is freed from its wrapping and keeps its address', () => {
    const html =
      'Version:0.9\r\nStartHTML:0000000157\r\nEndHTML:0000000300\r\nStartFragment:0000000193\r\nEndFragment:0000000264\r\nSourceURL:https://docs.example.org/rack\r\n<html><body>\r\n<!--StartFragment--><p>Stop <a href="/logger">it</a></p><!--EndFragment-->\r\n</body></html>'
    expect(taken(intakePastedHtml('Pasted page', html))).toMatchObject({
      text: 'Stop [it](https://docs.example.org/logger)\n',
      address: 'https://docs.example.org/rack',
      title: 'Stop it',
    })
  })
  test('a selection keeps menus and sidebars, since the person chose them', () => {
    expect(taken(intakePastedHtml('Pasted page', '<nav>one</nav><aside>two</aside>')).text).toBe(
      'one\n\ntwo\n',
    )
  })
  test('words without any block become a paragraph', () => {
    expect(taken(intakePastedHtml('Pasted page', '<meta charset="utf-8">just <b>words</b>')).text).toBe(
      'just **words**\n',
    )
  })
  test('a list of links gives its web addresses (RFC 2483)', () => {
    const list =
      '# comment\r\nhttps://docs.example.org/a\r\nfile:///etc/passwd\r\njavascript:alert(1)\r\nhttp://192.0.2.1/\r\nhttps://docs.example.org/a\r\n'
    expect(addressesFromUriList(list)).toEqual(['https://docs.example.org/a', 'http://192.0.2.1/'])
    expect(textFromUriList(list)).toBe('<https://docs.example.org/a>\n<http://192.0.2.1/>')
  })
  test('a file is read by its ending, or by how it begins', () => {
    const html = bytesOf('\ufeff<!-- saved -->\n<!DOCTYPE html><p>words')
    expect(intakeFile('saved', html)).toMatchObject({ kind: 'page' })
    expect(intakeFile('saved.txt', html)).toMatchObject({ kind: 'text' })
    expect(intakeFile('saved.HTM', bytesOf('words'))).toMatchObject({ kind: 'page', text: 'words\n' })
  })
})
