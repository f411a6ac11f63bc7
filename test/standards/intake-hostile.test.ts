/**
 * Hostile files. The attacks were written for this check from public descriptions: the OWASP "XSS Filter Evasion Cheat
 * Sheet", the "HTML5 Security Cheatsheet" (html5sec.org), and what is known of mutation XSS (Heiderich et al., "mXSS
 * Attacks", ACM CCS 2013) and of names that clobber the DOM (OWASP "DOM Clobbering Prevention Cheat Sheet").
 * Each goes every way in; what comes out is drawn by the program's own renderer, and nothing in that may run or lead to a
 * program.
 */
import type { Element } from 'hast'
import { visit } from 'unist-util-visit'
import { describe, expect, test } from 'vitest'
import { intakeAnyFile, type FileIntake } from '../../shared/intake/any-file.ts'
import { intakePastedHtml } from '../../shared/intake/html.ts'
import { intakePastedText } from '../../shared/intake/text.ts'
import { renderMarkdown } from '../../shared/markdown/render.ts'

const attacks = [
  // Scripts, and ways to write them.
  '<script>canary()</script>',
  '<SCRIPT SRC=//192.0.2.1/x.js></SCRIPT>',
  '<script/x>canary()</script>',
  '<scr<script>ipt>canary()</scr</script>ipt>',
  '<<script>canary();//<</script>',
  '<script>canary()',
  '<script\0>canary()</script>',
  '<script type=module>import "//192.0.2.1/x.js"</script>',
  '<noscript><p title="</noscript><img src=x onerror=canary()>">',
  // Handlers.
  '<img src=x onerror=canary()>',
  '<img src="x:x" onerror="canary()">',
  '<img """><script>canary()</script>">',
  '<img src=x onerror\n=\ncanary()>',
  '<IMG SRC=/ onerror="canary()"></img>',
  '<img/src=x/onerror=canary()>',
  '<body onload=canary()>',
  '<svg onload=canary()>',
  '<svg/onload=canary()//',
  '<svg><script>canary()</script></svg>',
  '<svg><animate onbegin=canary() attributeName=x dur=1s>',
  '<svg><a xlink:href="javascript:canary()"><text y=20>go</text></a></svg>',
  '<svg><foreignObject><iframe srcdoc="<script>canary()</script>"></foreignObject></svg>',
  '<details open ontoggle=canary()>words</details>',
  '<video><source onerror=canary()></video>',
  '<audio src=x onerror=canary()>',
  '<input autofocus onfocus=canary()>',
  '<select autofocus onfocus=canary()>',
  '<marquee onstart=canary()>words</marquee>',
  '<p onmouseover="canary()" style="position:fixed;inset:0">words</p>',
  '<a href=# onclick=canary()>words</a>',
  '<xss id=x tabindex=1 onfocus=canary()>words</xss>',
  // Addresses that run.
  '<a href="javascript:canary()">words</a>',
  '<a href="JaVaScRiPt:canary()">words</a>',
  '<a href=" &#14; javascript:canary()">words</a>',
  '<a href="jav&#x09;ascript:canary()">words</a>',
  '<a href="jav&#x0A;ascript:canary()">words</a>',
  '<a href="&#106;&#97;&#118;&#97;&#115;&#99;&#114;&#105;&#112;&#116;&#58;canary()">words</a>',
  '<a href="java\0script:canary()">words</a>',
  '<a href="vbscript:canary()">words</a>',
  '<a href="data:text/html,<script>canary()</script>">words</a>',
  '<a href="data:text/html;base64,PHNjcmlwdD5jYW5hcnkoKTwvc2NyaXB0Pg==">words</a>',
  '<a href="file:///etc/passwd">words</a>',
  '<a href="blob:null/x">words</a>',
  '<a href="stillroom:add?address=x">words</a>',
  '<img src="javascript:canary()" alt=words>',
  '<img src="data:image/svg+xml,<svg onload=canary()>" alt=words>',
  '<img srcset="javascript:canary() 1x" alt=words>',
  '<base href="javascript:/a/"><a href="/canary()//">words</a>',
  '<link rel=canonical href="javascript:canary()"><p>words',
  '<meta http-equiv=refresh content="0;url=javascript:canary()"><p>words',
  // Other pages and programs within.
  '<iframe src="javascript:canary()"></iframe>',
  '<iframe srcdoc="&lt;script&gt;canary()&lt;/script&gt;"></iframe>',
  '<object data="data:text/html,<script>canary()</script>"></object>',
  '<embed src="javascript:canary()">',
  '<applet code=x></applet>',
  '<frameset onload=canary()><frame src="javascript:canary()"></frameset>',
  '<portal src="javascript:canary()">',
  // Forms.
  '<form action="javascript:canary()"><button>words</button></form>',
  '<button formaction="javascript:canary()">words</button>',
  '<isindex action=javascript:canary() type=submit>',
  // Styles.
  '<style>@import "javascript:canary()";</style>',
  '<div style="background:url(javascript:canary())">words</div>',
  '<div style="width:expression(canary())">words</div>',
  '<link rel=stylesheet href="javascript:canary()">',
  // Markup that changes its meaning when it is read again.
  '<math><mtext><table><mglyph><style><!--</style><img title="--&gt;&lt;img src=1 onerror=canary()&gt;">',
  '<svg></p><style><a id="</style><img src=1 onerror=canary()>">',
  '<form><math><mtext></form><form><mglyph><style></math><img src onerror=canary()>',
  '<p title="`><img src=x onerror=canary()>`">words</p>',
  '<xmp><p title="</xmp><img src=x onerror=canary()>">',
  '<textarea></textarea><img src=x onerror=canary()></textarea>',
  '<template><script>canary()</script></template>',
  '<![CDATA[<img src=x onerror=canary()>]]>',
  '<!--><img src=x onerror=canary()>-->',
  '<!-- --!><img src=x onerror=canary()> -->',
  '<comment><img src="</comment><img src=x onerror=canary()//">',
  '<plaintext><script>canary()</script>',
  '<table><td><script>canary()</script>',
  '<select><option><style></option></select><img src=x onerror=canary()></style>',
  // Names that hide those of the DOM.
  '<img name=body><form id=attributes><input name=nodeName></form>',
  '<a id=defaultView><a id=defaultView name=x href="javascript:canary()">words</a>',
  '<p id=__proto__ class=constructor>words</p>',
  // Words that become markup once they are Markdown.
  '<p>&lt;script&gt;canary()&lt;/script&gt;</p>',
  '<p>&lt;img src=x onerror=canary()&gt;</p>',
  '<p>[words](javascript:canary())</p>',
  '<p>![words](javascript:canary())</p>',
  '<p>&lt;javascript:canary()&gt;</p>',
  '<p>[words]: javascript:canary()</p><p>[words]</p>',
  '<pre>```\n<script>canary()</script></pre>',
  '<pre>~~~\n```\n</pre><p>&lt;script&gt;canary()&lt;/script&gt;</p>',
  '<code>`</code><code>&lt;script&gt;canary()&lt;/script&gt;</code>',
  '<a href="https://a.example.org/)![x](javascript:canary())">words</a>',
  '<a href="https://a.example.org/&quot;onmouseover=&quot;canary()">words</a>',
  '<a href="https://a.example.org/" title="&quot;)[x](javascript:canary())">words</a>',
  '<img alt="](javascript:canary())" src="https://a.example.org/x.png">',
  '<title>&lt;script&gt;canary()&lt;/script&gt;</title><p>words',
  '<table><tr><td>|<script>canary()</script>|<td>[x](javascript:canary())</table>',
  '<h1><a name="x&#10;<script>canary()</script>">words</a></h1>',
  '<pre><code class="language-x&#10;&lt;script&gt;canary()&lt;/script&gt;">words</code></pre>',
]

