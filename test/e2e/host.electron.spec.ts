import { spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { root } from '../../build/build.mjs'
import { maybeElectron } from '../../build/programs.mjs'
import { closeWaitMs, type HostBridge } from '../../shared/host.ts'
import { sandboxSwitches } from './support/launch.ts'
import { foreignUse, netLogSwitches, readNetLog } from './support/netlog.ts'
import { elsewhere, tryEverything } from './support/reach.ts'
import { expect, test } from './support/test.ts'

declare global {
  interface Window {
    stillroomHost: HostBridge
  }
}

test('no window opens and the page cannot be left', async ({ program }) => {
  const { page } = program
  expect(await page.evaluate((address) => window.open(address) === null, elsewhere)).toBe(true)
  await page
    .evaluate((address) => {
      const anchor = document.createElement('a')
      anchor.href = `${address}/away`
      document.body.append(anchor)
      anchor.click()
      location.assign('file:///etc/hostname')
      location.assign('app://stillroom/assets/none.html')
    }, elsewhere)
    .catch(() => undefined)
  await page.waitForTimeout(300)
  expect(page.url()).toBe('app://stillroom/')
  const windows = await program.shell?.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows().length)
  expect(windows).toBe(1)
})

test('the page gets no device, no place, no notifications and no clipboard reading', async ({ program }) => {
  const states = await program.page.evaluate(async () => {
    const names = ['camera', 'microphone', 'geolocation', 'notifications', 'clipboard-read', 'midi']
    const asked = names.map((name) => navigator.permissions.query({ name: name as PermissionName }))
    return (await Promise.all(asked)).map((status) => status.state)
  })
  expect(new Set(states)).toEqual(new Set(['denied']))
})

test('the protocol serves the page and no other file', async ({ program }) => {
  const statuses = await program.page.evaluate(async () => {
    const paths = [
      '/index.html',
      '/../package.json',
      '/%2e%2e/package.json',
      '/..%2fapp%2fmain.cjs',
      '/assets/',
      '/.env',
      '/a\\b.js',
    ]
    return Promise.all(paths.map(async (path) => (await fetch(path)).status))
  })
  expect(statuses).toEqual([200, 404, 404, 404, 404, 404, 404])
  const posted = await program.page.evaluate(
    async () => (await fetch('/', { method: 'POST', body: 'x' })).status,
  )
  expect(posted).toBe(405)
})

test('a file is saved whole where the person says, and opened again up to the limit', async ({ program }) => {
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-files-'))
  const target = join(folder, 'weather-logger.md')
  const large = join(folder, 'large.txt')
  writeFileSync(large, 'x'.repeat(2001))
  await program.shell?.evaluate(
    ({ dialog }, paths) => {
      dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: paths[0] as string })
      dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: paths })
    },
    [target, large],
  )
  const saved = await program.page.evaluate(() =>
    window.stillroomHost.saveFile({
      suggestedName: 'weather-logger.md',
      mediaType: 'text/markdown; charset=utf-8',
      bytes: new TextEncoder().encode('# Weather logger\n'),
    }),
  )
  expect(saved).toEqual({ ok: true, value: { kind: 'saved', name: 'weather-logger.md' } })
  expect(readFileSync(target, 'utf8')).toBe('# Weather logger\n')
  const opened = await program.page.evaluate(async () => {
    const result = (await window.stillroomHost.openFiles({
      accept: ['.md'],
      multiple: true,
      limitBytes: 2000,
    })) as {
      value: { files: { kind: string; name: string; bytes?: Uint8Array; sentence?: string }[] }
    }
    return result.value.files.map((file) => [file.kind, file.name, file.bytes?.length ?? file.sentence])
  })
  expect(opened).toEqual([
    ['read', 'weather-logger.md', 17],
    ['refused', 'large.txt', expect.stringContaining('“large.txt” holds 0.1 MB, more than the 0.1 MB')],
  ])
})

