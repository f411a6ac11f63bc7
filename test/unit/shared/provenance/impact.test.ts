import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { PartId } from '../../../../shared/lab/ids.ts'
import type { LinkNode, LinkState, Range } from '../../../../shared/lab/model.ts'
import { endPlaces, followWords, meets, type Places } from '../../../../shared/provenance/follow.ts'
import { isEvidence, LinkGraph, type GraphLink } from '../../../../shared/provenance/graph.ts'
import {
  impactOf,
  partsRestingOn,
  type ImpactRecords,
  type Owner,
} from '../../../../shared/provenance/impact.ts'

const kinds = { s: 'source', c: 'capture', e: 'entry', p: 'part' } as const
const toNode = (id: string): LinkNode =>
  ({ kind: kinds[id.charAt(0) as keyof typeof kinds], id }) as unknown as LinkNode

/** Ends as they are generated: ranges of a text, the thing as a whole, or words that cannot be found. */
type End = 'whole' | 'lost' | Range
interface World {
  readonly texts: readonly string[]
  readonly links: readonly {
    readonly newer: string
    readonly older: string
    readonly at: End
    readonly from: End
    readonly isStruck: boolean
  }[]
}

const ids = ['s0', 's1', 'c0', 'c1', 'e0', 'e1', 'e2', 'p0', 'p1', 'p2', 'p3', 'p4']
const texts = ['e0', 'e1', 'e2', 'p0', 'p1', 'p2', 'p3', 'p4']
const owners: Owner[] = [
  { id: 'step 1', parts: ['p0', 'p1'] as unknown as PartId[] },
  { id: 'step 2', parts: ['p2'] as unknown as PartId[] },
  { id: 'step 3', parts: ['p3', 'p4'] as unknown as PartId[] },
]
const LENGTH = 6
const ranges = fc
  .tuple(fc.nat(LENGTH - 1), fc.integer({ min: 1, max: 4 }))
  .map(([start, length]) => ({ start, end: Math.min(LENGTH, start + length) }))
const ends = fc.oneof(
  { weight: 6, arbitrary: ranges },
  { weight: 1, arbitrary: fc.constantFrom<End>('whole', 'lost') },
)
const worlds: fc.Arbitrary<World> = fc.record({
  // A dash is no word of anybody's; an empty text is of something that is gone.
  texts: fc.array(
    fc.oneof(
      {
        weight: 8,
        arbitrary: fc.string({ unit: fc.constantFrom('a', '-', '7'), minLength: LENGTH, maxLength: LENGTH }),
      },
      { weight: 1, arbitrary: fc.constant('') },
    ),
    { minLength: texts.length, maxLength: texts.length },
  ),
  links: fc.array(
    fc.record({
      newer: fc.constantFrom(...ids.slice(4)),
      older: fc.constantFrom(...ids),
      at: ends,
      from: ends,
      isStruck: fc.boolean(),
    }),
    { maxLength: 9 },
  ),
})
const suspectSets = fc.constantFrom(['s0', 'c0'], ['c1'], ['e0'], ['e1'], ['s1', 'c1'], ['p0'])

const stateOf = (at: End, from: End): LinkState => {
  const places = (end: End) => (end === 'whole' ? [] : end === 'lost' ? [null] : [end])
  const isLost = at === 'lost' || from === 'lost'
  return {
    newer: { places: places(at) },
    older: { places: places(from) },
    loose: isLost,
  } as unknown as LinkState
}

function toRecords(world: World): { records: ImpactRecords; links: GraphLink[] } {
  const graph = new LinkGraph()
  const links = world.links.map(
    ({ newer, older, at, from }, i) =>
      ({
        id: `l${i}`,
        newer: { node: toNode(newer) },
        older: { node: toNode(older) },
        isWhole: at === 'whole' || from === 'whole',
      }) as unknown as GraphLink,
  )
  for (const link of links) graph.put(link)
  const states = world.links.map(({ at, from }) => stateOf(at, from))
  const records: ImpactRecords = {
    near: (node, direction) => graph.near(node, direction),
    factsOf: (id) => {
      const i = Number(id.slice(1))
      return { places: endPlaces(states[i]), isLoose: states[i]!.loose, isStruck: world.links[i]!.isStruck }
    },
    textOf: (node) => world.texts[texts.indexOf(node)] ?? '',
  }
  return { records, links }
}

