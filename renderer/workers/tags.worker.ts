/** Holds what was learnt of one lab's tags, away from the screen. Opens the lab's database to read it, never to write. */
import type { LabId } from '../../shared/lab/ids.ts'
import { OpenLab } from '../db/lab.ts'
import { systemSurroundings } from '../db/surroundings.ts'
import { answerQuestions, type AnsweringScope } from './answering.ts'
import type { TagCall, TagCalls, TagRequest } from './tags.ts'
import { TagLearner } from './tagsLearner.ts'

/** Only what opening asks for: nothing is ever made here. */
const around = systemSurroundings()

let learner: Promise<TagLearner> | null = null

const sayShare = answerQuestions(globalThis as unknown as AnsweringScope<TagCalls>, answer)

async function open(lab: LabId): Promise<TagLearner> {
  const { queries } = await OpenLab.open(lab, { indexedDB, IDBKeyRange }, around)
  return new TagLearner(queries, sayShare)
}

async function answer(request: TagRequest): Promise<TagCalls[TagCall]['answer']> {
  switch (request.call) {
    case 'open':
      learner = open(request.argument)
      await learner
      return null
    case 'suggest': {
      if (!learner) throw new Error('no lab was named')
      return (await learner).suggest(request.argument)
    }
  }
}
