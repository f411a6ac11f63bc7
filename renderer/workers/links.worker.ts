/** Reads all links of a lab, once. Opens the lab's database to read it, never to write. */
import { OpenLab } from '../db/lab.ts'
import { systemSurroundings } from '../db/surroundings.ts'
import { readLinks, type LinksMessage, type LinksRequest } from './links.ts'

const say = (message: LinksMessage): void => postMessage(message)

addEventListener('message', ({ data: { lab } }: MessageEvent<LinksRequest>) => {
  OpenLab.open(lab, { indexedDB, IDBKeyRange }, systemSurroundings())
    .then(({ queries }) => readLinks(queries, (links) => say({ kind: 'links', links })))
    .then(
      (sequence) => say({ kind: 'done', sequence }),
      (error: unknown) => say({ kind: 'broken', reason: String(error) }),
    )
})
