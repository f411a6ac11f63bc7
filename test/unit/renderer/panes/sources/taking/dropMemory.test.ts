import { describe, expect, test } from 'vitest'
import {
  earlierOf,
  filesToTake,
  isDropMemory,
  memoryFor,
  noMemory,
  withoutGone,
  withSeen,
} from '../../../../../../renderer/panes/sources/taking/dropMemory.ts'
import type { SourceId } from '../../../../../../shared/lab/ids.ts'

const file = (name: string, size = 10, modifiedMs = 1000) => ({ name, size, modifiedMs })
const id = 'source' as SourceId
const folder = memoryFor(noMemory, '/home/ops/in')

describe('what was taken from the drop folder', () => {
  test('a file is taken once, and once more when its size or time is another', () => {
    const memory = withSeen(folder, file('a'), id, 'aa')
    expect(filesToTake(memory, [file('a'), file('b')])).toEqual([file('b')])
    expect(filesToTake(memory, [file('a', 11)])).toEqual([file('a', 11)])
    expect(filesToTake(memory, [file('a', 10, 2000)])).toEqual([file('a', 10, 2000)])
    expect(earlierOf(memory, 'a')).toBe(id)
    expect(earlierOf(memory, 'b')).toBeNull()
  })

  test('a file that could not be read is not tried again as it is', () => {
    const memory = withSeen(folder, file('broken'), null, null)
    expect(filesToTake(memory, [file('broken')])).toEqual([])
    expect(memory.digests).toEqual([])
  })

  test('names that are words of the language are names like others', () => {
    const names = ['constructor', '__proto__', 'toString']
    expect(
      filesToTake(
        folder,
        names.map((name) => file(name)),
      ).length,
    ).toBe(3)
    expect(earlierOf(folder, 'constructor')).toBeNull()
  })

  test('bytes stay known when a file is renamed or gone, and in another folder; names do not', () => {
    const memory = withSeen(withSeen(folder, file('a'), id, 'aa'), file('b'), id, 'aa')
    expect(memory.digests).toEqual(['aa'])
    expect(withoutGone(memory, [file('b')])).toEqual({
      ...memory,
      files: { b: { size: 10, modifiedMs: 1000, source: id } },
    })
    expect(memoryFor(memory, '/home/ops/in')).toBe(memory)
    expect(memoryFor(memory, '/mnt/in')).toEqual({ path: '/mnt/in', files: {}, digests: ['aa'] })
  })

  test('a setting is believed only in its own form', () => {
    expect(isDropMemory(withSeen(folder, file('a'), id, 'aa'))).toBe(true)
    expect(isDropMemory(noMemory)).toBe(true)
    for (const wrong of [
      null,
      'x',
      {},
      { ...noMemory, digests: [1] },
      { ...noMemory, files: { a: { size: '1' } } },
    ])
      expect(isDropMemory(wrong)).toBe(false)
  })
})
