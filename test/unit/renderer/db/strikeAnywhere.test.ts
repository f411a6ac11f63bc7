import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { changeOf, moves, recordsOf } from '../../support/story.ts'
import { everything, openStory, SECRET } from '../../support/striking.ts'

describe('striking out', () => {
  it('leaves no trace after any acts, keeps every length and place, and is not brought back by undo or redo', async () => {
    await fc.assert(
      fc.asyncProperty(moves(25), fc.array(fc.boolean(), { maxLength: 25 }), async (list, turns) => {
        const { lab, commit, addEntry, strike } = await openStory()
        await addEntry(`${SECRET} first`)
        for (const move of list) {
          const parts = [SECRET.slice(0, 6), SECRET.slice(6), SECRET, move.text]
          const change = await changeOf(lab, { ...move, text: parts[move.c % 4]! })
          if (change) await commit(change)
          if (move.b % 3 === 0) await lab.committer.undo()
        }
        const shape = async (): Promise<unknown> => {
          const { texts, captures, links, linkStates, steps, parts, entries } = await recordsOf(lab)
          const quotes = links.flatMap(({ newer, older }) => [...newer.ranges, ...older.ranges])
          return {
            texts: texts.map(({ text, ...rest }) => ({ ...rest, lines: text.replace(/[^\n]/g, 'x') })),
            captures: captures.map(({ text, ...rest }) => ({ ...rest, length: text.length })),
            quotes: quotes.map(({ position, quote }) => [position, quote.exact.length, quote.prefix.length]),
            ends: linkStates.map(({ newer, older }) => [newer.pieces, older.pieces]),
            ...{ steps, parts, entries },
          }
        }
        const before = await shape()
        await strike()
        expect(await shape()).toEqual(before)
        expect(await everything(lab)).not.toContain(SECRET)
        expect(await lab.rebuild()).toBe(true)
        for (const isUndo of turns) {
          await (isUndo ? lab.committer.undo() : lab.committer.redo())
          expect(await everything(lab)).not.toContain(SECRET)
        }
        expect(await lab.rebuild()).toBe(true)
        lab.close()
      }),
      { numRuns: 40 },
    )
  })
})
