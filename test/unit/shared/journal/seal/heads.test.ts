import { describe, expect, it } from 'vitest'
import { blobsOfSeals, findWrongBytes } from '../../../../../shared/journal/seal/blobs.ts'
import { sha256Of, toUtf8 } from '../../../../../shared/journal/seal/canonical.ts'
import { findBrokenEntry, headText, maybeHead } from '../../../../../shared/journal/seal/heads.ts'
import { eveningAtTheRack, Journal } from './scenario.ts'

const hash = '0a'.repeat(32)

describe('a noted head', () => {
  it('is read back as it was written', () => {
    expect(maybeHead(headText({ number: 14, hash }))).toEqual({ number: 14, hash })
  })

  it.each([`14: ${hash}`, ` 14   ${hash}\n`, `14 ${hash.toUpperCase()}`])('is read from %j', (text) => {
    expect(maybeHead(text)).toEqual({ number: 14, hash })
  })

  it.each(['', '14', hash, `0 ${hash}`, `14 ${hash}0`, `14 ${hash.slice(1)}`, `x14 ${hash}`])(
    'is not read from %j',
    (text) => {
      expect(maybeHead(text)).toBeNull()
    },
  )
})

describe('the entry of a break', () => {
  const journal = eveningAtTheRack()
  const at = (number: number) => {
    const { of } = journal.seals[number - 1]!
    return findBrokenEntry({ code: 'words', number, of, field: null }, journal.records)
  }

  it('is the entry itself, or the one that an amendment, a withdrawal, a mark or a strike is about', () => {
    const [problem, action, file, list, rain] = journal.entries.map(({ id }) => id)
    expect(Array.from({ length: 14 }, (_, i) => at(i + 1))).toEqual([
      ...[problem, action, file, list, list, action, problem, problem, action, action],
      ...[rain, rain, rain, rain],
    ])
  })

  it('is none where nothing is named or the entry is gone', () => {
    const nothing = { code: 'head', number: null, of: null, field: null } as const
    expect(findBrokenEntry(nothing, journal.records)).toBeNull()
    const gone = { ...journal.records, entries: [] }
    expect(findBrokenEntry({ ...nothing, of: journal.seals[0]!.of }, gone)).toBeNull()
  })
})

describe('pictures and files of a sealed journal', () => {
  const picture = toUtf8('the mast at dusk')
  const other = toUtf8('the mast at dawn')
  const journal = new Journal()
  const entry = journal.add(
    'observation',
    `![dusk](sha256:${sha256Of(picture)}) ![dawn](sha256:${sha256Of(other)})`,
  )
  const find = (stored: Record<string, Uint8Array>) =>
    findWrongBytes(journal.seals, (sha256) => Promise.resolve(stored[sha256]), sha256Of)

  it('are named by its seals', () => {
    expect(blobsOfSeals(journal.seals)).toEqual([sha256Of(picture), sha256Of(other)])
  })

  it('are found where their bytes were changed, and left alone where they are whole or not there', async () => {
    expect(await find({ [sha256Of(picture)]: picture, [sha256Of(other)]: other })).toBeNull()
    expect(await find({})).toBeNull()
    expect(await find({ [sha256Of(other)]: picture })).toMatchObject({ code: 'bytes', number: 1 })
  })

  it('may be empty where a strike emptied them', async () => {
    const stored = { [sha256Of(picture)]: new Uint8Array() }
    expect(await find(stored)).toMatchObject({ code: 'bytes' })
    journal.strike(entry, 'nowhere else', 'shown in the picture', [sha256Of(picture)])
    expect(await find(stored)).toBeNull()
  })
})