/** The same as Markdown, for files that are Markdown already. */
const markdown = [
  '[words](javascript:canary())',
  '[words](  JAVASCRIPT:canary())',
  '[words](<java\nscript:canary()>)',
  '[words](&#106;avascript:canary())',
  '[words][1]\n\n[1]: javascript:canary()',
  '![words](data:text/html;base64,PHNjcmlwdD4=)',
  '<javascript:canary()>',
  '<a href="javascript:canary()">words</a>',
  '[words](vbscript:canary "title")',
  '[^1]\n\n[^1]: <img src=x onerror=canary()>',
  '| a |\n| - |\n| <img src=x onerror=canary()> |',
  '```js onload=canary()\n</code></pre><script>canary()</script>\n```',
  '- [ ] <input autofocus onfocus=canary()>',
]

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text)
const archived = (html: string): string =>
  `MIME-Version: 1.0\r\nSubject: page\r\nContent-Type: multipart/related; boundary=b\r\n\r\n--b\r\nContent-Type: text/html; charset=utf-8\r\nContent-Location: https://docs.example.org/\r\n\r\n${html}\r\n--b--\r\n`

const elements = new Set(
  'a blockquote br code del div em h1 h2 h3 h4 h5 h6 hr img input li mark ol p pre section span strong sub sup table tbody td th thead tr ul'.split(
    ' ',
  ),
)

/** What a drawn text holds that could run, lead to a program, or fetch. */
function dangers(text: string): string[] {
  const found: string[] = []
  visit(renderMarkdown(text), (node) => {
    if (node.type === 'raw' || node.type === 'comment' || node.type === 'doctype') found.push(node.type)
    if (node.type === 'element') found.push(...dangersOf(node))
  })
  return found
}