test('a call with a payload that is not as agreed is refused and does nothing', async ({ program }) => {
  const refusals = await program.page.evaluate(async () => {
    const host = window.stillroomHost
    const calls = [
      host.saveFile({
        suggestedName: '../../etc/passwd',
        mediaType: 'text/plain',
        bytes: new Uint8Array(1),
      }),
      host.saveFile({ suggestedName: 'a.txt', mediaType: 'text/plain', bytes: 'text' }),
      host.openFiles({ accept: ['*'], multiple: true, limitBytes: 1 }),
      host.openFiles({ accept: [], multiple: true, limitBytes: 1e12 }),
      host.copyText({ text: 1 }),
      host.chooseFiles({ accept: ['.md'], multiple: true, folder: '/etc' }),
      host.chooseDropFolder({ lab: '0198a8c0-0000-7000-8000-000000000001', path: '/etc' }),
      host.readDropFile({ lab: '../labs', name: 'x', limitBytes: 1 }),
      host.readChosenFile({ token: '/etc/hostname', limitBytes: 1 }),
      host.readChosenPart({ token: '0'.repeat(32), offset: 0, length: 1e9 }),
      host.chooseLog({ lab: '0198a8c0-0000-7000-8000-000000000001', timingOf: null, path: '/etc/hostname' }),
      host.followLog({ lab: '0198a8c0-0000-7000-8000-000000000001', log: '/etc/hostname', after: null }),
      host.readFollowed({ following: '../x' }),
      host.takeArrivals({ path: '/etc' }),
      host.openAddress({ address: `https://mast.example.org/${'a'.repeat(8000)}` }),
      host.openOriginal({ bytes: new Uint8Array(1), name: 'a.txt', ending: '.sh' }),
      host.openOriginal({ path: '/etc/hostname', name: 'a.txt' }),
      host.printPage({ to: 'printer', paper: 'A4', suggestedName: '../../etc/passwd' }),
      host.printPage({ to: '/dev/lp0', paper: 'A4', suggestedName: 'a.pdf' }),
      host.beginRewriting({ path: '/etc' }),
      host.finishRewriting({ files: '../labs' }),
      host.describe('more'),
    ]
    return Promise.all(
      calls.map((call) =>
        call.then(
          () => 'answered',
          (error: unknown) => String(error),
        ),
      ),
    )
  })
  for (const refusal of refusals) expect(refusal).toContain('is not as agreed')
  expect(Object.keys(await program.page.evaluate(() => ({ ...window.stillroomHost }))).sort()).toEqual([
    'beginRewriting',
    'chooseDropFolder',
    'chooseFiles',
    'chooseFolder',
    'chooseLog',
    'copyText',
    'describe',
    'endRewriting',
    'findClipboardAddress',
    'findDropFolder',
    'findRewriting',
    'finishRewriting',
    'followLog',
    'forgetLog',
    'leaveDropFolder',
    'leaveRewriting',
    'listDropFolder',
    'listLogs',
    'newWindow',
    'onArrived',
    'onCloseRequested',
    'onDropFolderChanged',
    'openAddress',
    'openFiles',
    'openOriginal',
    'printPage',
    'readChosenFile',
    'readChosenPart',
    'readClipboard',
    'readDropFile',
    'readFollowed',
    'readRewriting',
    'readyToClose',
    'saveFile',
    'stopFollowing',
    'takeArrivals',
    'writeRewriting',
  ])
})

test('undo and redo keys reach the page, and are in no menu', async ({ program }) => {
  const roles = await program.shell?.evaluate(({ Menu }) => {
    const items = Menu.getApplicationMenu()?.items ?? []
    return items.flatMap((item) => item.submenu?.items.map((inner) => inner.role ?? '') ?? [])
  })
  expect(roles).toContain('copy')
  expect(roles).not.toContain('undo')
  expect(roles).not.toContain('redo')
})

test('the page is told before its window closes', async ({ start }) => {
  const program = await start()
  await program.page.evaluate(() => {
    window.stillroomHost.onCloseRequested(() => localStorage.setItem('saved-at-close', 'yes'))
  })
  await program.restart()
  expect(await program.page.evaluate(() => localStorage.getItem('saved-at-close'))).toBe('yes')
})

test('a new window shows the same lab', async ({ program }) => {
  const opened = program.shell?.waitForEvent('window')
  await program.page.evaluate(() => {
    localStorage.setItem('mark', 'one store')
    return window.stillroomHost.newWindow()
  })
  const second = await opened
  await second?.waitForLoadState('load')
  expect(await second?.evaluate(() => localStorage.getItem('mark'))).toBe('one store')
})

test('a whole session leaves the machine alone, whatever the page is made to try', async ({ start }) => {
  const log = join(mkdtempSync(join(tmpdir(), 'stillroom-net-')), 'net.json')
  const program = await start({ switches: netLogSwitches(log) })
  await tryEverything(program.page)
  // A session without our rules, to see that a request which is made does stand in the log.
  await program.shell?.evaluate(async ({ session }, address) => {
    await session
      .fromPartition('control')
      .fetch(`${address}/control`)
      .catch(() => undefined)
  }, elsewhere)
  await program.close()
  const use = readNetLog(log)
  expect(use.addresses, 'the log holds what is asked of the network').toContain(`${elsewhere}/control`)
  expect(foreignUse(use).filter((found) => !found.includes('/control'))).toEqual([])
})

test('a page that does not answer keeps its window open for a bounded time', async ({ program }) => {
  const { page, shell } = program
  await page.evaluate(
    () =>
      void setTimeout(() => {
        for (;;);
      }, 50),
  )
  await page.waitForTimeout(200)
  const begun = Date.now()
  const ended = new Promise((resolve) => shell?.process().once('exit', resolve))
  await shell?.evaluate(({ app }) => app.quit())
  await ended
  expect(Date.now() - begun).toBeGreaterThan(closeWaitMs - 500)
  expect(Date.now() - begun).toBeLessThan(closeWaitMs + 10_000)
})

test('a second start on the same labs ends at once and leaves the first one running', async ({ program }) => {
  const electron = maybeElectron() ?? ''
  const switches = [`--user-data-dir=${program.profile}`, ...sandboxSwitches(electron)]
  const second = spawn(electron, [root, ...switches], { stdio: 'ignore' })
  const code = await new Promise((resolve) => second.once('exit', resolve))
  expect(code).toBe(0)
  const windows = await program.shell?.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows().length)
  expect(windows).toBe(1)
  await expect(program.page.locator('#root')).not.toBeEmpty()
})

test('a page whose process died is shown again with its lab', async ({ program }) => {
  const { page, shell } = program
  await page.evaluate(() => localStorage.setItem('mark', 'still here'))
  await page.waitForTimeout(2100)
  const mark = await shell?.evaluate(async ({ BrowserWindow }) => {
    const contents = BrowserWindow.getAllWindows()[0]!.webContents
    const loaded = new Promise<void>((resolve) => contents.once('did-finish-load', () => resolve()))
    contents.forcefullyCrashRenderer()
    await loaded
    return contents.executeJavaScript(`localStorage.getItem('mark')`) as Promise<string>
  })
  expect(mark).toBe('still here')
})
