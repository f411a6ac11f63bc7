import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { intakeAnyFile } from '../../../../shared/intake/any-file.ts'
import { maxArchiveBytes } from '../../../../shared/intake/limits.ts'
import type { TakenIn } from '../../../../shared/intake/taken.ts'
import { intakeWebArchive, maybeMailDate } from '../../../../shared/intake/web-archive.ts'
import { gif, png } from './pictures.ts'

const bytesOf = (text: string): Uint8Array =>
  Uint8Array.from(text.replace(/\n/g, '\r\n'), (sign) => sign.charCodeAt(0) & 0xff)
const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64')

interface Part {
  readonly fields: readonly string[]
  readonly body: string
}
const html = (body: string, ...fields: string[]): Part => ({
  fields: ['Content-Type: text/html; charset=utf-8', ...fields],
  body: `<!doctype html><title>page</title><body><main>${body}</main>`,
})

function archive(parts: readonly Part[], head: readonly string[] = [], end = '\n--=_b 1--\n'): Uint8Array {
  const start = ['MIME-Version: 1.0', ...head]
  if (!head.some((line) => /^content-type/i.test(line)))
    start.push('Content-Type: multipart/related;\n\ttype="text/html"; boundary="=_b 1"')
  const written = parts.map(({ fields, body }) => `\n--=_b 1\n${fields.join('\n')}\n\n${body}`)
  return bytesOf(`${start.join('\n')}\n\npreamble${written.join('')}${end}`)
}

async function page(bytes: Uint8Array): Promise<TakenIn> {
  const intake = await intakeWebArchive('rack.mhtml', bytes)
  if (!intake.ok) throw new Error(intake.sentence)
  return intake
}
async function sentence(bytes: Uint8Array): Promise<string> {
  const intake = await intakeWebArchive('rack.mhtml', bytes)
  if (intake.ok) throw new Error('taken in')
  return intake.sentence
}

describe('a page saved as MHTML', () => {
  test('comes with its title, its address, its moment and its words', async () => {
    const taken = await page(
      archive(
        [
          {
            fields: [
              'Content-Type: text/html',
              'Content-Transfer-Encoding: quoted-printable',
              'Content-Location: https://docs.example.org/rack/ups.html',
            ],
            body: '<meta charset=3Dutf-8><title>x</title><p>Stop the log=\nger =E2=80=94 see <a href=3D"../pdu">how</a>.',
          },
        ],
        [
          'Subject: =?utf-8?Q?UPS=20=E2=80=93?= =?utf-8?B?IMOkbHRlcg==?=',
          'Date: Wed, 25 Nov 2026 06:25:29 +0100',
        ],
      ),
    )
    expect(taken).toMatchObject({
      title: 'UPS – älter',
      address: 'https://docs.example.org/rack/ups.html',
      saved: '2026-11-25T06:25:29.000+01:00',
      kind: 'page',
      mediaType: 'multipart/related',
      text: 'Stop the logger — see [how](https://docs.example.org/pdu).\n',
      notes: [],
    })
  })
  test('takes the part that the header names as its start, else the first that is HTML', async () => {
    const parts = [html('frame', 'Content-ID: <one@x>'), html('the page', 'Content-ID: <two@x>')]
    const type = (start: string): string =>
      `Content-Type: multipart/related; boundary="=_b 1"; start="${start}"`
    expect((await page(archive(parts, [type('<two@x>')]))).text).toBe('the page\n')
    expect((await page(archive(parts, [type('<gone@x>')]))).text).toBe('frame\n')
    expect((await page(archive(parts))).text).toBe('frame\n')
  })
  test('finds its page in parts within parts', async () => {
    const inner = `--in\nContent-Type: text/plain\n\nwords\n--in\n${html('inner').fields.join('\n')}\n\n${html('inner').body}\n--in--`
    const taken = await page(
      archive([{ fields: ['Content-Type: multipart/alternative; boundary=in'], body: inner }]),
    )
    expect(taken.text).toBe('inner\n')
  })
  test('reads the encoding that the part names before the one that the page names', async () => {
    const body = '<meta charset=windows-1252><p>\u00d0\u00ba' // the bytes d0 ba
    const part = (charset: string): Part => ({
      fields: [`Content-Type: text/html; charset="${charset}"`],
      body,
    })
    expect((await page(archive([part('utf-8')]))).text).toBe('к\n')
    expect((await page(archive([part('koi8-r')]))).text).toBe('п╨\n')
    expect((await page(archive([part('no-such')]))).text).toBe('Ðº\n')
  })
  test('keeps the pictures that came along, by location and by id, and no others', async () => {
    const picture = (fields: readonly string[], bytes: Uint8Array): Part => ({
      fields: ['Content-Type: image/png', 'Content-Transfer-Encoding: base64', ...fields],
      body: base64(bytes),
    })
    const taken = await page(
      archive([
        html(
          '<img src="led.png" alt="LED"><img src="cid:fan@x" alt="fan"><img src="gone.png" alt="gone"><img src="dot.gif" alt=""><img src="script.png" alt="script">',
          'Content-Location: file:///srv/pages/a.html',
        ),
        picture(['Content-Location: file:///srv/pages/led.png'], png(3, 2)),
        picture(['Content-ID: <fan@x>'], gif(4, 5)),
        picture(['Content-Location: file:///srv/pages/dot.gif'], gif(1, 1)),
        picture(['Content-Location: file:///srv/pages/script.png'], bytesOf('<script>alert(1)</script>')),
      ]),
    )
    expect(taken.text).toContain(`![LED](data:image/png;base64,${base64(png(3, 2))})`)
    expect(taken.text).toContain(`![fan](data:image/gif;base64,${base64(gif(4, 5))})`)
    expect(taken.text.match(/data:/g)).toHaveLength(2)
    expect(taken.text).toMatch(/gone/)
    expect(taken.notes).toEqual(['Left out: 3 pictures.'])
  })
  test('leaves pictures out from two million characters on', async () => {
    const large = png(9, 9, 11_000)
    const taken = await page(
      archive([
        html('<img src="https://a.example.org/p" alt="p">'.repeat(200)),
        {
          fields: [
            'Content-Type: image/png',
            'Content-Transfer-Encoding: base64',
            'Content-Location: https://a.example.org/p',
          ],
          body: base64(large),
        },
      ]),
    )
    expect(taken.text.match(/data:image/g)!.length).toBeLessThan(145)
    expect(taken.text.match(/data:image/g)!.length).toBeGreaterThan(130)
    expect(taken.text.match(/!\[p\]/g)).toHaveLength(200)
  })
  test('is said to have no end where its last boundary is missing', async () => {
    const taken = await page(archive([html('kept')], [], ''))
    expect(taken.text).toBe('kept\n')
    expect(taken.notes).toEqual(['The file has no last boundary, so what stood at its end may be missing.'])
  })
  test('may stand alone, without parts', async () => {
    const bytes = bytesOf(
      'MIME-Version: 1.0\nContent-Type: text/html\nContent-Location: https://a.example.org/\n\n<p>alone',
    )
    expect(await page(bytes)).toMatchObject({ text: 'alone\n', address: 'https://a.example.org/' })
  })
  test('never runs what it holds', async () => {
    const taken = await page(
      archive([
        html('<script>canary()</script><a href="javascript:canary()">go</a><p onclick="canary()">on'),
      ]),
    )
    expect(taken.text).not.toContain('canary')
    expect(taken.text).toContain('on')
  })
})

