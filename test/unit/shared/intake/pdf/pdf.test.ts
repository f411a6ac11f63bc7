import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { intakeAnyFile } from '../../../../../shared/intake/any-file.ts'
import { maxPageRuns, maxPdfBytes } from '../../../../../shared/intake/limits.ts'
import { datedOf, maybeTitle } from '../../../../../shared/intake/pdf/facts.ts'
import type { PdfWays } from '../../../../../shared/intake/pdf/open.ts'
import type { TakenIn } from '../../../../../shared/intake/taken.ts'
import { lines, pdf, type Draw, type Making } from './make.ts'

const folder = dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json'))
const ways: PdfWays = {
  readTable: async (file) => new Uint8Array(await readFile(join(folder, 'cmaps', file))),
}

async function taken(pages: readonly (readonly Draw[])[], making: Making = {}): Promise<TakenIn> {
  const intake = await intakeAnyFile('rack.pdf', pdf(pages, making), ways)
  if (!intake.ok) throw new Error(intake.sentence)
  if (intake.kind === 'bookmarks') throw new Error('bookmarks')
  return intake
}
async function refused(name: string, bytes: Uint8Array): Promise<{ code: string; sentence: string }> {
  const intake = await intakeAnyFile(name, bytes, ways)
  if (intake.ok) throw new Error('taken in')
  return intake
}
const pageTexts = ({ text, pages }: TakenIn): string[] =>
  pages.map(({ start }, i) => text.slice(start, pages[i + 1]?.start))

const prose = [
  'The logger writes one line for each minute and keeps them for a year on',
  'the first of its two disks, from where they are copied every night. When',
  'the copy fails, a lamp on the front of the rack turns red and stays so.',
]

describe('the text of a PDF', () => {
  test('is joined to paragraphs, with what the file says of itself', async () => {
    const found = await taken([[...lines(prose), ...lines(['Ask before you stop it.'], { y: 650 })]], {
      info: { Title: 'The rack', Author: 'Ada Example', CreationDate: "D:20240301120000+01'00'" },
    })
    expect(found).toEqual({
      ok: true,
      title: 'The rack',
      address: null,
      kind: 'pdf',
      text: `${prose.join(' ')}\n\nAsk before you stop it.\n`,
      mediaType: 'application/pdf',
      author: 'Ada Example',
      dated: '2024-03-01T12:00:00+01:00',
      saved: null,
      pages: [{ start: 0, label: '1' }],
      notes: [],
    })
  })
  test('has headings where type is larger or the outline says so, and a title from the largest of the first page', async () => {
    const found = await taken(
      [
        [
          ...lines(['Weather logger'], { size: 20, y: 740 }),
          ...lines(prose, { y: 700 }),
          ...lines(['1.2 Disks'], { y: 640 }),
          ...lines(prose, { y: 620 }),
        ],
      ],
      { outline: [{ title: 'Disks', page: 0 }], info: { Title: 'logger-final.docx' } },
    )
    expect(found.title).toBe('Weather logger')
    expect(found.text).toBe(`# Weather logger\n\n${prose.join(' ')}\n\n# 1.2 Disks\n\n${prose.join(' ')}\n`)
  })
  test('keeps lines, indentation and empty lines of code', async () => {
    const code = [
      { x: 90, y: 660, text: 'if mount | grep -q /srv', font: 'mono' as const },
      { x: 102, y: 648, text: 'then', font: 'mono' as const },
      { x: 114, y: 636, text: 'rsync   -a  /srv/log', font: 'mono' as const },
      { x: 90, y: 612, text: 'fi', font: 'mono' as const },
    ]
    const found = await taken([[...lines(prose), ...code, ...lines(prose, { y: 580 })]])
    expect(found.text).toContain(
      '\n\n```\nif mount | grep -q /srv\n  then\n    rsync   -a  /srv/log\n\nfi\n```\n\n',
    )
  })
  test('is read column by column', async () => {
    const left = prose.map((line) => `L ${line.slice(0, 44)}`)
    const right = prose.map((line) => `R ${line.slice(0, 44)}`)
    const six = (side: readonly string[]): string[] => [...side, ...side]
    const apart = [lines(six(left), { x: 72 }), lines(six(right), { x: 320 })]
    const woven = apart[0]!.flatMap((draw, i) => [draw, apart[1]![i]!])
    for (const draws of [apart.flat(), woven]) {
      const { text } = await taken([draws])
      expect(text.lastIndexOf('L The')).toBeLessThan(text.indexOf('R The'))
    }
  })
  test('keeps each row of a table together', async () => {
    const rows = ['sda 4 TB good', 'sdb 4 TB good', 'sdc 2 TB old', 'sdd 2 TB bad', 'sde 1 TB spare']
    const draws = rows.flatMap((row, i) =>
      row.split(' ').map((text, n) => ({ x: 72 + n * 120, y: 700 - i * 14, text })),
    )
    expect((await taken([draws])).text).toBe(`${rows.join('\\\n')}\n`)
  })
  test('joins a word that was parted only where the document says so', async () => {
    const found = await taken([
      [
        ...lines(
          [
            'The configuration of the whole set of machines is kept in one place, and this con-',
            'figuration is copied to the rack in the base-',
            'ment each night by a job that the command line',
            'starts.',
          ],
          { y: 720 },
        ),
        ...lines(
          ['A line of the log follows the command that was given, and then the command-', 'line shows it.'],
          { y: 650 },
        ),
      ],
    ])
    expect(found.text).toContain('this configuration is')
    expect(found.text).toContain('the command-line shows')
  })
  test('has lists with their signs', async () => {
    const { text } = await taken([lines(['\x95 stop the logger', '\x95 copy the disk'], { pitch: 14 })])
    expect(text).toBe('- stop the logger\n\n- copy the disk\n')
  })
  test('in a font whose characters stand in tables is found in these', async () => {
    const file = pdf([[{ x: 72, y: 700, text: '気象観測所の記録' }]], { table: 'UniJIS-UCS2-H' })
    expect(await intakeAnyFile('a.pdf', file, ways)).toMatchObject({ text: '気象観測所の記録\n' })
  })
})

