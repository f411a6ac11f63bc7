/**
 * What answers a question. This is the port at which a model could stand one day; the one answerer that there is takes words
 * out of the lab and makes none (extractive.ts).
 */
import type { EntryKind, LinkNode, PartKind, Range, SourceKind } from '../../lab/model.ts'
import type { Moment } from '../../lab/moment.ts'
import type { GraphLink } from '../../provenance/graph.ts'
import type { Hop } from '../../provenance/trace.ts'
import type { FoundThing } from '../document.ts'
import type { QuestionSort } from './question.ts'
import type { AskSurroundings } from './thing.ts'

export interface Answerer {
  /**
   * Answers from what stands in the lab. Rejects where a read does.
   *
   * @param question as the person typed it
   */
  answer(question: string, around: AskSurroundings): Promise<Answer>
}

export interface Answer {
  /** Answered: the passages answer it. Nearest: nothing does; the passages are what comes nearest. */
  readonly kind: 'answered' | 'nearest'
  readonly sort: QuestionSort
  /** Best first; a few at most, and none where nothing in the lab has any of the words. */
  readonly passages: readonly AnswerPassage[]
  /** Of a question that asks how, and that a procedure answers. */
  readonly procedure: AnswerProcedure | null
  /** Of something that went wrong and for which the lab has a problem or a fix. */
  readonly trouble: AnswerTrouble | null
}

/** A stretch of the lab, word for word. */
export interface AnswerPassage {
  readonly id: string
  readonly thing: FoundThing
  readonly kind: EntryKind | SourceKind | null
  /** The text that says the most of it; null for texts that no link can join. */
  readonly node: LinkNode | null
  readonly part: PartKind | null
  /** The words of that text, as they stand there. */
  readonly text: string
  /** Where they stand in it, UTF-16 code units. */
  readonly range: Range
  /** What of it was asked for; ranges of the whole text, apart from each other, in order. */
  readonly words: readonly Range[]
  readonly title: string
  /** The titles that lead to it, the widest first. */
  readonly way: readonly string[]
  readonly moment: Moment | null
  /** What it came from, hop by hop. */
  readonly chain: readonly Hop<GraphLink>[]
  /** How much of the question it holds, with what belongs to it, 0 to 1. */
  readonly share: number
}

export interface AnswerProcedure {
  readonly id: string
  readonly title: string
  readonly way: readonly string[]
  /** In order. */
  readonly steps: readonly AnswerStep[]
}

export interface AnswerStep {
  readonly id: string
  /** Its number; empty for a section. */
  readonly number: string
  /** Its heading, else the first line of what is done. */
  readonly line: string
  /** It is among the passages. */
  readonly isFound: boolean
}

export interface AnswerTrouble {
  readonly problem: AnswerPassage | null
  /** What ended it, in the order written; none while it is open. */
  readonly fixes: readonly AnswerPassage[]
}
