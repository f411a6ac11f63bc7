import { expect, test } from 'vitest'
import { answerRows, isQuestion } from '../../../../renderer/find/answers.ts'
import type { Answer, AnswerPassage } from '../../../../shared/find/ask/answerer.ts'

const passage = (id: string): AnswerPassage => ({ id }) as AnswerPassage
const answer = (given: Partial<Answer>): Answer => ({
  ...{ kind: 'answered', sort: 'error', passages: [], procedure: null, trouble: null },
  ...given,
})
const says = (given: Partial<Answer>) =>
  answerRows(answer(given)).map((row) => (row.is === 'answer' ? [row.says, row.passage.id] : row.step.number))

test('questions and errors are asked, words are looked for', () => {
  expect(isQuestion('why does the logger stop')).toBe(true)
  expect(isQuestion('how do I move the root')).toBe(true)
  expect(isQuestion('mount: /mnt: wrong fs type')).toBe(true)
  for (const words of ['', '  ', 'logger', '/etc/fstab']) expect(isQuestion(words)).toBe(false)
})

test('what a question asks for comes first, then passages, then what goes with it; each place once', () => {
  const trouble = { problem: passage('p'), fixes: [passage('f')] }
  expect(says({ trouble, passages: [passage('f'), passage('x')] })).toEqual([
    ['What went wrong', 'p'],
    ['What ended it', 'f'],
    ['Answer', 'x'],
  ])
  const steps = ['1', '2'].map((number) => ({ id: `s${number}`, number, line: 'Do', isFound: false }))
  const procedure = { id: 'way', title: 'Move', way: [], steps }
  expect(says({ sort: 'how', procedure, trouble, passages: [passage('s2'), passage('x')] })).toEqual([
    ...['1', '2', ['Answer', 'x']],
    ...[
      ['What went wrong', 'p'],
      ['What ended it', 'f'],
    ],
  ])
  expect(says({ kind: 'nearest', passages: [passage('x')] })).toEqual([['Nearest', 'x']])
  expect(answerRows(null)).toEqual([])
})