/** The characters of an end, by number; all of the text's where it is everywhere. */
function charactersOf(end: End, text: string): Set<number> {
  const all = typeof end === 'string'
  return new Set([...text].map((_, i) => i).filter((i) => all || (end.start <= i && i < end.end)))
}

/**
 * The definition word by word: every chain is written out link by link, and looked at. Ends that are everywhere have
 * something in common with any other, though the text be gone.
 */
function naive(world: World, suspects: readonly string[], stepList: readonly Owner[]) {
  const evidence = world.links
    .map((link, number) => ({ ...link, number }))
    .filter(({ at, from, older }) => (at !== 'whole' && from !== 'whole') || older.startsWith('s'))
  type L = (typeof evidence)[number]
  const textOf = (id: string): string => world.texts[texts.indexOf(id)] ?? ''
  const joins = (before: L, behind: L): boolean => {
    if (before.older !== behind.newer) return false
    if (typeof before.from === 'string' || typeof behind.at === 'string') return true
    const [a, b] = [before.from, behind.at]
    return Array.from({ length: LENGTH }, (_, i) => i).some(
      (i) => a.start <= i && i < a.end && b.start <= i && i < b.end,
    )
  }
  // A chain that goes round in a circle is one that does not, with the circle put in.
  const chainsBehind = (first: L): L[][] => {
    const whole: L[][] = []
    const grow = (chain: L[]): void => {
      whole.push(chain)
      for (const next of evidence)
        if (!chain.includes(next) && joins(chain.at(-1)!, next)) grow([...chain, next])
    }
    grow([first])
    return whole
  }
  const chainsOf = (part: string): L[][] =>
    evidence.filter(({ newer }) => newer === part).flatMap(chainsBehind)
  const isSuspect = ({ older }: L): boolean => suspects.includes(older)
  const isOnChain = (part: string, link: L): boolean =>
    chainsOf(part).some((chain) => chain.at(-1) === link) &&
    chainsBehind(link).some((chain) => isSuspect(chain.at(-1)!))
  const isGrounded = (chain: L[]): boolean => {
    const { older, from } = chain.at(-1)!
    if (older.startsWith('s') || older.startsWith('c')) return true
    const own = charactersOf(from, textOf(older))
    for (const { at } of evidence.filter(({ newer }) => newer === older))
      for (const taken of charactersOf(at, textOf(older))) own.delete(taken)
    return [...own].some((i) => /[a-z0-9]/.test(textOf(older).charAt(i)))
  }
  const groundsOf = (part: string): Set<string> => {
    if (suspects.includes(part)) return new Set()
    const free = chainsOf(part).filter((chain) => !chain.some(isSuspect))
    return new Set(free.filter(isGrounded).map((chain) => chain.at(-1)!.older))
  }
  return stepList.flatMap((step) => {
    const parts = step.parts.flatMap((part) => {
      const chains = chainsOf(part).filter((chain) => isSuspect(chain.at(-1)!))
      if (suspects.includes(part) || chains.length === 0) return []
      return [
        {
          part,
          by: [...new Set(chains.map(([first]) => `l${first!.number}`))].sort(),
          isAlone: groundsOf(part).size === 0,
          others: [...groundsOf(part)].sort(),
          isLooseOnly: chains.every((chain) =>
            chain.some(({ at, from }) => at === 'lost' || from === 'lost'),
          ),
          hasStruck: evidence.some((link) => link.isStruck && isOnChain(part, link)),
        },
      ]
    })
    const others = [...new Set(step.parts.flatMap((part) => [...groundsOf(part)]))].sort()
    return parts.length === 0 ? [] : [{ step: step.id, isAlone: others.length === 0, others, parts }]
  })
}

function ours(world: World, suspects: readonly string[], stepList: readonly Owner[]) {
  const { records } = toRecords(world)
  return impactOf(records, new Set(suspects), stepList).map(({ owner, isAlone, others, parts }) => ({
    step: owner.id,
    isAlone,
    others: others.map(({ id }) => id as string).sort(),
    parts: parts.map(({ part, by, others: own, ...rest }) => ({
      ...rest,
      part,
      by: [...by].sort(),
      others: own.map(({ id }) => id as string).sort(),
    })),
  }))
}

test('the impact is what writing out every chain says', () => {
  fc.assert(
    fc.property(worlds, suspectSets, (world, suspects) => {
      expect(ours(world, suspects, owners)).toEqual(naive(world, suspects, owners))
    }),
    { numRuns: 2000 },
  )
})

