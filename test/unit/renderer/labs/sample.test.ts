import { describe, expect, it } from 'vitest'
import { intakeFile } from '../../../../shared/intake/file.ts'
import type { CaptureInput } from '../../../../shared/lab/acts.ts'
import { entryKinds } from '../../../../shared/lab/model.ts'
import { compareMoments, readMoment, type Moment } from '../../../../shared/lab/moment.ts'
import { occurrencesOf } from '../../../../shared/provenance/selectors.ts'
import type {
  SampleCarry,
  SampleEntry,
  SampleProject,
  SampleSource,
} from '../../../../renderer/labs/sample/format.ts'
import { sample } from '../../../../renderer/labs/sample/index.ts'
import { rangesOf, sampleChanges } from '../../../../renderer/labs/sampleChanges.ts'

const endings = { 'text/html': 'html', 'text/markdown': 'md', 'text/plain': 'txt' } as const
const entries = sample.projects.flatMap((project) => project.entries)
const procedures = sample.projects.flatMap((project) => project.procedures)
const parts = procedures.flatMap(({ steps }) => steps.flatMap((step) => step.parts))

const capturedText = new Map(sample.sources.map((source) => [source.key, intakeOf(source)]))

function intakeOf({ key, mediaType, original }: SampleSource): string {
  const taken = intakeFile(`${key}.${endings[mediaType]}`, new TextEncoder().encode(original))
  if (!taken.ok) throw new Error(taken.sentence)
  return taken.text
}

const moment = (text: string): Moment => {
  const read = readMoment(text)
  if (!read) throw new Error(`no moment: ${text}`)
  return read
}

/** An entry's text as it stood at a moment. */
function textAt(entry: SampleEntry, at: Moment): string {
  const amended = (entry.amended ?? []).filter((one) => compareMoments(moment(one.moment), at) <= 0)
  return amended.at(-1)?.text ?? entry.text
}

interface Carried {
  readonly where: string
  readonly carry: SampleCarry
  readonly newer: string
  readonly at: Moment
}
const carried: Carried[] = [...entries, ...parts].flatMap(({ text, moment: at, carries = [] }) =>
  carries.map((carry) => ({ where: text.slice(0, 60), carry, newer: text, at: moment(at) })),
)

function olderOf({ carry: { from }, at }: Carried): { text: string; at: Moment } | undefined {
  if ('source' in from) {
    const source = sample.sources.find(({ key }) => key === from.source)
    return source && { text: capturedText.get(source.key)!, at: moment(source.added) }
  }
  const entry = entries.find(({ key }) => key === from.entry)
  return entry && { text: textAt(entry, at), at: moment(entry.moment) }
}

/** Every text that a person can read in the sample. */
const allTexts = [
  ...sample.sources.flatMap(({ title, address, original }) => [title, address ?? '', original]),
  ...sample.projects.flatMap(({ title, aim }) => [title, aim]),
  ...entries.flatMap(({ text, amended = [] }) => [text, ...amended.map((one) => one.text)]),
  ...procedures.flatMap(({ title, purpose }) => [title, purpose]),
  ...parts.map(({ text }) => text),
]

