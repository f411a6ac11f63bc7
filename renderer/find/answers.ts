/** Answers to questions as rows of the box. Pure. */
import { readQuestion } from '../../shared/find/ask/question.ts'
import type { Answer, AnswerPassage, AnswerStep } from '../../shared/find/ask/answerer.ts'

/** Whether what was typed reads as a question or an error: only then an answer is asked for. */
export function isQuestion(typed: string): boolean {
  return typed.trim() !== '' && readQuestion(typed).sort !== 'plain'
}

export type AnswerRow =
  | { readonly is: 'answer'; readonly key: string; readonly says: string; readonly passage: AnswerPassage }
  | { readonly is: 'answer step'; readonly key: string; readonly step: AnswerStep; readonly title: string }

/**
 * Of a question that asks how the steps of the procedure that says it, in order; of all others what went wrong and what ended
 * it; then the passages. Each place of the lab stands there once.
 */
export function answerRows(answer: Answer | null): readonly AnswerRow[] {
  if (!answer) return []
  const { sort, passages, kind } = answer
  const [steps, trouble] = [stepRows(answer), troubleRows(answer)]
  const told = [
    ...(sort === 'how' ? steps : trouble),
    ...passages.map((passage) => toRow(passage, kind === 'answered' ? 'Answer' : 'Nearest')),
    ...(sort === 'how' ? trouble : steps),
  ]
  const known = new Map<string, AnswerRow>()
  for (const row of told) if (!known.has(row.key)) known.set(row.key, row)
  return [...known.values()]
}

function stepRows({ procedure }: Answer): AnswerRow[] {
  return (procedure?.steps ?? []).map((step) => ({
    ...({ is: 'answer step', key: `answer ${step.id}`, step } as const),
    title: procedure?.title ?? '',
  }))
}

function troubleRows({ trouble }: Answer): AnswerRow[] {
  return [
    ...(trouble?.problem ? [toRow(trouble.problem, 'What went wrong')] : []),
    ...(trouble?.fixes ?? []).map((fix) => toRow(fix, 'What ended it')),
  ]
}

function toRow(passage: AnswerPassage, says: string): AnswerRow {
  return { is: 'answer', key: `answer ${passage.id}`, says, passage }
}