test('the parts that are looked at are those that rest on the suspects', () => {
  fc.assert(
    fc.property(worlds, suspectSets, (world, suspects) => {
      const { records } = toRecords(world)
      const found = naive(world, suspects, owners).flatMap(({ parts }) => parts.map(({ part }) => part))
      expect(partsRestingOn(records, new Set(suspects)).sort()).toEqual(found.sort())
    }),
  )
})

test('words are followed both ways along the same links', () => {
  fc.assert(
    fc.property(worlds, fc.constantFrom(...ids.slice(4)), fc.constantFrom(...ids), (world, from, to) => {
      const { records, links } = toRecords(world)
      const placesOf = (id: GraphLink['id']) => records.factsOf(id).places
      const follow = (direction: 'back' | 'forward', node: string) =>
        followWords(
          { near: (id) => records.near(id, direction), placesOf },
          [{ node, places: 'all' }],
          direction,
        )
      const isBelow = follow('back', from).some(({ older }) => older.node.id === to)
      const isAbove = follow('forward', to).some(({ newer }) => newer.node.id === from)
      expect(isAbove).toBe(isBelow)
      expect(new Set(follow('back', from)).size).toBeLessThanOrEqual(links.length)
    }),
  )
})

const at = (start: number, end: number): Range => ({ start, end })
const link = (newer: string, older: string, newerAt: End, olderAt: End) => ({
  ...{ newer, older, at: newerAt, from: olderAt },
  isStruck: false,
})
const plain = ['aaaaaa', 'aaaaaa', 'aaaaaa', 'aaaaaa', 'aaaaaa', 'aaaaaa', 'aaaaaa', 'aaaaaa']

test('a step on an entry that quotes a page rests on the page alone; on words of the entry’s own it does not rest on it', () => {
  const quoting = link('e0', 'c0', at(0, 3), at(0, 3))
  const onQuote = { texts: plain, links: [quoting, link('p2', 'e0', at(0, 3), at(0, 3))] }
  expect(ours(onQuote, ['s0', 'c0'], owners)).toMatchObject([{ step: 'step 2', isAlone: true, others: [] }])
  const onOwn = { texts: plain, links: [quoting, link('p2', 'e0', at(0, 3), at(3, 6))] }
  expect(ours(onOwn, ['s0', 'c0'], owners)).toEqual([])
  const onBoth = { texts: plain, links: [quoting, link('p2', 'e0', at(0, 6), at(0, 6))] }
  expect(ours(onBoth, ['s0', 'c0'], owners)).toMatchObject([
    { step: 'step 2', isAlone: false, others: ['e0'] },
  ])
})

test('a step that quotes another procedure’s step rests on what that one rests on', () => {
  const links = [link('p2', 'p0', at(0, 4), at(0, 4)), link('p0', 'c0', at(2, 5), at(0, 3))]
  const found = ours({ texts: plain, links }, ['c0'], owners)
  expect(found.map(({ step, isAlone, others }) => [step, isAlone, others])).toEqual([
    ['step 1', true, []],
    // The words before those that came from the page are the other step's own.
    ['step 2', false, ['p0']],
  ])
})

test('that a fix answered a problem, or a capture was taken after another, is no evidence', () => {
  const { links } = toRecords({
    texts: plain,
    links: [
      link('e0', 'e1', 'whole', 'whole'),
      link('e0', 's0', 'whole', 'whole'),
      link('p0', 'e0', at(0, 1), at(0, 1)),
    ],
  })
  expect(links.map(isEvidence)).toEqual([false, true, true])
})

test('places meet where they have a character in common, and where one of them is everywhere', () => {
  const cases: [Places, Places, boolean][] = [
    [[at(0, 3)], [at(3, 5)], false],
    [[at(0, 3)], [at(2, 5)], true],
    [[at(0, 1), at(8, 9)], [at(4, 5), at(8, 12)], true],
    ['all', [at(1, 2)], true],
    ['all', 'all', true],
  ]
  expect(cases.map(([a, b]) => meets(a, b))).toEqual(cases.map(([, , is]) => is))
  expect(endPlaces(undefined)).toEqual({ newer: 'all', older: 'all' })
  expect(endPlaces(stateOf(at(0, 2), 'lost'))).toEqual({ newer: [at(0, 2)], older: 'all' })
})
