/** The `app://stillroom/` protocol: serves the built page from the program's own files and from nowhere else. */
import { readFile } from 'node:fs/promises'
import { randomBytes } from 'node:crypto'
import { join } from 'node:path'
import { protocol, type Session } from 'electron'
import { pageOrigin } from '../shared/host.ts'
import { maybePageFile, noncePlaceholder, pageHeaders, type PageFile } from '../shared/serving.ts'

/** Where the page starts. */
export const pageAddress = `${pageOrigin}/`

/** Gives the scheme the rights of a secure web origin, with IndexedDB and workers. Call before the app is ready. */
export function declareScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: 'app', privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true } },
  ])
}

/** Serves the page's folder to a session. */
export function servePage(session: Session, folder: string): void {
  session.protocol.handle('app', (request) => answerRequest(folder, request))
}

async function answerRequest(folder: string, request: Request): Promise<Response> {
  if (request.method !== 'GET' && request.method !== 'HEAD')
    return refuse(405, 'Only GET and HEAD are answered.')
  const address = new URL(request.url)
  // Node knows no origin for schemes of our own ("null"), so the host is compared.
  const file = address.host === 'stillroom' ? maybePageFile(address.pathname) : null
  if (file === null) return refuse(404, 'There is no such page.')
  try {
    return await answerFile(folder, file)
  } catch {
    return refuse(404, 'There is no such page.')
  }
}

async function answerFile(folder: string, file: PageFile): Promise<Response> {
  const nonce = randomBytes(16).toString('base64')
  const bytes = await readFile(join(folder, file.path))
  const body = file.path.endsWith('.html')
    ? bytes.toString('utf8').replaceAll(noncePlaceholder, nonce)
    : bytes
  return new Response(body, { headers: pageHeaders(file.mediaType, nonce) })
}

function refuse(status: number, sentence: string): Response {
  const nonce = randomBytes(16).toString('base64')
  return new Response(sentence, { status, headers: pageHeaders('text/plain; charset=utf-8', nonce) })
}
