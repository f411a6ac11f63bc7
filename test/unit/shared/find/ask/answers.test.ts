import { beforeAll, describe, expect, it } from 'vitest'
import type { Answer } from '../../../../../shared/find/ask/answerer.ts'
import { extractive } from '../../../../../shared/find/ask/extractive.ts'
import type { AskThing } from '../../../../../shared/find/ask/thing.ts'
import { emptyIndex } from '../../../../../shared/find/index/lab-index.ts'
import { flattenTrace } from '../../../../../shared/provenance/trace.ts'
import { askedLab, type AskedLab } from '../../../../support/ask/asked-lab.ts'

let lab: AskedLab
let keys: ReadonlyMap<string, string>
beforeAll(async () => {
  lab = await askedLab(null)
  keys = new Map([...lab.ids].map(([key, id]) => [id, key]))
})

const ask = (typed: string): Promise<Answer> => extractive.answer(typed, lab)
const keysOf = ({ passages }: Answer): (string | undefined)[] => passages.map(({ id }) => keys.get(id))

describe('an answer out of the sample', () => {
  it('is made of words that stand there, with where they stand and when', async () => {
    const answer = await ask('why does a client ask less and less often')
    expect(answer.kind).toBe('answered')
    for (const { id, thing, node, text, range, words, way, moment } of answer.passages) {
      const [found] = await lab.readThings([{ id, thing }])
      const whole = found!.texts.find((one) => one.node?.id === node?.id)!.text
      expect(whole.slice(range.start, range.end)).toBe(text)
      for (const { start, end } of words) {
        expect(start).toBeGreaterThanOrEqual(range.start)
        expect(end).toBeLessThanOrEqual(range.end)
      }
      if (thing !== 'source') expect(way[0]).toBe('One time for the whole network')
      if (thing !== 'step') expect(moment).toMatch(/^2026-/)
    }
    expect(new Set(answer.passages.map(({ id }) => id)).size).toBeGreaterThan(1)
  })

  it('shows for a step the chain to the entries that its words came from', async () => {
    const { passages } = await ask('how do I see who asks the server for time')
    const step = passages.find(({ id }) => keys.get(id) === 'serve-time 10')
    const nodes = flattenTrace(step!.chain).map(({ node }) => keys.get(node.id))
    expect(nodes).toContain('b-clients')
    expect(nodes).toContain('b-clients-out')
  })

  it('gives for a pasted message the problem that it became and the fix that ended it, before the message itself', async () => {
    const answer = await ask(
      'nginx: [emerg] no "ssl_certificate" is defined for the "listen ... ssl" directive',
    )
    expect(answer.sort).toBe('error')
    expect(keysOf(answer)[0]).toBe('c-semicolon')
    expect(keys.get(answer.trouble!.problem!.id)).toBe('c-semicolon')
    expect(answer.trouble!.fixes.map(({ id }) => keys.get(id))).toEqual(['c-semicolon-fix'])
  })

  it('finds a message by the name of its error', async () => {
    const { trouble } = await ask('ECONNREFUSED from upstream')
    expect(keys.get(trouble!.problem!.id)).toBe('c-502-problem')
    expect(trouble!.fixes.map(({ id }) => keys.get(id))).toEqual(['c-backend-open'])
  })

  it('gives for how something is done the procedure with all its steps in order, those found among them', async () => {
    const answer = await ask('how do I move the root file system to a disk')
    expect(answer.procedure).toMatchObject({ id: lab.ids.get('move-root'), way: [expect.any(String)] })
    expect(answer.procedure!.steps.map(({ number }) => number)).toEqual(
      Array.from({ length: 12 }, (_, at) => String(at + 1)),
    )
    expect(answer.procedure!.steps[2]!.line).toBe('Stop the logger.')
    const found = answer.procedure!.steps.filter(({ isFound }) => isFound).map(({ id }) => id)
    expect(found).toEqual(
      answer.passages
        .filter(({ thing }) => thing === 'step')
        .map(({ id }) => id)
        .sort(),
    )
  })

  it('puts a step before a source that says the same', async () => {
    const things = keysOf(await ask('what must stand in the certificate: all names'))
    expect(things.findIndex((key) => key?.startsWith('own-authority'))).toBe(0)
    const answer = await ask('rsync stays on one file system')
    const kinds = answer.passages.map(({ thing }) => thing)
    expect(kinds.indexOf('source')).toBeGreaterThan(kinds.indexOf('step'))
  })

  it('says that nothing answers where little of the question stands anywhere, and shows the nearest', async () => {
    const answer = await ask('how do I feed the cat of the neighbour in the dome')
    expect(answer.kind).toBe('nearest')
    expect(answer.passages.length).toBeGreaterThan(0)
    expect([answer.procedure, answer.trouble]).toEqual([null, null])
  })

  it('has nothing to show where no word stands anywhere', async () => {
    expect(await ask('zyxwv qponm')).toMatchObject({ kind: 'nearest', passages: [] })
    expect(await ask('  ')).toMatchObject({ kind: 'nearest', passages: [] })
  })

  it('does not show what was withdrawn', async () => {
    expect(keysOf(await ask('the dome motor hums louder'))).not.toContain('a-wrong-place')
  })

  it('is the same each time', async () => {
    const question = 'why are there two entries in the menu'
    expect(await ask(question)).toEqual(await ask(question))
  })
})

describe('an answer out of an empty lab', () => {
  it('is none', async () => {
    const nothing = (): Promise<AskThing[]> => Promise.resolve([])
    const around = {
      index: emptyIndex,
      readThings: nothing,
      readSteps: nothing,
      readAround: () => Promise.resolve({ before: [], after: [] }),
      readLinks: () => Promise.resolve([]),
    }
    expect(await extractive.answer('how do I start', around)).toMatchObject({ kind: 'nearest', passages: [] })
  })
})
