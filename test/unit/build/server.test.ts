import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs'
import { createServer, request, type IncomingHttpHeaders, type Server } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ensureBuilt, root } from '../../../build/build.mjs'
import { choosePort, maybePortWarning, startServer, usualPort } from '../../../build/server.ts'

const folder = mkdtempSync(join(tmpdir(), 'stillroom-page-'))
const page = join(folder, 'page')
let server: Server
let port = 0

interface Answer {
  readonly status: number
  readonly headers: IncomingHttpHeaders
  readonly body: string
}

/** Asks the server with a path and headers exactly as given, which a tidier client would not do. */
function ask(path: string, headers: Record<string, string> = {}, method = 'GET'): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asked = request(
      { host: '127.0.0.1', port, path, method, headers: { Host: `127.0.0.1:${port}`, ...headers } },
      (answer) => {
        let body = ''
        answer.on('data', (chunk: Buffer) => (body += chunk.toString()))
        answer.on('end', () => resolve({ status: answer.statusCode ?? 0, headers: answer.headers, body }))
      },
    )
    asked.on('error', reject)
    asked.end()
  })
}

async function anyPort(): Promise<{ port: number; taken: Server }> {
  const taken = createServer((_request, response) => response.end('something else'))
  await new Promise<void>((resolve) => taken.listen(0, '127.0.0.1', resolve))
  const bound = taken.address()
  if (typeof bound !== 'object' || bound === null) throw new Error('no port')
  return { port: bound.port, taken }
}

beforeAll(async () => {
  mkdirSync(join(page, 'assets'), { recursive: true })
  writeFileSync(join(folder, 'secret.txt'), 'secret')
  writeFileSync(join(page, 'index.html'), '<meta name="style-nonce" nonce="__STYLE_NONCE__">')
  writeFileSync(join(page, 'assets/a.js'), 'export {}')
  const free = await anyPort()
  await new Promise((resolve) => free.taken.close(resolve))
  port = free.port
  const started = await startServer(page, port)
  if (!started.ok) throw new Error(started.sentence)
  server = started.server
})
afterAll(() => server.close())

describe('the server of the browser', () => {
  it('serves the page with its policy, and the policy names the nonce of this answer', async () => {
    const one = await ask('/')
    const other = await ask('/')
    const nonce = /nonce="([^"]+)"/.exec(one.body)?.[1] ?? 'none'
    expect(one.headers['content-security-policy']).toContain(`style-src 'self' 'nonce-${nonce}'`)
    expect(other.body).not.toBe(one.body)
    expect(one.headers['cross-origin-opener-policy']).toBe('same-origin')
    expect((await ask('/assets/a.js')).headers['content-type']).toBe('text/javascript; charset=utf-8')
  })

  it.each(['evil.example.org', '192.0.2.7:80', 'localhost', '127.0.0.1', '[::1]:1'])(
    'refuses the Host header %j',
    async (host) => {
      const answer = await ask('/', { Host: host })
      expect([400, 421]).toContain(answer.status)
      expect(answer.body).not.toContain('nonce')
    },
  )

  it('leads from localhost to the one address of the labs', async () => {
    const answer = await ask('//evil.example.org/x', { Host: `localhost:${port}` })
    expect(answer.status).toBe(308)
    expect(answer.headers.location).toBe(`http://127.0.0.1:${port}/evil.example.org/x`)
  })

  it.each([
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/assets/../../secret.txt',
    '/..\\secret.txt',
    '/assets/',
    '/assets',
    '/.git',
    '/none.js',
  ])('answers %s with nothing', async (path) => {
    const answer = await ask(path)
    expect(answer.status).toBe(404)
    expect(answer.body).toBe('There is no such page.\n')
  })

  it.each(['POST', 'PUT', 'DELETE', 'OPTIONS'])('refuses %s', async (method) => {
    expect((await ask('/', {}, method)).status).toBe(405)
  })

  it('answers HEAD with headers alone', async () => {
    const answer = await ask('/', {}, 'HEAD')
    expect(answer).toMatchObject({ status: 200, body: '' })
    expect(Number(answer.headers['content-length'])).toBeGreaterThan(0)
  })

  it('cannot be reached from another machine', () => {
    expect(server.address()).toMatchObject({ address: '127.0.0.1' })
  })
})

describe('a port that is taken', () => {
  it('by Stillroom is named as its running address', async () => {
    const second = await startServer(page, port)
    expect(second).toMatchObject({ ok: false, code: 'running' })
    expect(second.ok ? '' : second.sentence).toContain(`already runs at http://127.0.0.1:${port}/`)
  })

  it('by another program is said, with what is safe and what to do', async () => {
    const other = await anyPort()
    const second = await startServer(page, other.port)
    other.taken.close()
    expect(second).toMatchObject({ ok: false, code: 'taken' })
    expect(second.ok ? '' : second.sentence).toMatch(
      /taken by another program.*another, empty lab.*Your labs are safe/,
    )
  })

  it('ends the start with that sentence, and with a failure only for another program', async () => {
    await ensureBuilt(() => undefined)
    const other = await anyPort()
    const start = (on: number): { status: number | null; stdout: string } =>
      spawnSync(process.execPath, [join(root, 'build/start.mjs'), '--address', '--no-build'], {
        env: { ...process.env, STILLROOM_PORT: String(on) },
        encoding: 'utf8',
        timeout: 15_000,
      })
    // The server of this test answers in this very process, which waits for the other one; so only the stranger is asked.
    const taken = start(other.port)
    other.taken.close()
    expect(taken.status).toBe(1)
    expect(taken.stdout).toContain(
      `Port ${other.port} is not the usual ${usualPort}: another port is another, empty lab.`,
    )
    expect(taken.stdout).toContain('is taken by another program')
  })
})

describe('the port', () => {
  it('is the usual one, or what STILLROOM_PORT says', () => {
    expect(choosePort({})).toBe(usualPort)
    expect(choosePort({ STILLROOM_PORT: '8080' })).toBe(8080)
    expect(maybePortWarning(usualPort)).toBeNull()
    expect(maybePortWarning(8080)).toContain('another, empty lab')
  })

  it.each(['0', '65536', 'http', '80.5', '-1'])('is never %j', (wanted) => {
    expect(() => choosePort({ STILLROOM_PORT: wanted })).toThrow('is not a port')
  })
})