describe('the pages of a PDF', () => {
  test('begin where their first words stand, also within a paragraph, and bear the labels of the file', async () => {
    const found = await taken(
      [
        lines(['Cover']),
        [],
        lines([...prose, 'and when nobody comes within the hour the whole rack is shut']),
        lines(['down by its own watch, *without* a question.', 'Then call the observatory.'], { pitch: 24 }),
      ],
      { labels: '0<</S/r>>2<</S/D/St 7>>' },
    )
    expect(found.pages.map(({ label }) => label)).toEqual(['i', 'ii', '7', '8'])
    expect(pageTexts(found)).toEqual([
      'Cover\n\n',
      '',
      `${prose.join(' ')} and when nobody comes within the hour the whole rack is shut `,
      'down by its own watch, \\*without\\* a question.\n\nThen call the observatory.\n',
    ])
    expect(found.notes).toEqual(['Page 2 holds no text.'])
  })
  test('are freed from what stands at the head or foot of most of them, which is said', async () => {
    const page = (n: number): Draw[] => [
      { x: 72, y: 760, text: 'Weather logger', size: 9 },
      ...lines(prose.map((line) => `${line} ${n * n}`)),
      { x: 300, y: 40, text: String(n), size: 9 },
    ]
    const found = await taken([1, 2, 3, 4].map(page))
    expect(found.text).not.toContain('Weather logger')
    expect(pageTexts(found).every((text, i) => !text.includes(`\n${i + 1}\n`))).toBe(true)
    expect(found.notes).toEqual([
      'Left out: 8 lines that stand at the head or foot of most pages, such as “Weather logger”.',
    ])
  })
  test('are told one by one while they are read', async () => {
    const told: [number, number][] = []
    await intakeAnyFile('a.pdf', pdf([lines(prose), lines(prose)]), {
      ...ways,
      onPage: (at, of) => told.push([at, of]),
    })
    expect(told).toEqual([
      [1, 2],
      [2, 2],
    ])
  })
  test('never begin before the page before them, whatever stands on them', async () => {
    const draw = fc.record({
      x: fc.integer({ min: -50, max: 700 }),
      y: fc.integer({ min: -50, max: 850 }),
      text: fc.stringMatching(/^[ -~]{1,40}$/),
      size: fc.constantFrom(0.1, 7, 10, 24),
      font: fc.constantFrom('serif' as const, 'mono' as const),
    })
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.array(draw, { maxLength: 12 }), { minLength: 1, maxLength: 5 }),
        async (pages) => {
          const intake = await intakeAnyFile('a.pdf', pdf(pages), ways)
          if (!intake.ok) {
            expect(intake.code).toBe('empty')
            return
          }
          if (intake.kind !== 'pdf') throw new Error(intake.kind)
          expect(intake.pages).toHaveLength(pages.length)
          const starts = intake.pages.map(({ start }) => start)
          expect([...starts].sort((a, b) => a - b)).toEqual(starts)
          expect(starts.at(-1)).toBeLessThanOrEqual(intake.text.length)
          const letters = (text: string): number => text.match(/[A-Za-z]/g)?.length ?? 0
          const noted = intake.notes.join('').includes('Left out')
          if (!noted && pages.flat().every(({ size }) => size > 1))
            expect(letters(intake.text)).toBeGreaterThan(0)
        },
      ),
      { numRuns: 60 },
    )
  })
})

