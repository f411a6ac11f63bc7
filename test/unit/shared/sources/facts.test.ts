import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { toSourceFacts } from '../../../../shared/sources/facts.ts'
import { foldText, toWantedWords } from '../../../../shared/sources/folded.ts'
import { standingSource } from '../../../../shared/sources/standing.ts'
import { anyTables, folder, head, idOf, source, tablesOf } from './scene.ts'

describe('the facts of sources', () => {
  it('take a source together with what was merged into it, over any number of merges', () => {
    const kept = source(1)
    const merged = source(2, { mergedInto: kept.id })
    const before = source(3, { mergedInto: merged.id })
    const heads = [head(5, before, 'b'), head(4, merged, 'a'), head(6, before, 'a')]
    const uses = { [kept.id]: 1, [heads[0]!.id]: 2, [merged.id]: 3 }
    const [facts, ...others] = toSourceFacts(tablesOf([kept, merged, before], heads, [], uses))
    expect(others).toEqual([])
    expect(facts).toMatchObject({ merged: [merged.id, before.id], captures: 3, uses: 6, digests: ['b', 'a'] })
    expect(facts!.newest?.id).toBe(heads[2]!.id)
  })

  it('hold the words of title, address, author, kind, tags, remark and of folders on the way up', () => {
    const folders = [folder(0, 'Räck'), folder(1, 'Disks', 0)]
    const one = source(1, {
      title: 'Überspannung',
      address: 'https://a.example.org/x',
      author: 'A. Observer',
      kind: 'pdf',
      tags: ['Nacht'],
      remark: 'Weiß nicht',
      folders: [folders[1]!.id],
    })
    const [facts] = toSourceFacts(tablesOf([one], [], folders))
    for (const word of ['uberspannung', 'example.org/x', 'observer', 'pdf', 'nacht', 'weiß', 'rack', 'disks'])
      expect(facts!.words).toContain(word)
  })

  it('follow a folder that gets another name, also where the source stayed the same', () => {
    const one = source(1, { folders: [idOf('folder', 0)] })
    const wordsWith = (name: string) => toSourceFacts(tablesOf([one], [], [folder(0, name)]))[0]!.words
    expect(wordsWith('before')).toContain('before')
    expect(wordsWith('after')).toContain('after')
    expect(wordsWith('after')).not.toContain('before')
  })

  it('agree with a naive gathering', () => {
    fc.assert(
      fc.property(anyTables, (tables) => {
        const all = [...tables.sources.values()]
        const facts = toSourceFacts(tables)
        expect(facts.map(({ source: { id } }) => id)).toEqual(
          all.filter((one) => one.mergedInto === null).map(({ id }) => id),
        )
        for (const one of facts) {
          const together = all.filter((other) => standingSource(tables, other).id === one.source.id)
          const heads = [...tables.heads.values()].filter((of) => together.some(({ id }) => id === of.source))
          const used = [...together, ...heads].reduce((sum, { id }) => sum + (tables.uses.get(id) ?? 0), 0)
          expect(one.merged).toEqual(together.map(({ id }) => id).filter((id) => id !== one.source.id))
          expect([one.captures, one.uses]).toEqual([heads.length, used])
          expect(one.newest?.id).toBe(
            heads
              .map(({ id }) => id)
              .sort()
              .at(-1),
          )
          expect([...one.digests].sort()).toEqual([...new Set(heads.map(({ sha256 }) => sha256))].sort())
        }
      }),
    )
  })

  it('end where sources were merged into each other or into one that is not there', () => {
    const ring = [source(1, { mergedInto: idOf('source', 2) }), source(2, { mergedInto: idOf('source', 1) })]
    const lost = source(3, { mergedInto: idOf('source', 9) })
    expect(toSourceFacts(tablesOf([...ring, lost]))).toEqual([])
    expect(standingSource(tablesOf([lost]), lost)).toBe(lost)
  })
})

describe('folding', () => {
  it('finds any piece of a text in it', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', minLength: 1 }), fc.nat(), fc.nat(), (text, a, b) => {
        const points = Array.from(text)
        const [from, to] = [a % (points.length + 1), b % (points.length + 1)].sort((x, y) => x - y)
        const wanted = toWantedWords(points.slice(from, to).join(''))
        expect(wanted.every((word) => foldText(text).includes(word))).toBe(true)
      }),
    )
  })
})
