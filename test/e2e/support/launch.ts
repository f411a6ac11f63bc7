/** Starts the program as a person would meet it, in either runtime, on a profile that can be kept across restarts. */
import { spawn } from 'node:child_process'
import { mkdtempSync, readlinkSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { _electron, chromium, type ElectronApplication, type Page } from '@playwright/test'
import { root } from '../../../build/build.mjs'
import { maybeChromium, maybeElectron } from '../../../build/programs.mjs'
import { lacksElectronLibraries, maybeSandboxHindrance } from '../../../build/runnable.mjs'
import { canHaveDisplay, ensureDisplay } from './display.ts'

export type RuntimeKind = 'chromium' | 'electron'

export interface LaunchOptions {
  /** A profile folder to go on with; without it a fresh one is made, and removed at the end. */
  readonly profile?: string
  /** Further switches for the window's program. */
  readonly switches?: readonly string[]
  /** The page's size in CSS pixels; 1280 × 800 when it is not said. */
  readonly size?: { readonly width: number; readonly height: number }
}

/** A running program. `page` is replaced at a restart, so read it from here each time. */
export interface Launched {
  readonly kind: RuntimeKind
  readonly page: Page
  /** The profile folder, where the labs are. */
  readonly profile: string
  /** Where the page is: the origin with a slash at its end. */
  readonly address: string
  /** In Electron: the shell, for dialogs and menus. */
  readonly shell: ElectronApplication | null
  /** The messages of uncaught errors and of refusals by the page's policy, since the launch. */
  readonly complaints: readonly string[]
  /** Ends the program as a person would, and starts it again on the same profile. */
  restart(): Promise<void>
  /** Kills the program at once, as a power cut would, and starts it again on the same profile. */
  killAndRestart(): Promise<void>
  close(): Promise<void>
}

/** How long Electron may take to start, in milliseconds. */
const LONGEST_START = 90_000

interface Session {
  readonly page: Page
  readonly shell: ElectronApplication | null
  close(): Promise<void>
  kill(): void
}

/** Why a runtime cannot be tested here, null when it can. */
export function maybeMissing(kind: RuntimeKind): string | null {
  if (kind === 'chromium')
    return maybeChromium() === null ? 'no Chromium is here (PLAYWRIGHT_CHROMIUM names none)' : null
  const program = maybeElectron()
  if (lacksElectronLibraries(program)) return 'the system lacks libraries that Electron needs'
  if (program === null) return 'Electron is not here (ELECTRON_OVERRIDE_DIST_PATH names no program)'
  return canHaveDisplay() ? null : 'there is neither a display nor Xvfb'
}

/** Starts the program and waits until its page has loaded. */
export async function launch(kind: RuntimeKind, options: LaunchOptions = {}): Promise<Launched> {
  const profile = options.profile ?? mkdtempSync(join(tmpdir(), `stillroom-${kind}-`))
  const complaints: string[] = []
  const server = kind === 'chromium' ? await startOwnServer(await portOf(profile)) : null
  const address = server === null ? 'app://stillroom/' : server.address
  const begin = async (): Promise<Session> => {
    const session =
      kind === 'electron'
        ? await startElectron(profile, options)
        : await startChromium(profile, address, options)
    listen(session.page, complaints)
    await session.page.waitForLoadState('load')
    return session
  }
  let session = await begin()
  return {
    kind,
    profile,
    address,
    complaints,
    get page() {
      return session.page
    },
    get shell() {
      return session.shell
    },
    async restart() {
      await session.close()
      session = await begin()
    },
    async killAndRestart() {
      session.kill()
      await session.close().catch(() => undefined)
      session = await begin()
    },
    async close() {
      await session.close()
      server?.stop()
      if (options.profile === undefined) rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
    },
  }
}

async function startElectron(profile: string, options: LaunchOptions): Promise<Session> {
  const program = maybeElectron()
  if (program === null) throw new Error(maybeMissing('electron') ?? 'Electron is not here')
  const display = await ensureDisplay()
  const begin = (): Promise<ElectronApplication> =>
    _electron.launch({
      executablePath: program,
      args: [root, `--user-data-dir=${profile}`, ...sandboxSwitches(program), ...(options.switches ?? [])],
      env: { ...definedEnvironment(), DISPLAY: display },
      timeout: LONGEST_START,
    })
  // On a busy machine Electron’s own process for graphics may end at its start, and the window never comes.
  const shell = await begin().catch((error: unknown) => {
    console.warn(
      `Electron did not start within ${LONGEST_START / 1000} s and is started once more: ${String(error)}`,
    )
    return begin()
  })
  const page = await shell.firstWindow()
  const { width, height } = options.size ?? { width: 1280, height: 800 }
  await shell.evaluate(
    ({ BrowserWindow }, size) => {
      BrowserWindow.getAllWindows()[0]?.setContentSize(size.width, size.height)
    },
    { width, height },
  )
  return { page, shell, close: () => shell.close(), kill: () => void shell.process().kill('SIGKILL') }
}

async function startChromium(profile: string, address: string, options: LaunchOptions): Promise<Session> {
  const program = maybeChromium()
  if (program === null) throw new Error(maybeMissing('chromium') ?? 'no Chromium is here')
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: program,
    headless: true,
    viewport: options.size ?? { width: 1280, height: 800 },
    args: [...sandboxSwitches(program), ...(options.switches ?? [])],
  })
  const page = context.pages()[0] ?? (await context.newPage())
  await page.goto(address)
  return { page, shell: null, close: () => context.close(), kill: () => killByProfile(profile) }
}