describe('a file that should be MHTML', () => {
  test('with a boundary that stands nowhere is refused in a sentence', async () => {
    const type = 'Content-Type: multipart/related; boundary=other'
    expect(await sentence(archive([html('x')], [type]))).toBe(
      '“rack.mhtml” names a boundary between its parts that stands nowhere in it: it was damaged or only half saved. The file is unchanged, and nothing was added: save or download it once more.',
    )
  })
  test('without a page is refused in a sentence', async () => {
    expect(await sentence(archive([{ fields: ['Content-Type: text/css'], body: 'a{}' }]))).toContain(
      'holds no page, only what belonged to one',
    )
  })
  test.each([
    ['nothing', ''],
    ['no header', 'just words'],
    ['a zip', 'PK\u0003\u0004\u0000'],
    ['endless parts within parts', nested(40)],
  ])('but is %s is refused in a sentence', async (_, text) => {
    expect(await sentence(bytesOf(text))).toContain('does not begin as a page does that was saved as MHTML')
  })
  test('that is too large is refused before it is read', async () => {
    expect(await sentence(new Uint8Array(maxArchiveBytes + 1))).toContain('up to 64 MiB can be taken in')
  })
  test('is known by its beginning where its name says nothing', async () => {
    const taken = await intakeAnyFile('saved', archive([html('kept')]))
    expect(taken).toMatchObject({ ok: true, kind: 'page', text: 'kept\n' })
    expect(await intakeAnyFile('note.txt', bytesOf('Subject: a note\n\nwords'))).toMatchObject({
      kind: 'text',
    })
  })
  test('cut off anywhere, gives a page or a sentence', async () => {
    const whole = archive([
      html('words', 'Content-Location: https://a.example.org/'),
      { fields: ['Content-Type: image/png', 'Content-Transfer-Encoding: base64'], body: base64(png(2, 2)) },
    ])
    await fc.assert(
      fc.asyncProperty(fc.nat(whole.length), fc.nat(255), async (at, byte) => {
        for (const bytes of [
          whole.subarray(0, at),
          Uint8Array.from(whole, (b, i) => (i === at ? byte : b)),
        ]) {
          const intake = await intakeWebArchive('rack.mhtml', bytes)
          if (!intake.ok) expect(intake.sentence).toContain('“rack.mhtml”')
        }
      }),
      { numRuns: 200 },
    )
  })
  test('with many boundaries is read in time that grows no faster than its size', async () => {
    const many = (count: number): Uint8Array => archive(Array.from({ length: count }, () => html('x')))
    const time = async (count: number): Promise<number> => {
      const bytes = many(count)
      const begun = performance.now()
      await page(bytes)
      return performance.now() - begun
    }
    await time(200)
    expect(await time(4000)).toBeLessThan(50 * Math.max(await time(400), 2))
  })
})

function nested(depth: number): string {
  const inner = depth === 0 ? 'Content-Type: text/html\n\n<p>deep' : nested(depth - 1)
  return `MIME-Version: 1.0\nContent-Type: multipart/related; boundary=b${depth}\n\n--b${depth}\n${inner}\n--b${depth}--\n`
}

describe('a date of mail', () => {
  test.each([
    ['Wed, 25 Nov 2026 06:25:29 GMT', '2026-11-25T06:25:29.000+00:00'],
    ['Fri, 13 Oct 2016 17:40:08 -0000', '2016-10-13T17:40:08.000+00:00'],
    ['18 May 2011 16:50 -0730', '2011-05-18T16:50:00.000-07:30'],
    ['Wed, 31 Feb 2026 06:25:29 GMT', undefined],
    ['yesterday', undefined],
    ['1 Jan 2026 99:99:99 +9999', undefined],
  ])('%s is read as %s', (text, moment) => {
    expect(maybeMailDate(text)).toBe(moment)
  })
})
