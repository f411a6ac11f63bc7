/** Holds one project and answers what is asked of it as a whole. Opens the lab's database to read it, never to write. */
import type { LabId, ProjectId } from '../../shared/lab/ids.ts'
import { showMap } from '../../shared/map/map.ts'
import { coverageModel } from '../coverage/model.ts'
import { OpenLab } from '../db/lab.ts'
import { systemSurroundings } from '../db/surroundings.ts'
import { draftModel } from '../draft/model.ts'
import { FollowedProject } from './followedProject.ts'
import type { Answered, ProjectMessage, ProjectRequest } from './project.ts'

let followed: Promise<FollowedProject> | null = null
let last: Promise<unknown> = Promise.resolve()

addEventListener('message', ({ data }: MessageEvent<ProjectRequest>) => {
  if (data.call === 'open') {
    followed = open(data.lab, data.project)
    // Whoever asks is told why it failed.
    followed.catch(() => undefined)
    return
  }
  // One after the other: each follows the project before it answers.
  last = last.then(() =>
    answer(data).then(
      (answered) => say({ kind: 'answer', number: data.number, answered }),
      (error: unknown) => say({ kind: 'broken', number: data.number, reason: String(error) }),
    ),
  )
})

const say = (message: ProjectMessage): void => postMessage(message)

async function open(lab: LabId, project: ProjectId): Promise<FollowedProject> {
  const opened = await OpenLab.open(lab, { indexedDB, IDBKeyRange }, systemSurroundings())
  return new FollowedProject(lab, opened.queries, project)
}

async function answer(request: Exclude<ProjectRequest, { call: 'open' }>): Promise<Answered<unknown>> {
  if (!followed) throw new Error('no project was named')
  const project = await followed
  const { view, machines } = await project.catchUp()
  switch (request.call) {
    case 'coverage':
      return { sequence: view.sequence, answer: coverageModel(view, machines, request.argument.procedure) }
    case 'map':
      return { sequence: view.sequence, answer: showMap(view, request.argument) }
    case 'draft':
      return { sequence: view.sequence, answer: draftModel(view, machines, project.lab, request.argument) }
  }
}
