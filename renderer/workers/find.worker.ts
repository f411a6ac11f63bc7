/** Holds the index of one lab, away from the screen. Reads the lab's database, and writes the index beside it. */
import type { LabId } from '../../shared/lab/ids.ts'
import { FindStore } from '../db/findStore.ts'
import { OpenLab } from '../db/lab.ts'
import { systemSurroundings } from '../db/surroundings.ts'
import { answerQuestions, type AnsweringScope } from './answering.ts'
import { createBreath } from './breath.ts'
import type { FindCall, FindCalls, FindRequest } from './find.ts'
import { FindService } from './findService.ts'

let service: Promise<FindService> | null = null

const sayShare = answerQuestions(globalThis as unknown as AnsweringScope<FindCalls>, answer)

async function open(id: LabId): Promise<FindService> {
  const storage = { indexedDB, IDBKeyRange }
  const lab = await OpenLab.open(id, storage, systemSurroundings())
  const begun = new FindService({
    lab,
    store: new FindStore(id, storage),
    locks: navigator.locks,
    offsetAt: (ms) => -new Date(ms).getTimezoneOffset(),
    onBuilding: sayShare,
    breathe: createBreath(),
  })
  begun.begin()
  return begun
}

async function answer(request: FindRequest): Promise<FindCalls[FindCall]['answer']> {
  if (request.call === 'open') {
    service = open(request.argument)
    await service
    return null
  }
  if (!service) throw new Error('no lab was named')
  const begun = await service
  switch (request.call) {
    case 'find':
      return begun.find(request.argument)
    case 'answer':
      return begun.answer(request.argument)
    case 'commands':
      return begun.findCommands(request.argument)
  }
}