describe('a PDF that cannot be read', () => {
  const good = pdf([lines(prose)], { info: { Title: 'The rack' } })
  test('for want of its password says so; an empty password is none', async () => {
    const { code, sentence } = await refused('rack.pdf', pdf([lines(prose)], { password: 'secret' }))
    expect(code).toBe('locked')
    expect(sentence).toContain('“rack.pdf” is locked with a password')
    const open = await taken([lines(prose)], { password: '', info: { Title: 'Open rack' } })
    expect(open).toMatchObject({ title: 'Open rack', text: `${prose.join(' ')}\n` })
  })
  test('because it is something else says what it is', async () => {
    expect((await refused('rack.pdf', new TextEncoder().encode('PK\u0003\u0004 words'))).sentence).toBe(
      '“rack.pdf” is named as a PDF, but is a zip archive or an office document. The file is unchanged, and nothing was added: save or download it once more.',
    )
    expect((await refused('rack.pdf', new TextEncoder().encode('words'))).sentence).toContain(
      'does not begin as one',
    )
  })
  test('because it holds only pictures says so', async () => {
    const { code, sentence } = await refused('scan.pdf', pdf([[], []]))
    expect(code).toBe('empty')
    expect(sentence).toContain('“scan.pdf” holds pictures of pages and no text')
  })
  test('because it is too large says its size and the limit', async () => {
    const bytes = new Uint8Array(maxPdfBytes + 1)
    bytes.set(good)
    expect((await refused('a.pdf', bytes)).sentence).toContain('“a.pdf” has 200 MiB; up to 200 MiB')
  })
  test('cut off or changed anywhere, gives its words or a sentence', async () => {
    const change = fc.record({ at: fc.nat(good.length - 1), byte: fc.nat(255), cut: fc.boolean() })
    await fc.assert(
      fc.asyncProperty(fc.array(change, { minLength: 1, maxLength: 8 }), async (changes) => {
        let bytes = good.slice()
        for (const { at, byte, cut } of changes) {
          if (cut) bytes = bytes.slice(0, Math.max(8, at))
          else if (at >= 8 && at < bytes.length) bytes[at] = byte
        }
        const intake = await intakeAnyFile('rack.pdf', bytes, ways)
        if (intake.ok) expect(intake.kind).toBe('pdf')
        else expect(intake.sentence).toMatch(/^“rack\.pdf” .+\.$/)
      }),
      { numRuns: 150 },
    )
  })
  test('because its pages lead in a circle ends with a sentence', async () => {
    const text = new TextDecoder('latin1').decode(good).replace('/Kids[6 0 R]', '/Kids[2 0 R]')
    expect(
      (
        await refused(
          'loop.pdf',
          Uint8Array.from(text, (sign) => sign.charCodeAt(0)),
        )
      ).code,
    ).toBe('broken')
  })
  test(
    'because one page holds no end of words leaves that page out, in seconds',
    { timeout: 60_000 },
    async () => {
      const many = (count: number): Draw[] =>
        Array.from({ length: count }, (_, i) => ({ x: (i * 37) % 600, y: (i * 53) % 780, text: `w${i}` }))
      const found = await taken([lines(prose), many(20_000), many(maxPageRuns + 1)])
      expect(found.notes).toEqual(['Page 3 could not be read.'])
      for (const word of ['w0', 'w12345', 'w19999']) expect(found.text).toContain(word)
    },
  )
  test('to its end says that pages may be missing', async () => {
    const intake = await intakeAnyFile('rack.pdf', good.slice(0, good.length - 20), ways)
    expect(intake.ok && intake.notes).toEqual([
      'The file has no end, so pages may be missing: it was damaged or only half saved.',
    ])
  })
})

describe('what a PDF says of itself', () => {
  test.each(['untitled', 'Untitled-1', 'report.docx', 'Microsoft Word - rack', '(anonymous)', 'x', '12-34'])(
    'a title such as %j is none',
    (Title) => expect(maybeTitle({ Title })).toBeUndefined(),
  )
  test.each([
    ['D:20240301', '2024-03-01'],
    ['D:2024', '2024'],
    ['D:202403', '2024-03'],
    ['D:20240301120000Z', '2024-03-01T12:00:00Z'],
    ["D:20240301120000-05'30'", '2024-03-01T12:00:00-05:30'],
    ['D:20240301120000', '2024-03-01T12:00:00'],
    ['D:20240231', null],
    ['yesterday', null],
    ['D:19040101', null],
  ])('the date %s is %s', (CreationDate, dated) => expect(datedOf({ CreationDate })).toBe(dated))
})
