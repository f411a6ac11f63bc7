/** Holds what was learnt of one lab's tags, away from the screen. Opens the lab's database to read it, never to write. */
import type { LabId } from '../../shared/lab/ids.ts'
import { OpenLab } from '../db/lab.ts'
import { systemSurroundings } from '../db/surroundings.ts'
import type { TagCalls, TagMessage, TagRequest } from './tags.ts'
import { TagLearner } from './tagsLearner.ts'

const say = (message: TagMessage): void => postMessage(message)

/** Only what opening asks for: nothing is ever made here. */
const around = systemSurroundings()

let learner: Promise<TagLearner> | null = null

async function open(lab: LabId): Promise<TagLearner> {
  const { queries } = await OpenLab.open(lab, { indexedDB, IDBKeyRange }, around)
  return new TagLearner(queries, (share) => say({ kind: 'learning', share }))
}

addEventListener('message', ({ data }: MessageEvent<TagRequest>) => {
  void answer(data).then(
    (answered) => say({ kind: 'answer', number: data.number, answer: answered }),
    (error: unknown) => say({ kind: 'broken', number: data.number, reason: String(error) }),
  )
})

async function answer(request: TagRequest): Promise<TagCalls[TagRequest['call']]['answer']> {
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
