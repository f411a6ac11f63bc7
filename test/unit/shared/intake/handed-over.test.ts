import { runInNewContext } from 'node:vm'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  bookmarkletFor,
  isOfLinkScheme,
  longestHandedOver,
  maxSelectionBytes,
  readHandedOver,
} from '../../../../shared/intake/handed-over.ts'
import { toStorableText } from '../../../../shared/lab/text.ts'

interface Page {
  readonly href: string
  readonly title: string
  readonly selection: string
  readonly platform?: string
}

/** Presses the bookmark on a page: what address the browser is sent to, and what it says. */
function press(page: Page): { link: string | null; said: string[] } {
  const code = decodeURIComponent(bookmarkletFor().slice('javascript:'.length))
  const said: string[] = []
  const location = { href: page.href }
  const result: unknown = runInNewContext(code, {
    URLSearchParams,
    location,
    document: { title: page.title },
    navigator: { platform: page.platform ?? 'Linux x86_64' },
    getSelection: () => ({ toString: () => page.selection }),
    alert: (sentence: string) => said.push(sentence),
  })
  // A bookmark whose value is not undefined would put that value in the page's place.
  expect(result).toBeUndefined()
  return { link: location.href === page.href ? null : location.href, said }
}

function read(link: string | null) {
  // The browser writes the address anew before it hands it on.
  const handed = readHandedOver(new URL(link ?? '').href)
  if (!handed.ok) throw new Error(handed.sentence)
  return handed.value
}

const anyText = fc.string({ unit: 'binary', maxLength: 400 })
const mixedText = fc.oneof(anyText, fc.string({ unit: 'grapheme', maxLength: 400 }))

describe('what the bookmark hands over', () => {
  it('is read again as the page had it, whatever its title and selection hold', () => {
    fc.assert(
      fc.property(
        fc.webUrl({ withFragments: true, withQueryParameters: true }),
        mixedText,
        mixedText,
        (href, title, selection) => {
          const handed = read(press({ href, title, selection }).link)
          expect(handed.address).toBe(new URL(href).href)
          const line = toStorableText(title.replace(/[\s\p{Cc}]+/gu, ' ').trim())
          const points = Array.from(line)
          expect(handed.title).toBe(points.length > 200 ? `${points.slice(0, 199).join('')}…` : line)
          expect(handed.selection).toBe(toStorableText(selection.trim()))
        },
      ),
    )
  })

  it.each([
    ['Win32', longestHandedOver.windows],
    ['MacIntel', longestHandedOver.elsewhere],
  ])(
    'is cut on %s to %i characters of an address, with the cut marked and nothing to spare',
    (platform, most) => {
      const long = fc
        .array(fc.constantFrom('rack ', '12.5 °C\n', 'Lüfter ', '気象', '🌡', '%41&=+#'), {
          minLength: most / 4,
          maxLength: most / 2,
        })
        .map((words) => words.join(''))
      fc.assert(
        fc.property(long, (selection) => {
          fc.pre(new URLSearchParams({ selection }).toString().length > most)
          const page = { href: 'https://mast.example.org/fans?a=b#c', title: 'Fans', selection, platform }
          const { link } = press(page)
          expect(link!.length).toBeLessThanOrEqual(most)
          expect(link!.length).toBeGreaterThan(most - '%F0%9F%8C%A1'.length)
          const handed = read(link)
          expect(handed.selection.endsWith('…')).toBe(true)
          const kept = handed.selection.slice(0, -1)
          expect(selection.trim().startsWith(kept)).toBe(true)
          expect(/[\ud800-\udbff]$/.test(kept)).toBe(false)
        }),
        { numRuns: 20 },
      )
    },
  )

  it('is the address alone where a title does not fit beside it, and a sentence where not even that does', () => {
    const room = longestHandedOver.windows - 'stillroom:add?address='.length
    const start = 'https://mast.example.org/'
    const href = start + 'a'.repeat(room - encodeURIComponent(start).length)
    const page = { title: 'Fans', selection: 'all of them', platform: 'Win32' }
    expect(read(press({ ...page, href }).link)).toEqual({ address: href, title: '', selection: '' })
    const { link, said } = press({ ...page, href: `${href}a` })
    expect(link).toBeNull()
    expect(said).toEqual([expect.stringContaining('too long to be handed over')])
  })

  it('is one line of plain ASCII that asks nothing of the network', () => {
    expect(bookmarkletFor()).toMatch(/^javascript:[!-~]+$/)
    expect(bookmarkletFor()).not.toContain('#')
    expect(decodeURIComponent(bookmarkletFor())).not.toMatch(/fetch|XMLHttp|import|src|https?:/)
  })
})

