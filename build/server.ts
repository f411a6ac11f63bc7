/**
 * The browser's host: serves the built page on this machine's own loopback address and to nobody else.
 *
 * A browser keeps a store for each origin (scheme, host name and port), so another port or another name for the same
 * machine is another, empty lab. The port is therefore fixed, one name is the right one, and the other leads to it.
 */
import { randomBytes } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import {
  createServer,
  request as ask,
  type IncomingMessage,
  type Server,
  type ServerResponse,
} from 'node:http'
import { join } from 'node:path'
import { maybePageFile, noncePlaceholder, pageHeaders } from '../shared/serving.ts'

/** The port of the labs. Below the range that Linux gives to outgoing connections, and assigned to nothing by IANA. */
export const usualPort = 18763
/** The one name under which the page is served. */
const hostName = '127.0.0.1'
/** What the `Server` header says (RFC 9110 §10.2.4), by which a second start knows the first. */
const product = 'Stillroom'

export type StartedServer =
  | { readonly ok: true; readonly address: string; readonly server: Server }
  | { readonly ok: false; readonly code: 'running' | 'taken' | 'refused'; readonly sentence: string }

/** The port to serve on: `STILLROOM_PORT` where it is set. @throws when it is not a port */
export function choosePort(environment: Readonly<Record<string, string | undefined>>): number {
  const wanted = environment.STILLROOM_PORT
  if (wanted === undefined || wanted === '') return usualPort
  const port = Number(wanted)
  if (Number.isInteger(port) && port >= 1 && port <= 65535) return port
  throw new Error(`STILLROOM_PORT is “${wanted}”, which is not a port (1 to 65535).`)
}

/** What must be said when the port is not the usual one; null when it is. */
export function maybePortWarning(port: number): string | null {
  if (port === usualPort) return null
  return `Port ${port} is not the usual ${usualPort}: another port is another, empty lab. What was written under the usual port is still there.`
}

/** Where the page is, for a port. */
export function addressOf(port: number): string {
  return `http://${hostName}:${port}/`
}

/** Serves a folder's page on a port. That the port is taken is an expected failure, with a sentence. */
export async function startServer(folder: string, port: number): Promise<StartedServer> {
  const server = createServer((request, response) => void answer(folder, port, request, response))
  const error = await new Promise<NodeJS.ErrnoException | null>((resolve) => {
    server.once('error', resolve)
    server.listen({ host: hostName, port, exclusive: true }, () => resolve(null))
  })
  if (error === null) return { ok: true, address: addressOf(port), server }
  if (error.code !== 'EADDRINUSE') {
    const sentence = `Port ${port} could not be opened (${error.code ?? error.message}). No lab was touched.`
    return { ok: false, code: 'refused', sentence }
  }
  return (await isOurs(port)) ? running(port) : taken(port)
}

function running(port: number): StartedServer {
  const sentence = `Stillroom already runs at ${addressOf(port)} – open that address. No second one was started.`
  return { ok: false, code: 'running', sentence }
}

function taken(port: number): StartedServer {
  const sentence =
    `Port ${port} is taken by another program, and Stillroom was not started, because another port would show another, empty lab. ` +
    `Your labs are safe. End the other program (ss -ltnp 'sport = :${port}' names it), or set STILLROOM_PORT if an empty lab is what you want.`
  return { ok: false, code: 'taken', sentence }
}

function isOurs(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const request = ask({ host: hostName, port, method: 'HEAD', path: '/', timeout: 2000 }, (response) => {
      response.resume()
      resolve(String(response.headers.server).startsWith(product))
    })
    request.on('error', () => resolve(false))
    request.on('timeout', () => request.destroy())
    request.end()
  })
}

async function answer(
  folder: string,
  port: number,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const { host } = request.headers
  // A page elsewhere can make its own name lead here (DNS rebinding); the Host header then still holds that name.
  if (host === `localhost:${port}`) return redirect(port, request, response)
  if (host !== `${hostName}:${port}`)
    return refuse(response, 421, `Stillroom answers at ${addressOf(port)} only.`)
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.setHeader('Allow', 'GET, HEAD')
    return refuse(response, 405, 'Only GET and HEAD are answered.')
  }
  const file = maybePageFile((request.url ?? '').split(/[?#]/)[0] ?? '')
  const bytes = file === null ? null : await readFile(join(folder, file.path)).catch(() => null)
  if (file === null || bytes === null) return refuse(response, 404, 'There is no such page.')
  const nonce = freshNonce()
  const body = file.path.endsWith('.html')
    ? bytes.toString('utf8').replaceAll(noncePlaceholder, nonce)
    : bytes
  send(response, 200, pageHeaders(file.mediaType, nonce), body)
}

/** Leads from the other name of this machine to the right one, since the other name would be another, empty lab. */
function redirect(port: number, request: IncomingMessage, response: ServerResponse): void {
  const path = (request.url ?? '/').replace(/^\/*/, '')
  response.setHeader('Location', `${addressOf(port)}${path}`)
  refuse(response, 308, `The labs are at ${addressOf(port)}.`)
}

function refuse(response: ServerResponse, status: number, sentence: string): void {
  send(response, status, pageHeaders('text/plain; charset=utf-8', freshNonce()), `${sentence}\n`)
}

function send(
  response: ServerResponse,
  status: number,
  headers: Record<string, string>,
  body: string | Buffer,
): void {
  response.writeHead(status, { ...headers, Server: product, 'Content-Length': Buffer.byteLength(body) })
  response.end(response.req.method === 'HEAD' ? undefined : body)
}

function freshNonce(): string {
  return randomBytes(16).toString('base64')
}