function dangersOf({ tagName, properties }: Element): string[] {
  const found = elements.has(tagName) ? [] : [tagName]
  if (tagName === 'input' && properties['type'] !== 'checkbox') found.push('input')
  for (const [name, value] of Object.entries(properties)) {
    const isAddress = [
      'href',
      'src',
      'srcSet',
      'action',
      'formAction',
      'xLinkHref',
      'data',
      'cite',
      'poster',
    ].includes(name)
    const isPlain =
      /^(?:https?:\/\/|#)/i.test(String(value)) || /^data:image\/(?:png|jpeg|gif|webp);/.test(String(value))
    if (/^on/i.test(name) || name === 'style' || name === 'srcDoc') found.push(name)
    if (isAddress && !isPlain) found.push(`${name}=${String(value)}`)
  }
  return found
}

function check(intake: FileIntake): void {
  if (!intake.ok) {
    expect(intake.sentence).toMatch(/^“.+” .+\.$/s)
    return
  }
  if (intake.kind === 'bookmarks') throw new Error('bookmarks')
  expect(dangers(intake.text)).toEqual([])
  expect(intake.address ?? 'https://').toMatch(/^https?:/)
}

describe('an attack in a page', () => {
  test('is seen by this check where it is let through', () => {
    expect(
      dangersOf({ type: 'element', tagName: 'a', properties: { href: 'javascript:x' }, children: [] }),
    ).toHaveLength(1)
    expect(
      dangersOf({ type: 'element', tagName: 'script', properties: { onClick: 'x' }, children: [] }),
    ).toHaveLength(2)
  })
  test.each(attacks)('%j neither runs nor leads to a program, whichever way it comes in', async (attack) => {
    for (const html of [
      attack,
      `<!doctype html><main><p>before ${attack} after</p></main>`,
      `<table><tr><td>${attack}</td></tr></table>`,
    ]) {
      check(await intakeAnyFile('page.html', bytesOf(html)))
      check(await intakeAnyFile('page.mhtml', bytesOf(archived(html))))
      check(await intakeAnyFile('page.md', bytesOf(html)))
      check(await intakeAnyFile('page.txt', bytesOf(html)))
      check(intakePastedHtml('Pasted page', html, 'https://docs.example.org/'))
      check(intakePastedText('Pasted text', html))
    }
  })
  test('in all its forms at once is one page like any other', async () => {
    check(await intakeAnyFile('page.html', bytesOf(attacks.join('<p>between</p>\n'))))
    check(await intakeAnyFile('page.html', bytesOf([...attacks].reverse().join('<p>between</p>\n'))))
  })
})

describe('an attack in Markdown', () => {
  test.each(markdown)('%j neither runs nor leads to a program', async (attack) => {
    check(await intakeAnyFile('page.md', bytesOf(attack)))
    check(await intakeAnyFile('page.md', bytesOf(`> - ${attack.replace(/\n/g, '\n>   ')}`)))
    check(intakePastedText('Pasted text.md', attack))
  })
})

describe('bookmarks', () => {
  /** Each folder holds as many links as bring all of them to the sum. */
  function nested(depth: number, all: number): string {
    const each = Array.from(
      { length: all / depth },
      (_, i) => `<DT><A HREF="https://docs.example.org/${i}" ADD_DATE="1700000000">Page ${i}</A>\n`,
    ).join('')
    const evil = '<DT><A HREF="javascript:canary()">run</A>\n<DT><A HREF="data:text/html,x">run</A>\n'
    const open = Array.from(
      { length: depth },
      (_, i) => `<DT><H3>Folder ${i}</H3>\n<DL><p>\n${each}${evil}`,
    ).join('')
    return `<!DOCTYPE NETSCAPE-Bookmark-file-1>\n<DL><p>\n${open}${'</DL><p>\n'.repeat(depth + 1)}`
  }
  test('come in by ten thousand, nested fifty deep, without those that run', async () => {
    const intake = await intakeAnyFile('bookmarks.html', bytesOf(nested(50, 10_000)))
    if (!intake.ok || intake.kind !== 'bookmarks') throw new Error('not taken for bookmarks')
    expect(intake.links).toHaveLength(10_000)
    expect(intake.links.at(-1)?.folders).toHaveLength(50)
    expect(intake.links.every(({ address }) => address.startsWith('https://docs.example.org/'))).toBe(true)
    expect(intake.notes).toEqual([
      '100 links were left out, because they lead to no page on the web (50 javascript:, 50 data:).',
    ])
  })
  test('nested beyond all bounds are refused in one sentence', async () => {
    const intake = await intakeAnyFile('bookmarks.html', bytesOf(nested(1000, 1000)))
    expect(intake).toMatchObject({ ok: false, code: 'broken' })
    expect(!intake.ok && intake.sentence).toMatch(
      /^“bookmarks\.html” holds more than \d+ folders within each other\..+\.$/,
    )
  })
})
