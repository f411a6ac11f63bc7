import { expect, it } from 'vitest'
import { arrivalWords, endWords } from '../../../../renderer/ribbons/words.ts'
import type { EntryId } from '../../../../shared/lab/ids.ts'
import { carriedTwice } from '../trace/scene.ts'

it('says the way, the thing, its words and which of how many links it was', async () => {
  const { scene, entry, part } = await carriedTwice()
  const view = await scene.view()
  const to = (
    node: Parameters<typeof arrivalWords>[1]['to']['node'],
    ranges = [] as { start: number; end: number }[],
  ) => ({
    node,
    ranges,
  })
  const say = (
    way: ReturnType<typeof to>,
    which: { place: number; of: number } | null,
    direction: 'back' | 'forward',
  ) => arrivalWords(view, { to: way, which, trail: null as never }, direction)
  const time = view.entries.get(entry)!.moment.slice(11, 16)
  const text = view.texts.get(entry)!
  const start = text.indexOf('PARTUUID')
  const atWord = to({ kind: 'entry', id: entry }, [{ start, end: start + 8 }])
  const said = say(atWord, { place: 2, of: 3 }, 'back')
  expect(said).toMatch(new RegExp(`^Back at ${time}, [a-z]+: “PARTUUID”\\. 2 of 3\\.$`, 'u'))
  expect(say(to({ kind: 'part', id: part }), { place: 1, of: 1 }, 'forward')).toBe(
    'Forward to why of step 1: “Name the disk by its PARTUUID.”.',
  )
  expect(say(to({ kind: 'source', id: scene.source.id }), null, 'forward')).toBe(
    'Returned to Moving a root file system.',
  )
  const unknown = to({ kind: 'entry', id: 'gone' as EntryId })
  expect(say(unknown, null, 'back')).toBe('Returned to an entry.')
})

it('says why a chain ends, by its direction and by what stands there', () => {
  const said = [endWords('forward', 'source'), endWords('back', 'source'), endWords('back', 'other')]
  expect(new Set(said).size).toBe(3)
  expect(endWords('forward', 'other')).toBe(said[0])
  expect(said[1]).toContain('sources come from outside')
})
