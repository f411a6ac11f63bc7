import { describe, expect, test } from 'vitest'
import { decide } from '../../../../../../renderer/panes/sources/taking/decide.ts'
import { KnownSources } from '../../../../../../renderer/panes/sources/taking/known.ts'
import { toLabSources } from '../../../../../../renderer/store/labSources.ts'
import { addSource, type SourceInput } from '../../../../../../shared/lab/acts.ts'
import type { ProjectId } from '../../../../../../shared/lab/ids.ts'
import type { Capture, Source } from '../../../../../../shared/lab/model.ts'
import { headOf } from '../../../../../../shared/lab/capture-head.ts'
import { repeatableSurroundings } from '../../../../support/lab.ts'

const around = repeatableSurroundings()
const project = around.ids.make<ProjectId>()
const other = around.ids.make<ProjectId>()

function make(address: string | null, sha256: string | null, more: Partial<SourceInput> = {}) {
  const capture =
    sha256 === null ? null : { text: 'x', bytes: new Uint8Array(), sha256, mediaType: 'text/plain' }
  const kind = capture ? 'page' : 'link'
  return addSource(around, {
    title: 'x',
    address,
    kind,
    wayIn: 'file',
    projects: [project],
    capture,
    ...more,
  })
}
type Made = ReturnType<typeof make>

function knowing(...made: readonly { readonly source: Source; readonly capture: Capture | null }[]) {
  const heads = made.flatMap(({ capture }) => (capture ? [headOf(capture)] : []))
  const sources = made.map(({ source }) => source)
  return new KnownSources(toLabSources({ sources, heads, folders: [], used: [], sequence: 0 }), project)
}

const free = { isOwn: false, again: null }
const fans = 'https://docs.example.org/fans'

describe('what becomes of something that was read', () => {
  test('what nobody has is added', () => {
    expect(
      decide(knowing(make(fans, 'a')), { address: 'https://docs.example.org/pumps', sha256: 'b' }, free),
    ).toEqual({
      kind: 'add',
    })
    expect(decide(knowing(), { address: null, sha256: 'a' }, free)).toEqual({ kind: 'add' })
  })

  test('the same bytes under the same address, however it is spelt, are there already', () => {
    const page = make(fans, 'a')
    const spelt = 'http://DOCS.example.org/fans?utm_source=mail#speed'
    expect(decide(knowing(page), { address: spelt, sha256: 'a' }, free)).toEqual({
      kind: 'there',
      source: page.source,
    })
  })

  test('bytes that an older capture had are there already too', () => {
    const page = make(fans, 'a')
    const newer = { source: page.source, capture: { ...make(fans, 'b').capture!, source: page.source.id } }
    expect(decide(knowing(page, newer), { address: fans, sha256: 'a' }, free)).toMatchObject({
      kind: 'there',
    })
  })

  test('other bytes under a known address are read again behind the newest capture', () => {
    const page = make(fans, 'a')
    const newer = { source: page.source, capture: { ...make(fans, 'b').capture!, source: page.source.id } }
    const decision = decide(knowing(page, newer), { address: fans, sha256: 'c' }, free)
    expect(decision).toEqual({ kind: 'again', source: page.source, before: headOf(newer.capture) })
  })

  test('a link without text becomes the page', () => {
    const link = make(fans, null)
    expect(decide(knowing(link), { address: fans, sha256: 'a' }, free)).toEqual({
      kind: 'again',
      source: link.source,
      before: null,
    })
  })

  test('an address alone that the lab has is there already', () => {
    const page = make(fans, 'a')
    expect(decide(knowing(page), { address: `${fans}#top`, sha256: null }, free)).toEqual({
      kind: 'there',
      source: page.source,
    })
  })

  test('equal bytes without an address are there already, whatever address the lab has them under', () => {
    const page = make(fans, 'a')
    expect(decide(knowing(page), { address: null, sha256: 'a' }, free)).toEqual({
      kind: 'there',
      source: page.source,
    })
    const text = make(null, 'a')
    expect(decide(knowing(text), { address: fans, sha256: 'a' }, free)).toEqual({
      kind: 'there',
      source: text.source,
    })
  })

  test('equal bytes under two addresses stay two sources', () => {
    const page = make(fans, 'a')
    const mirror = 'https://mirror.example.org/fans'
    expect(decide(knowing(page), { address: mirror, sha256: 'a' }, free)).toEqual({ kind: 'add' })
  })

  test('a merged source is found as the one that it was merged into, with all their captures', () => {
    const kept = make('https://docs.example.org/fans/index.html', 'b')
    const merged = make(fans, 'a')
    const known = knowing(kept, { ...merged, source: { ...merged.source, mergedInto: kept.source.id } })
    expect(decide(known, { address: fans, sha256: 'a' }, free)).toEqual({
      kind: 'there',
      source: kept.source,
    })
    expect(decide(known, { address: fans, sha256: 'c' }, free)).toMatchObject({
      kind: 'again',
      source: kept.source,
      before: { sha256: 'a' },
    })
  })

  test('of two sources with one address the project’s own comes first, else the older', () => {
    const far: Made = make(fans, 'a', { projects: [other] })
    const near = make(fans, 'b')
    expect(decide(knowing(far, near), { address: fans, sha256: null }, free)).toMatchObject({
      source: near.source,
    })
    const alsoFar = make(fans, 'b', { projects: [other] })
    expect(decide(knowing(far, alsoFar), { address: fans, sha256: null }, free)).toMatchObject({
      source: far.source,
    })
  })

  test('a newer state of one file is read again, unless its page says another address', () => {
    const text = make(null, 'a')
    const again = { isOwn: false, again: text.source.id }
    expect(decide(knowing(text), { address: null, sha256: 'b' }, again)).toMatchObject({ kind: 'again' })
    const page = make(fans, 'a')
    const moved = { isOwn: false, again: page.source.id }
    const elsewhere = 'https://docs.example.org/pumps'
    expect(decide(knowing(page), { address: elsewhere, sha256: 'b' }, moved)).toEqual({ kind: 'add' })
    expect(decide(knowing(), { address: null, sha256: 'b' }, again)).toEqual({ kind: 'add' })
  })

  test('a source of its own is added whatever there is', () => {
    const page = make(fans, 'a')
    expect(
      decide(knowing(page), { address: fans, sha256: 'a' }, { isOwn: true, again: page.source.id }),
    ).toEqual({
      kind: 'add',
    })
  })
})
