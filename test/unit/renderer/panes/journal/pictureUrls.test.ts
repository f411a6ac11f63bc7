import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { PictureUrls } from '../../../../../renderer/panes/journal/pictures/pictureUrls.ts'
import type { OpenLab } from '../../../../../renderer/db/lab.ts'
import { toPhoto } from '../../../../support/pictures/photo.ts'

const open = new Set<string>()
let count = 0

beforeEach(() => {
  open.clear()
  vi.spyOn(URL, 'createObjectURL').mockImplementation(() => {
    const url = `blob:${++count}`
    open.add(url)
    return url
  })
  vi.spyOn(URL, 'revokeObjectURL').mockImplementation((url) => void open.delete(url))
})
afterEach(() => vi.restoreAllMocks())

/** Addresses over a lab that holds these bytes. */
function over(blobs: Map<string, Uint8Array>): PictureUrls {
  const findBlob = (sha256: string) => {
    const bytes = blobs.get(sha256)
    return Promise.resolve(bytes && { sha256, bytes, mediaType: 'image/jpeg' })
  }
  return new PictureUrls({ queries: { findBlob } as unknown as OpenLab['queries'] })
}

describe('addresses of kept pictures', () => {
  test('two that show one picture share its address, and it holds until neither does', async () => {
    const urls = over(new Map([['a', toPhoto({})]]))
    const [one, other] = [urls.take('a'), urls.take('a')]
    expect(await one.found).toBe(await other.found)
    expect(open.size).toBe(1)
    one.release()
    expect(urls.findSettled('a')).toMatchObject({ kind: 'picture', picture: { width: 240 } })
    expect(open.size).toBe(1)
  })

  test('of pictures that nobody shows only the last few stay in memory, and none that is shown goes', async () => {
    const names = Array.from({ length: 100 }, (_, at) => `p${at}`)
    const urls = over(new Map(names.map((name) => [name, toPhoto({})])))
    const taken = names.map((name) => urls.take(name))
    await Promise.all(taken.map(({ found }) => found))
    expect(open.size).toBe(100)
    taken.slice(1).forEach(({ release }) => release())
    expect(open.size).toBe(41)
    expect(urls.findSettled('p0')).not.toBeNull()
    expect(urls.findSettled('p1')).toBeNull()
    expect(urls.findSettled('p99')).not.toBeNull()
  })

  test('what was struck out is shown no more, also to those who still held it', async () => {
    const blobs = new Map([['a', toPhoto({})]])
    const urls = over(blobs)
    const before = urls.take('a')
    await before.found
    blobs.set('a', new Uint8Array())
    urls.forgetAll()
    expect(open.size).toBe(0)
    const after = urls.take('a')
    expect(await after.found).toEqual({ kind: 'struck out' })
    before.release()
    expect(urls.findSettled('a')).toEqual({ kind: 'struck out' })
  })

  test('what is not here is looked for again the next time; what is no picture is said', async () => {
    const blobs = new Map<string, Uint8Array>([['b', Uint8Array.of(1, 2)]])
    const urls = over(blobs)
    const first = urls.take('a')
    expect(await first.found).toEqual({ kind: 'missing' })
    first.release()
    blobs.set('a', toPhoto({}))
    expect(await urls.take('a').found).toMatchObject({ kind: 'picture' })
    expect(await urls.take('b').found).toEqual({ kind: 'no picture' })
  })
})
