/** Which passages come before others that hold as much of the question. In shares of what a passage holds. */
import type { Passage } from './passages.ts'
import type { QuestionSort } from './question.ts'
import type { AskThing } from './thing.ts'

export function preferenceFor(sort: QuestionSort, passage: Passage): number {
  return preferenceOf(passage.of) + wantedBy(sort, passage)
}

/** A step before a fix, before other entries, before what others wrote. */
function preferenceOf({ thing, kind }: AskThing): number {
  if (thing === 'step') return 0.06
  if (thing === 'source') return -0.3
  if (kind === 'fix') return 0.05
  return kind === 'output' ? 0.01 : 0.03
}

/** What each sort of question asks for beside. */
function wantedBy(sort: QuestionSort, { of: { thing, kind }, pieces }: Passage): number {
  switch (sort) {
    case 'how':
      if (thing === 'step' || thing === 'procedure') return 0.1
      return kind === 'output' || kind === 'problem' ? -0.05 : 0
    case 'error':
      if (kind === 'problem' || kind === 'fix') return 0.15
      return kind === 'output' ? -0.1 : 0
    case 'why':
      if (kind === 'observation' || kind === 'decision' || kind === 'problem') return 0.08
      if (pieces.some(({ part }) => part === 'why')) return 0.05
      return kind === 'output' || kind === 'action' ? -0.03 : 0
    case 'when':
      return thing === 'entry' || thing === 'problem' ? 0.08 : -0.03
    case 'what':
    case 'plain':
      return 0
  }
}
