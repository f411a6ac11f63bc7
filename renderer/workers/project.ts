/** Reading a project as a whole away from the screen: what its procedure lacks, and steps drafted from its journal. */
import type { EntryId, LabId, ProcedureId, ProjectId } from '../../shared/lab/ids.ts'
import type { MapWish, ShownMap } from '../../shared/map/map.ts'
import type { CoverageModel } from '../coverage/model.ts'
import type { DraftModel } from '../draft/model.ts'

/** What can be asked. Each answer holds for one state of the project; null where the procedure is gone. */
export interface ProjectCalls {
  readonly coverage: {
    readonly argument: { readonly procedure: ProcedureId }
    readonly answer: CoverageModel | null
  }
  readonly draft: {
    readonly argument: {
      /** The procedure that the steps are for: what it holds already is not proposed. null for one yet to be made. */
      readonly procedure: ProcedureId | null
      /** null for the path that worked. */
      readonly chosen: readonly EntryId[] | null
    }
    readonly answer: DraftModel
  }
  readonly map: { readonly argument: MapWish; readonly answer: ShownMap }
}
export type ProjectCall = keyof ProjectCalls

export type ProjectRequest =
  | { readonly call: 'open'; readonly lab: LabId; readonly project: ProjectId }
  | {
      readonly [C in ProjectCall]: {
        readonly call: C
        readonly number: number
        readonly argument: ProjectCalls[C]['argument']
      }
    }[ProjectCall]

/** An answer, and the last Change that it knows of. */
export interface Answered<T> {
  readonly sequence: number
  readonly answer: T
}

export type ProjectMessage =
  | { readonly kind: 'answer'; readonly number: number; readonly answered: Answered<unknown> }
  | { readonly kind: 'broken'; readonly number: number; readonly reason: string }

/** The part of a worker that is needed here. */
export interface ProjectWorker {
  onmessage: ((event: { readonly data: ProjectMessage }) => void) | null
  onerror: ((event: { readonly message: string }) => void) | null
  postMessage(request: ProjectRequest): void
  terminate(): void
}

const startWorker = (): ProjectWorker =>
  new Worker(new URL('./project.worker.ts', import.meta.url), { type: 'module' }) as unknown as ProjectWorker

interface Waiting {
  readonly resolve: (answered: Answered<never>) => void
  readonly reject: (error: Error) => void
}

/** The worker for one project. It holds the project as long as a panel needs it. */
export class ProjectAsker {
  private readonly worker: ProjectWorker
  private readonly waiting = new Map<number, Waiting>()
  private number = 0

  constructor(lab: LabId, project: ProjectId, start: () => ProjectWorker = startWorker) {
    this.worker = start()
    this.worker.onmessage = ({ data }) => this.take(data)
    this.worker.onerror = ({ message }) => this.breakAll(message)
    this.worker.postMessage({ call: 'open', lab, project })
  }

  /** @throws Error where the worker broke */
  ask<C extends ProjectCall>(
    call: C,
    argument: ProjectCalls[C]['argument'],
  ): Promise<Answered<ProjectCalls[C]['answer']>> {
    const number = ++this.number
    return new Promise((resolve, reject) => {
      this.waiting.set(number, { resolve, reject })
      this.worker.postMessage({ call, number, argument } as ProjectRequest)
    })
  }

  /** Ends the worker. Questions that were not answered stay so. */
  close(): void {
    this.worker.terminate()
    this.waiting.clear()
  }

  private take(message: ProjectMessage): void {
    const waiting = this.waiting.get(message.number)
    this.waiting.delete(message.number)
    if (message.kind === 'answer') waiting?.resolve(message.answered as Answered<never>)
    else waiting?.reject(new Error(message.reason))
  }

  private breakAll(reason: string): void {
    for (const { reject } of this.waiting.values()) reject(new Error(reason || 'the worker could not start'))
    this.waiting.clear()
  }
}