describe('what the sample holds', () => {
  it('has three projects, at least 45 entries of all kinds, and at least 14 sources of three media types', () => {
    expect(sample.projects).toHaveLength(3)
    expect(entries.length).toBeGreaterThanOrEqual(45)
    expect(new Set(entries.map(({ kind }) => kind))).toEqual(new Set(entryKinds))
    expect(sample.sources.length).toBeGreaterThanOrEqual(14)
    expect(new Set(sample.sources.map(({ mediaType }) => mediaType))).toEqual(new Set(Object.keys(endings)))
  })

  it('has one procedure for each project, of 6 to 12 steps, each with one part of a kind and a do', () => {
    for (const { procedures: own } of sample.projects) {
      expect(own).toHaveLength(1)
      expect(own[0]!.steps.length).toBeGreaterThanOrEqual(6)
      expect(own[0]!.steps.length).toBeLessThanOrEqual(12)
      for (const step of own[0]!.steps) {
        const kinds = step.parts.map(({ kind }) => kind)
        expect(new Set(kinds).size).toBe(kinds.length)
        expect(kinds).toContain('do')
      }
    }
  })

  it('rests all steps but one on evidence', () => {
    const bare = procedures
      .flatMap(({ steps }) => steps)
      .filter((step) => step.parts.every(({ carries = [] }) => carries.length === 0))
    expect(bare).toHaveLength(1)
  })

  it('has commands in sh fences in every action, and an output as one text fence', () => {
    for (const { kind, key, text } of entries) {
      if (kind === 'action') expect(text, key).toMatch(/^(?:[^\n]+\n\n)?```sh\n[^]+\n```$/u)
      if (kind === 'output') expect(text, key).toMatch(/^(?:[^\n]+\n\n)?```text\n[^]+\n```$/u)
    }
  })

  it('keeps control characters out, tabs and line ends apart', () => {
    // eslint-disable-next-line no-control-regex -- that is what is looked for
    for (const text of allTexts) expect(text).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f]/u)
  })

  it('gives every caution a signal word and stands it before the do', () => {
    for (const { steps } of procedures)
      for (const step of steps) {
        const kinds = step.parts.map(({ kind }) => kind)
        const caution = step.parts.find(({ kind }) => kind === 'caution')
        if (!caution) continue
        expect(caution.text).toMatch(/^\*\*(?:Danger|Warning|Caution|Notice):\*\* /u)
        expect(kinds.indexOf('caution')).toBeLessThan(kinds.indexOf('do'))
      }
  })

  it('writes procedures in sentences of at most 25 words', () => {
    for (const { text } of parts) {
      const prose = text.replace(/```[^]*?```/gu, '').replace(/`[^`]*`/gu, 'code')
      for (const sentence of prose.split(/(?<=[.:;?!])\s+/u))
        expect(sentence.split(/\s+/u).filter(Boolean).length, sentence).toBeLessThanOrEqual(25)
    }
  })
})

describe('keys', () => {
  it('are unique among sources, projects, procedures and entries', () => {
    for (const list of [sample.sources, sample.projects, procedures, entries]) {
      const keys = list.map(({ key }) => key)
      expect(new Set(keys).size).toBe(keys.length)
    }
  })

  it('resolve wherever they are named', () => {
    const projectKeys = sample.projects.map(({ key }) => key)
    for (const source of sample.sources) {
      expect(source.projects.length).toBeGreaterThan(0)
      for (const key of source.projects) expect(projectKeys).toContain(key)
    }
    for (const one of carried) expect(olderOf(one), JSON.stringify(one.carry.from)).toBeDefined()
  })

  it('let a fix or decision answer an earlier problem of its own project, and leave no problem unanswered twice', () => {
    for (const project of sample.projects) {
      const answered = project.entries.filter(({ answers }) => answers !== undefined)
      expect(new Set(answered.map(({ answers }) => answers)).size).toBe(answered.length)
      for (const entry of answered) {
        const problem = project.entries.find(({ key }) => key === entry.answers)
        expect(problem?.kind, entry.key).toBe('problem')
        expect(['fix', 'decision']).toContain(entry.kind)
        expect(compareMoments(moment(problem!.moment), moment(entry.moment))).toBeLessThan(0)
      }
    }
  })

  it('leave no problem open in a project that is done', () => {
    for (const project of sample.projects.filter(({ status }) => status === 'done'))
      expect(openProblemsOf(project)).toEqual([])
  })
})

function openProblemsOf({ entries: own }: SampleProject): string[] {
  const answered = new Set(own.map(({ answers }) => answers))
  return own.filter(({ kind, key }) => kind === 'problem' && !answered.has(key)).map(({ key }) => key)
}

describe('carries', () => {
  it.each(carried.map((one) => [JSON.stringify(one.carry.words).slice(0, 70), one] as const))(
    'find %s exactly once in the older text',
    (_, one) => {
      expect(occurrencesOf(olderOf(one)!.text, one.carry.words)).toHaveLength(1)
      const original =
        'source' in one.carry.from &&
        sample.sources.find(({ key }) => 'source' in one.carry.from && key === one.carry.from.source)
      if (original && original.mediaType !== 'text/html')
        expect(occurrencesOf(original.original, one.carry.words)).toHaveLength(1)
    },
  )

  it('find the words in the newer text, as they are, as they were reworded, or line by line in a quotation', () => {
    for (const { carry, newer, where } of carried) {
      const inNewer = carry.as ?? carry.words
      if (carry.as !== undefined) expect(newer, where).toContain(inNewer)
      const ranges = rangesOf(newer, carry)
      const found = ranges
        .map(({ start, end }) => newer.slice(start, end))
        .join('\n')
        .replace(/\n{2,}/gu, '\n')
      expect(found).toBe(inNewer.split('\n').filter(Boolean).join('\n'))
    }
  })

  it('point from later to earlier moments', () => {
    for (const one of carried) expect(compareMoments(olderOf(one)!.at, one.at), one.where).toBeLessThan(0)
  })

  it('quote in most cases, reword in some, and lead into sources and entries', () => {
    const reworded = carried.filter(({ carry }) => carry.as !== undefined).length
    expect(reworded).toBeGreaterThan(10)
    expect(reworded).toBeLessThan(carried.length / 2)
    expect(carried.some(({ carry }) => 'source' in carry.from)).toBe(true)
    expect(carried.some(({ carry }) => 'entry' in carry.from)).toBe(true)
  })
})

describe('moments', () => {
  it('are moments with an offset of Central European time', () => {
    const all = [
      ...sample.sources.map(({ added }) => added),
      ...[...sample.projects, ...procedures].map(({ created }) => created),
      ...[...entries, ...parts].map((one) => one.moment),
    ]
    for (const text of all) {
      expect(readMoment(text), text).toBe(text)
      const summer = compareMoments(moment(text), moment('2026-10-25T01:00:00.000Z')) < 0
      expect(text.slice(-6)).toBe(summer ? '+02:00' : '+01:00')
    }
  })

  it('rise within a project and within its procedure', () => {
    for (const project of sample.projects) {
      const own = [project.created, ...project.entries.map((entry) => entry.moment)]
      const steps = project.procedures.flatMap(({ created, steps: all }) => [
        created,
        ...all.flatMap((step) => step.parts.map((part) => part.moment)),
      ])
      for (const line of [own, steps])
        for (const [index, text] of line.entries())
          if (index > 0) expect(compareMoments(moment(line[index - 1]!), moment(text)), text).toBeLessThan(0)
    }
  })

  it('of a source come after those of the projects that use it, and of amendments and withdrawals after the entry', () => {
    const created = new Map(sample.projects.map((project) => [project.key, moment(project.created)]))
    for (const { added, projects } of sample.sources)
      for (const key of projects) expect(compareMoments(created.get(key)!, moment(added))).toBeLessThan(0)
    for (const { moment: at, amended = [], withdrawn } of entries) {
      let last = moment(at)
      for (const next of [...amended.map((one) => one.moment), ...(withdrawn ? [withdrawn] : [])]) {
        expect(compareMoments(last, moment(next))).toBeLessThan(0)
        last = moment(next)
      }
    }
  })

  it('fall on several days', () => {
    expect(new Set(entries.map((entry) => entry.moment.slice(0, 10))).size).toBeGreaterThanOrEqual(8)
  })
})

describe('addresses and names', () => {
  /** RFC 5737 networks, loopback and the wildcard. */
  const allowed = /^(?:192\.0\.2|198\.51\.100|203\.0\.113|127\.0\.0)\.\d{1,3}$|^0\.0\.0\.0$/u

  it('hold no IPv4 address outside the documentation networks, loopback and the wildcard (RFC 5737)', () => {
    const found = allTexts.flatMap(
      (text) => text.match(/(?<![\d.])\d{1,3}(?:\.\d{1,3}){3}(?![\d.]*\d)/gu) ?? [],
    )
    expect(found.length).toBeGreaterThan(10)
    for (const address of found) expect(address).toMatch(allowed)
  })

  it('hold no IPv6 address outside 2001:db8::/32 and loopback (RFC 3849)', () => {
    const colons = /(?<![\w:])(?:[0-9a-f]{1,4}:){2,7}:?[0-9a-f]{0,4}(?![\w:])|(?<![\w:])::1?(?![\w:])/giu
    for (const found of allTexts.flatMap((text) => text.match(colons) ?? []))
      expect(/^\d\d:\d\d:\d\d$/u.test(found) || /^(?:2001:db8:|::)/iu.test(found), found).toBe(true)
  })

  it('name hosts only under example.org and home.arpa', () => {
    const publicName = /\b(?:[a-z0-9-]+\.)+(?:com|net|org|io|dev|se|de|at|ch|eu|uk|info|edu|gov|arpa)\b/giu
    const found = allTexts.flatMap((text) => text.match(publicName) ?? [])
    expect(found.length).toBeGreaterThan(10)
    for (const name of found) expect(name).toMatch(/(?:^|\.)(?:example\.org|home\.arpa)$/u)
    for (const { address } of sample.sources)
      if (address !== null) expect(new URL(address).hostname).toMatch(/(?:^|\.)example\.org$/u)
  })
})

describe('loading', () => {
  it('turns the whole sample into Changes, and cleans the navigation off its pages', () => {
    const captures = new Map<string, CaptureInput>()
    for (const { key, original, mediaType } of sample.sources) {
      const text = capturedText.get(key)!
      expect(text).not.toMatch(/<nav|\]\(\/\)/u)
      captures.set(key, {
        text,
        bytes: new TextEncoder().encode(original),
        sha256: '0'.repeat(64),
        mediaType,
      })
    }
    const changes = sampleChanges(
      sample,
      '01900000-0000-7000-8000-000000000000' as Parameters<typeof sampleChanges>[1],
      captures,
      (count) => new Uint8Array(count).fill(7),
    )
    const links = changes.flatMap(({ operations }) =>
      operations.filter((one) => one.op === 'put' && one.table === 'links'),
    )
    const answers = entries.filter((entry) => entry.answers !== undefined).length
    expect(links).toHaveLength(carried.length + answers)
  })
})
