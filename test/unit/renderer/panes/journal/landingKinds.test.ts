import { expect, it } from 'vitest'
import { landingKinds } from '../../../../../renderer/panes/journal/landingKinds.ts'
import { pickFragment } from '../../../../../shared/distil/fragment.ts'
import type { CaptureId, LabId } from '../../../../../shared/lab/ids.ts'

const pick = (text: string, words: string) => {
  const start = text.indexOf(words)
  const from = {
    lab: 'l' as LabId,
    node: { kind: 'capture', id: 'k' as CaptureId },
    revision: null,
    origin: { kind: 'source' },
    title: '',
    address: null,
    text,
  } as const
  return pickFragment(from, [{ start, end: start + words.length }])!
}

it('offers what a fragment usually becomes first, and an action for any code', () => {
  expect(landingKinds(pick('Cards wear out.', 'wear out'))).toEqual(['observation', 'decision'])
  expect(landingKinds(pick('```sh\nsync\n```', 'sync'))).toEqual(['action', 'observation'])
  expect(landingKinds(pick('```ini\nserver = 192.0.2.1\n```', 'server'))).toEqual(['observation', 'action'])
})