/** The process that holds a profile: Chromium names it in a link, as `host-pid`. */
function killByProfile(profile: string): void {
  const holder = readlinkSync(join(profile, 'SingletonLock'))
  process.kill(Number(holder.slice(holder.lastIndexOf('-') + 1)), 'SIGKILL')
}

function listen(page: Page, complaints: string[]): void {
  page.on('pageerror', (error) => complaints.push(String(error)))
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text())
  })
}

/** The project's own server, as `npm start` runs it. */
export interface OwnServer {
  readonly address: string
  stop(): void
}

/** Starts the project's own server on a port. @throws with what it said when it does not start */
export async function startOwnServer(port: number): Promise<OwnServer> {
  const child = spawn(process.execPath, [join(root, 'build/start.mjs'), '--address', '--no-build'], {
    env: { ...definedEnvironment(), STILLROOM_PORT: String(port) },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let said = ''
  await new Promise<void>((resolve, reject) => {
    const hear = (chunk: Buffer): void => {
      said += chunk.toString()
      if (said.includes('Stillroom is at')) resolve()
    }
    child.stdout.on('data', hear)
    child.stderr.on('data', hear)
    child.once('exit', () => reject(new Error(`the server did not start: ${said}`)))
  })
  return { address: `http://127.0.0.1:${port}/`, stop: () => void child.kill() }
}

const portsOfProfiles = new Map<string, number>()

/** The port of a profile: the same at every launch, since another port would be another, empty lab. */
async function portOf(profile: string): Promise<number> {
  const port = portsOfProfiles.get(profile) ?? (await freePort())
  portsOfProfiles.set(profile, port)
  return port
}

/** A port of the loopback address that nobody uses at the moment. */
export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer()
    probe.once('error', reject)
    probe.listen(0, '127.0.0.1', () => {
      const bound = probe.address()
      probe.close(() =>
        typeof bound === 'object' && bound !== null ? resolve(bound.port) : reject(new Error('no port')),
      )
    })
  })
}

/** The switches without which a program does not start where its sandbox cannot work. */
export function sandboxSwitches(program: string): string[] {
  return maybeSandboxHindrance(program) === null ? [] : ['--no-sandbox']
}

function definedEnvironment(): Record<string, string> {
  return Object.fromEntries(
    Object.entries(process.env).filter((pair): pair is [string, string] => pair[1] !== undefined),
  )
}
