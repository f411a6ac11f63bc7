import { expect, test } from 'vitest'
import { withSignal, wordsOfMissing } from '../../../../../renderer/panes/procedure/cautions.ts'
import { formOf } from '../../../../../renderer/panes/procedure/fileParts.ts'
import { signalWords } from '../../../../../shared/safety/signal-words/caution.ts'
import { cautionFromMarkdown, signalWordOf } from '../../../../../shared/safety/signal-words/markdown.ts'

test('another signal word changes that word and nothing else', () => {
  const text = '**Danger:** It is live.\n\n*If not avoided:* a shock.\n\n*To avoid it:* pull the plug.'
  for (const word of signalWords) {
    const next = withSignal(text, word)
    expect(signalWordOf(next)).toBe(word)
    expect({ ...cautionFromMarkdown(next), signal: null }).toEqual({
      ...cautionFromMarkdown(text),
      signal: null,
    })
  }
})

test('what a caution lacks is one sentence', () => {
  expect(wordsOfMissing([])).toBe('')
  expect(wordsOfMissing(['avoidance'])).toBe('Still to say: how to avoid it.')
  expect(wordsOfMissing(['signal', 'consequence', 'avoidance'])).toBe(
    'Still to say: a signal word, what can happen and how to avoid it.',
  )
})

test('a file part holds a difference when its text is a whole unified diff', () => {
  expect(formOf('```diff\n--- a/x\n+++ b/x\n@@ -1 +1 @@\n-a\n+b\n```')).toBe('diff')
  expect(formOf('```\n- a\n+ b\n```')).toBe('content')
  expect(formOf('')).toBe('content')
})
