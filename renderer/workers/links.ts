/** Reading all links of a lab away from the screen, bit by bit. */
import type { LabId } from '../../shared/lab/ids.ts'
import { toGraphLink, type GraphLink } from '../../shared/provenance/graph.ts'
import type { Queries } from '../db/queries.ts'

export interface LinksRequest {
  readonly lab: LabId
}

export type LinksMessage =
  | { readonly kind: 'links'; readonly links: readonly GraphLink[] }
  /** All were read. `sequence`: all Changes up to this one are in what was read, later ones may be or not. */
  | { readonly kind: 'done'; readonly sequence: number }
  | { readonly kind: 'broken'; readonly reason: string }

/** The part of a worker that is needed here. */
export interface LinksWorker {
  onmessage: ((event: { readonly data: LinksMessage }) => void) | null
  onerror: ((event: { readonly message: string }) => void) | null
  postMessage(request: LinksRequest): void
  terminate(): void
}

const startWorker = (): LinksWorker =>
  new Worker(new URL('./links.worker.ts', import.meta.url), { type: 'module' }) as unknown as LinksWorker

/** So many links are read and handed over at once: no more than the screen can take in between two frames. */
const BATCH = 1000

/**
 * Reads all links of a lab where it is called.
 * @param take is given them in the order of their ids
 * @returns the number of a Change: all up to it are in what was given, later ones may be or not
 */
export async function readLinks(
  queries: Queries,
  take: (links: readonly GraphLink[]) => void,
  batch = BATCH,
): Promise<number> {
  const sequence = await queries.sequence()
  let last = ''
  for (;;) {
    const links = await queries.trace.linksBehind(last, batch)
    take(links.map(toGraphLink))
    if (links.length < batch) return sequence
    last = links.at(-1)!.id
  }
}

/** The same in a worker of its own, which ends with it. @throws Error where the worker broke */
export async function readLinksApart(
  lab: LabId,
  take: (links: readonly GraphLink[]) => void,
  start: () => LinksWorker = startWorker,
): Promise<number> {
  const worker = start()
  try {
    return await new Promise<number>((resolve, reject) => {
      worker.onmessage = ({ data }) => {
        if (data.kind === 'links') take(data.links)
        else if (data.kind === 'done') resolve(data.sequence)
        else reject(new Error(data.reason))
      }
      worker.onerror = ({ message }) => reject(new Error(message || 'the worker could not start'))
      worker.postMessage({ lab })
    })
  } finally {
    worker.terminate()
  }
}
