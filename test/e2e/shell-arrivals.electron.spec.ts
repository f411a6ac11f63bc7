/** What comes into the shell from outside, and what goes out of it: by the real program, through the page's bridge. */
import { spawn } from 'node:child_process'
import {
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { _electron, type ElectronApplication, type Page } from '@playwright/test'
import { root } from '../../build/build.mjs'
import { maybeElectron } from '../../build/programs.mjs'
import type { Arrival, ChosenFile, HostBridge, HostResult } from '../../shared/host.ts'
import { ensureDisplay } from './support/display.ts'
import { maybeMissing, sandboxSwitches } from './support/launch.ts'
import { expect, test } from './support/test.ts'

declare global {
  interface Window {
    stillroomHost: HostBridge
  }
}

const link =
  'stillroom:add?address=https%3A%2F%2Fmast.example.org%2Ffans&title=Fans&selection=All+three%0Aof+them'
const handedOver = {
  kind: 'handed over',
  address: 'https://mast.example.org/fans',
  title: 'Fans',
  selection: 'All three\nof them',
}
const lab = '0198a8c0-0000-7000-8000-000000000001'

/**
 * Runs the real program after some lines of its own, which note what is answered to `takeArrivals`, since the screen and a
 * test can both ask, and which other programs the shell would have started.
 */
const noting = `
const { ipcMain, shell } = require('electron')
globalThis.noted = { arrivals: [], opened: [] }
const handle = ipcMain.handle.bind(ipcMain)
ipcMain.handle = (channel, answer) => handle(channel, async (...given) => {
  const result = await answer(...given)
  if (channel === 'stillroom:takeArrivals') globalThis.noted.arrivals.push(...result.value)
  return result
})
shell.openExternal = async (address) => void globalThis.noted.opened.push(address)
shell.openPath = async (path) => (globalThis.noted.opened.push(path), '')
require(${JSON.stringify(join(root, 'dist/app/main.cjs'))})
`

/** A folder that Electron runs in the program's place. */
function notingProgram(): string {
  const place = folder()
  writeFileSync(join(place, 'package.json'), JSON.stringify({ name: 'stillroom', main: 'start.cjs' }))
  writeFileSync(join(place, 'start.cjs'), noting)
  return place
}
interface Noted {
  readonly noted: { readonly arrivals: Arrival[]; readonly opened: string[] }
}

interface Program {
  readonly shell: ElectronApplication
  readonly page: Page
  readonly profile: string
  /** The bridge's answer to a call. */
  call(name: keyof HostBridge, argument?: unknown): Promise<HostResult<never>>
  /** All that was handed to a window so far, after asking for what is left. */
  arrivals(): Promise<readonly Arrival[]>
  /** The addresses and paths that went to other programs so far. */
  opened(): Promise<readonly string[]>
  /** Starts the program a second time with these words, and gives its exit code. */
  startAgain(...words: string[]): Promise<number | null>
}

let running: Program[] = []
const folder = (): string => mkdtempSync(join(tmpdir(), 'stillroom-arrivals-'))

async function start(words: readonly string[] = [], profile = folder()): Promise<Program> {
  const electron = maybeElectron() ?? ''
  const line = [notingProgram(), `--user-data-dir=${profile}`, ...sandboxSwitches(electron)]
  const shell = await _electron.launch({
    executablePath: electron,
    args: [...line, ...words],
    env: { ...process.env, DISPLAY: await ensureDisplay() },
  })
  const page = await shell.firstWindow()
  await page.waitForLoadState('load')
  const noted = (): Promise<Noted['noted']> =>
    shell.evaluate(() => (globalThis as unknown as { noted: Noted['noted'] }).noted)
  const program: Program = {
    shell,
    page,
    profile,
    call: (name, argument) => callIn(page, name, argument),
    arrivals: async () => {
      await page.evaluate(() => window.stillroomHost.takeArrivals())
      return (await noted()).arrivals
    },
    opened: async () => (await noted()).opened,
    startAgain: (...more) => {
      const second = spawn(electron, [...line, ...more], { stdio: 'ignore', cwd: '/', env: process.env })
      return new Promise((resolve) => second.once('exit', resolve))
    },
  }
  running.push(program)
  return program
}

function callIn(page: Page, name: keyof HostBridge, argument?: unknown): Promise<HostResult<never>> {
  return page.evaluate(
    ([called, given]) => window.stillroomHost[called as 'describe'](given) as Promise<HostResult<never>>,
    [name, argument] as const,
  )
}

/** Reads by a token, and gives the words that were read, or else the whole answer. */
function readIn(page: Page, token: string, limitBytes = 1000): Promise<unknown> {
  return page.evaluate(
    async ([given, limit]) => {
      const result = (await window.stillroomHost.readChosenFile({ token: given, limitBytes: limit })) as {
        value?: { bytes?: Uint8Array }
      }
      const bytes = result.value?.bytes
      return bytes === undefined ? result : new TextDecoder().decode(bytes)
    },
    [token, limitBytes] as const,
  )
}

function filesOf(arrivals: readonly Arrival[]): ChosenFile[] {
  return arrivals.flatMap((one) => (one.kind === 'file' ? [one.file] : []))
}

/** Answers the next dialogs for opening with these paths. */
async function answerDialogs(program: Program, paths: string[]): Promise<void> {
  await program.shell.evaluate(({ dialog }, filePaths) => {
    dialog.showOpenDialog = () => Promise.resolve({ canceled: filePaths.length === 0, filePaths })
  }, paths)
}

test.skip(({ runtime }) => maybeMissing(runtime) !== null, 'Electron is not here')
test.afterEach(async () => {
  for (const program of running) await program.shell.close().catch(() => undefined)
  running = []
})

test('files, folders and links of the first command line arrive in their order, and switches are none of them', async () => {
  const place = folder()
  mkdirSync(join(place, 'rack'))
  writeFileSync(join(place, 'fans 3.html'), '<p>Rack</p>')
  writeFileSync(join(place, 'rack/disks.md'), '# Disks')
  const words = [
    join(place, 'fans 3.html'),
    join(place, 'rack'),
    join(place, 'missing.html'),
    '--stillroom-test',
    link,
  ]
  const program = await start(words)
  const arrivals = await program.arrivals()
  expect(arrivals).toEqual([
    {
      kind: 'file',
      file: expect.objectContaining({ name: 'fans 3.html', size: 11 }) as unknown as ChosenFile,
    },
    {
      kind: 'file',
      file: expect.objectContaining({ name: 'rack/disks.md', size: 7 }) as unknown as ChosenFile,
    },
    {
      kind: 'refused',
      sentence: expect.stringContaining('missing.html” was not taken in') as unknown as string,
    },
    handedOver,
  ])
  const [page, disks] = filesOf(arrivals)
  expect(await readIn(program.page, page!.token)).toBe('<p>Rack</p>')
  expect(await readIn(program.page, disks!.token)).toBe('# Disks')
  expect(await readIn(program.page, page!.token, 5)).toMatchObject({ value: { kind: 'refused', size: 11 } })
  expect(await program.call('takeArrivals')).toEqual({ ok: true, value: [] })
})

test('a file is read by the window that was given it and by no other, until the page is loaded anew', async () => {
  const place = folder()
  writeFileSync(join(place, 'fans.html'), 'Rack')
  const program = await start([join(place, 'fans.html')])
  const { token } = filesOf(await program.arrivals())[0]!
  const opened = program.shell.waitForEvent('window')
  await program.call('newWindow')
  const second = await opened
  await second.waitForLoadState('load')
  expect(await readIn(second, token)).toMatchObject({ ok: false, code: 'not read' })
  expect(await readIn(program.page, token)).toBe('Rack')
  await program.page.reload()
  expect(await readIn(program.page, token)).toMatchObject({ ok: false, code: 'not read' })
})

test('a further start hands its files and links to one window of the running program, and ends', async () => {
  const place = folder()
  writeFileSync(join(place, 'fans.html'), 'Rack')
  const program = await start()
  const opened = program.shell.waitForEvent('window')
  await program.call('newWindow')
  const second = await opened
  await second.waitForLoadState('load')
  for (const page of [program.page, second])
    await page.evaluate(() => {
      const told = window as unknown as { told: number }
      told.told = 0
      window.stillroomHost.onArrived(() => (told.told += 1))
    })
  expect(await program.startAgain(join(place, 'fans.html'), link)).toBe(0)
  const told = async (): Promise<number> => {
    const counts = [program.page, second].map((page) =>
      page.evaluate(() => (window as unknown as { told: number }).told),
    )
    return (await Promise.all(counts)).reduce((sum, count) => sum + count, 0)
  }
  await expect.poll(told).toBe(1)
  await expect.poll(async () => (await program.arrivals()).length).toBe(2)
  const arrivals = await program.arrivals()
  expect(filesOf(arrivals).map((file) => file.name)).toEqual(['fans.html'])
  expect(arrivals[1]).toEqual(handedOver)

  // Without words nothing arrives, and the window is shown as ever.
  await program.shell.evaluate(({ BrowserWindow }) =>
    BrowserWindow.getAllWindows().forEach((one) => one.minimize()),
  )
  expect(await program.startAgain()).toBe(0)
  const isShown = (): Promise<boolean> =>
    program.shell.evaluate(({ BrowserWindow }) =>
      BrowserWindow.getAllWindows().some((one) => !one.isMinimized()),
    )
  await expect.poll(isShown).toBe(true)
  expect(await told()).toBe(1)
  expect(await program.arrivals()).toHaveLength(2)
})

test('what macOS names by its own events arrives like words', async () => {
  const place = folder()
  writeFileSync(join(place, 'fans 3.html'), 'Rack')
  const program = await start()
  const prevented = await program.shell.evaluate(
    ({ app }, [path, address]) => {
      let count = 0
      const event = { preventDefault: () => (count += 1) }
      app.emit('open-file', event, path)
      app.emit('open-url', event, address)
      return count
    },
    [join(place, 'fans 3.html'), link],
  )
  expect(prevented).toBe(2)
  await expect.poll(async () => (await program.arrivals()).length).toBe(2)
  const arrivals = await program.arrivals()
  expect(await readIn(program.page, filesOf(arrivals)[0]!.token)).toBe('Rack')
  expect(arrivals[1]).toEqual(handedOver)
})

test('a command line beyond what a further start can hand over still arrives whole and ends nothing', async () => {
  const place = folder()
  const paths = Array.from({ length: 400 }, (_, at) =>
    join(place, `${'fans-of-the-rack-'.repeat(10)}${at}.md`),
  )
  for (const path of paths) writeFileSync(path, 'Rack')
  const selection = 'rack '.repeat(5900).trim()
  const long = `stillroom:add?${new URLSearchParams({ address: 'https://mast.example.org/', selection }).toString()}`
  const program = await start()
  await program.startAgain(...paths, long)
  await expect.poll(async () => (await program.arrivals()).length, { timeout: 30_000 }).toBe(401)
  const arrivals = await program.arrivals()
  expect(filesOf(arrivals).map((file) => file.name)).toEqual(paths.map((path) => basename(path)))
  expect(arrivals[400]).toMatchObject({ kind: 'handed over', selection })
  await expect(program.page.locator('#root')).not.toBeEmpty()
})

test('a drop folder is chosen once, lists what is complete, tells changes, and lives through the folder’s absence', async () => {
  const place = folder()
  const pages = join(place, 'pages')
  mkdirSync(pages)
  writeFileSync(join(pages, 'fans.html'), 'Rack')
  writeFileSync(join(pages, 'disks.html.crdownload'), 'half')
  writeFileSync(join(place, 'secret.txt'), 'secret')
  symlinkSync(join(place, 'secret.txt'), join(pages, 'out.txt'))
  const profile = folder()
  let program = await start([], profile)
  expect(await program.call('findDropFolder', { lab })).toEqual({ ok: true, value: { kind: 'none' } })
  await answerDialogs(program, [])
  expect(await program.call('chooseDropFolder', { lab })).toEqual({ ok: true, value: { kind: 'cancelled' } })
  await answerDialogs(program, [pages])
  expect(await program.call('chooseDropFolder', { lab })).toEqual({
    ok: true,
    value: { kind: 'chosen', name: 'pages', path: pages },
  })
  const names = async (): Promise<unknown> => {
    const result = await program.call('listDropFolder', { lab })
    const { files } = (result as unknown as { value: { files?: { name: string }[] } }).value
    return files?.map((file) => file.name) ?? result
  }
  expect(await names()).toEqual(['fans.html'])

  await program.page.evaluate(() => {
    const heard = window as unknown as { changed: unknown[] }
    heard.changed = []
    window.stillroomHost.onDropFolderChanged((changed) => heard.changed.push(changed))
  })
  const changed = (): Promise<unknown[]> =>
    program.page.evaluate(() => (window as unknown as { changed: unknown[] }).changed)
  renameSync(join(pages, 'disks.html.crdownload'), join(pages, 'disks.html'))
  await expect.poll(changed).toEqual([lab])
  expect(await names()).toEqual(['disks.html', 'fans.html'])

  // Names that lead out, by their form and through a link.
  for (const name of ['../secret.txt', '/etc/hostname', 'out.txt', 'x/../../secret.txt'])
    expect(await program.call('readDropFile', { lab, name, limitBytes: 1000 })).toMatchObject({
      ok: false,
      code: 'not read',
    })
  const read = await program.page.evaluate(async (given) => {
    const argument = { lab: given, name: 'disks.html', limitBytes: 1000 }
    const result = (await window.stillroomHost.readDropFile(argument)) as { value: { bytes: Uint8Array } }
    return new TextDecoder().decode(result.value.bytes)
  }, lab)
  expect(read).toBe('half')

  rmSync(pages, { recursive: true })
  await expect.poll(async () => (await changed()).length, { timeout: 30_000 }).toBeGreaterThan(1)
  expect(await program.call('listDropFolder', { lab })).toMatchObject({
    value: { kind: 'unreachable', path: pages },
  })
  mkdirSync(pages)
  writeFileSync(join(pages, 'new.html'), 'New')
  await expect.poll(names, { timeout: 30_000 }).toEqual(['new.html'])

  await program.shell.close()
  program = await start([], profile)
  expect(await program.call('findDropFolder', { lab })).toEqual({
    ok: true,
    value: { kind: 'folder', name: 'pages', path: pages, isReachable: true },
  })
  expect(await program.call('leaveDropFolder', { lab })).toEqual({ ok: true, value: null })
  expect(await names()).toEqual({ ok: true, value: { kind: 'none' } })
})

test('chosen files and a chosen folder are read one by one, each by its token', async () => {
  const place = folder()
  mkdirSync(join(place, 'rack/deep'), { recursive: true })
  mkdirSync(join(place, '.git'))
  for (const name of ['fans.html', 'rack/deep/disks.md', '.git/config'])
    writeFileSync(join(place, name), name)
  symlinkSync('/etc', join(place, 'etc'))
  const program = await start()
  await answerDialogs(program, [place])
  const chosen = (await program.call('chooseFolder')) as unknown as { value: { files: ChosenFile[] } }
  expect(chosen.value).toMatchObject({ kind: 'chosen', name: basename(place), notes: [] })
  expect(chosen.value.files.map((file) => [file.name, file.size])).toEqual([
    ['fans.html', 9],
    ['rack/deep/disks.md', 18],
  ])
  expect(await readIn(program.page, chosen.value.files[1]!.token)).toBe('rack/deep/disks.md')

  // A folder that is swapped for a link meanwhile leads nowhere.
  renameSync(join(place, 'rack'), join(place, 'was'))
  mkdirSync(join(place, '../away/deep'), { recursive: true })
  writeFileSync(join(place, '../away/deep/disks.md'), 'secret')
  symlinkSync(join(place, '../away'), join(place, 'rack'))
  expect(await readIn(program.page, chosen.value.files[1]!.token)).toMatchObject({
    ok: false,
    code: 'not read',
  })

  await answerDialogs(program, [join(place, 'fans.html'), join(place, 'was/deep/disks.md')])
  const files = (await program.call('chooseFiles', { accept: [], multiple: true })) as unknown as {
    value: { files: ChosenFile[] }
  }
  expect(files.value.files.map((file) => file.name)).toEqual(['fans.html', 'disks.md'])
  rmSync(join(place, 'fans.html'))
  expect(await readIn(program.page, files.value.files[0]!.token)).toMatchObject({
    ok: false,
    code: 'not read',
  })
  expect(await readIn(program.page, files.value.files[1]!.token)).toBe('rack/deep/disks.md')
})

test('an original is opened by its bytes whatever its name, and never when it could run', async () => {
  const program = await start()
  const open = (name: string, signs: string): Promise<HostResult<unknown>> =>
    program.page.evaluate(
      async ([given, latin1]) => {
        const bytes = Uint8Array.from(latin1, (sign) => sign.charCodeAt(0))
        return (await window.stillroomHost.openOriginal({ bytes, name: given })) as HostResult<unknown>
      },
      [name, signs] as const,
    )
  const runs = {
    page: '<!doctype html><script>alert(1)</script>',
    program: '\x7fELF\x02\x01\x01\0\0\0\0\0',
    drawing: '<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>',
    script: '#!/bin/sh\ntouch /tmp/x\n',
    archive: 'PK\x03\x04\x14\0\0\0',
    starter: '[Desktop Entry]\nExec=sh\n',
    'program of Windows': 'MZ\x90\0\x03\0\0\0\x04\0',
  }
  for (const [what, signs] of Object.entries(runs))
    for (const name of [`${what}.pdf`, `${what}.txt`, `${what}.png`, what])
      expect(await open(name, signs), `${what} as ${name}`).toMatchObject({ ok: false, code: 'unsupported' })
  expect(await program.opened()).toEqual([])

  expect(await open('../../fans.exe', '%PDF-1.7\n')).toMatchObject({ ok: true, value: { kind: 'opened' } })
  expect(await open('notes.html', 'Fan 3 rattles.\n')).toMatchObject({ ok: true, value: { kind: 'opened' } })
  const [pdf, text] = await program.opened()
  expect(pdf).toMatch(/\/opened-originals\/fans-[0-9a-f]{8}\.pdf$/)
  expect(text).toMatch(/\/opened-originals\/notes-[0-9a-f]{8}\.txt$/)
  expect(pdf?.startsWith(program.profile)).toBe(true)
  expect(readFileSync(text!, 'utf8')).toBe('Fan 3 rattles.\n')
  expect(statSync(pdf!).mode & 0o777).toBe(0o600)
  expect(statSync(join(pdf!, '..')).mode & 0o777).toBe(0o700)

  const { profile } = program
  await program.shell.close()
  await start([], profile)
  await expect.poll(() => statSync(pdf!, { throwIfNoEntry: false })).toBeUndefined()
})

test('an address goes to the system’s browser by the one call for it, and only when it is http or https', async () => {
  const program = await start()
  expect(await program.call('openAddress', { address: 'https://mast.example.org/fans?a=b#c' })).toEqual({
    ok: true,
    value: null,
  })
  const others = [
    'file:///etc/hostname',
    'javascript:alert(1)',
    'mailto:a@example.org',
    link,
    'smb://x',
    'x',
    '',
  ]
  for (const address of others)
    expect(await program.call('openAddress', { address })).toMatchObject({ ok: false, code: 'not opened' })
  await program.page.evaluate(
    (addresses) => {
      for (const address of addresses) {
        const anchor = document.createElement('a')
        anchor.href = address
        anchor.target = address.length % 2 === 0 ? '_blank' : ''
        document.body.append(anchor)
        anchor.click()
        window.open(address)
      }
    },
    [...others, 'https://mast.example.org/away'],
  )
  await program.page.waitForTimeout(500)
  expect(await program.opened()).toEqual(['https://mast.example.org/fans?a=b#c'])
  expect(program.page.url()).toBe('app://stillroom/')
  expect(await program.arrivals()).toEqual([])
})