const good = 'stillroom:add?address=https%3A%2F%2Fmast.example.org%2F'

describe('an address of our scheme is read', () => {
  it('with an address alone, in any case of the scheme', () => {
    const value = { address: 'https://mast.example.org/', title: '', selection: '' }
    expect(readHandedOver(good)).toEqual({ ok: true, value })
    expect(readHandedOver(good.replace('stillroom', 'StillRoom'))).toEqual({ ok: true, value })
  })

  it('up to its bounds themselves, and not beyond them', () => {
    expect(readHandedOver(`${good}&title=${'%F0%9F%8C%A1'.repeat(200)}`).ok).toBe(true)
    expect(readHandedOver(`${good}&title=${'a'.repeat(201)}`)).toMatchObject({ ok: false, code: 'refused' })
    for (const [sign, bytes] of [
      ['a', 1],
      ['%C3%A9', 2],
      ['%E6%B0%97', 3],
      ['%F0%9F%8C%A1', 4],
    ] as const) {
      const most = Math.floor(maxSelectionBytes / bytes)
      expect(readHandedOver(`${good}&selection=${sign.repeat(most)}`).ok).toBe(true)
      expect(readHandedOver(`${good}&selection=${sign.repeat(most + 1)}`)).toMatchObject({
        sentence: expect.stringContaining('64 KiB') as string,
      })
    }
    expect(readHandedOver(`${good}${'a'.repeat(7000)}`).ok).toBe(true)
    expect(readHandedOver(`${good}${'a'.repeat(8000)}`).ok).toBe(false)
  })

  it.each([
    '',
    'stillroom:',
    'stillroom:add',
    'stillroom:add?',
    'stillroom:add?title=Fans',
    'stillroom://add?address=https%3A%2F%2Fmast.example.org%2F',
    'stillroom:open?address=https%3A%2F%2Fmast.example.org%2F',
    ` ${good}`,
    `${good}\n`,
    `${good}#selection`,
    `${good}&title=a b`,
    `${good}&title=é`,
    `${good}&title=one%0Atwo`,
    `${good}&title=one%E2%80%A8two`,
    `${good}&title=%1B%5B2J`,
    `${good}&title=a&title=b`,
    `${good}&address=https%3A%2F%2Fmast.example.org%2F`,
    `${good}&run=1`,
    `${good}&Title=a`,
    'stillroom:add?address=javascript%3Aalert(1)',
    'stillroom:add?address=file%3A%2F%2F%2Fetc%2Fpasswd',
    'stillroom:add?address=data%3Atext%2Fhtml%2C1',
    'stillroom:add?address=mast.example.org',
    'stillroom:add?address=',
    'https://mast.example.org/',
  ])('not from %j', (text) => {
    const read = readHandedOver(text)
    expect(read).toMatchObject({ ok: false, code: 'refused' })
    expect(read.ok ? '' : read.sentence).toMatch(/Nothing in the lab was changed\./)
  })

  it('never with more than three bounded fields, whatever the text is', () => {
    const field = fc.oneof(
      fc.tuple(fc.constantFrom('title', 'selection', 'x'), fc.string({ unit: 'binary' })),
      fc.tuple(fc.constant('address'), fc.oneof(fc.webUrl(), fc.string())),
    )
    let taken = 0
    const link = fc.oneof(
      fc.string(),
      fc
        .array(field, { maxLength: 5 })
        .map((fields) => `stillroom:add?${new URLSearchParams(fields).toString()}`),
      fc.string().map((rest) => `${good}&${rest}`),
    )
    fc.assert(
      fc.property(link, (text) => {
        const read = readHandedOver(text)
        if (!read.ok) {
          expect(read.sentence).not.toBe('')
          return
        }
        taken += 1
        expect(Object.keys(read.value).sort()).toEqual(['address', 'selection', 'title'])
        expect(read.value.address).toMatch(/^https?:\/\//)
        expect(read.value.title).not.toMatch(/[\p{Cc}\u2028\u2029]/u)
        expect(read.value.selection).not.toMatch(/[\r\0]/)
      }),
      { numRuns: 1000 },
    )
    expect(taken).toBeGreaterThan(5)
  })

  it('and known as one of ours by its scheme alone', () => {
    expect(['stillroom:', 'STILLROOM:add?'].map(isOfLinkScheme)).toEqual([true, true])
    expect(['still', './stillroom:add', 'https://x', ''].map(isOfLinkScheme)).toEqual([
      false,
      false,
      false,
      false,
    ])
  })
})
