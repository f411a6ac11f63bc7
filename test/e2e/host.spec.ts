import { foreignPeers, foreignUse, netLogSwitches, readNetLog } from './support/netlog.ts'
import { expect, test } from './support/test.ts'
import { join } from 'node:path'
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import type { Page } from '@playwright/test'
import { quietSwitches } from '../../build/programs.mjs'
import type { HostBridge } from '../../shared/host.ts'

/** RFC 5737: an address for documentation, which no machine has. */
const elsewhere = 'http://192.0.2.1'

declare global {
  interface Window {
    stillroomHost: HostBridge
  }
}

test('the page starts without a complaint and is a secure, isolated origin of its own', async ({
  program,
}) => {
  await expect(program.page.locator('#root')).not.toBeEmpty()
  const facts = await program.page.evaluate(() => ({
    origin: location.origin,
    secure: isSecureContext,
    isolated: crossOriginIsolated,
    node: typeof (globalThis as Record<string, unknown>).require,
    process: typeof (globalThis as Record<string, unknown>).process,
  }))
  expect(facts).toEqual({
    origin: program.address.slice(0, -1),
    secure: true,
    isolated: true,
    node: 'undefined',
    process: 'undefined',
  })
  expect(program.complaints).toEqual([])
})

test('the policy forbids everything foreign, inline scripts and styles, and eval', async ({ program }) => {
  const policy = await program.page.evaluate(async () =>
    (await fetch('/')).headers.get('content-security-policy'),
  )
  expect(policy).toMatch(
    /^default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' 'nonce-[A-Za-z0-9+/=]{20,}';/,
  )
  expect(policy).not.toContain('unsafe-inline')
  expect(policy).not.toMatch(/[^-]unsafe-eval/)
  const tried = await program.page.evaluate(async () => {
    const events: string[] = []
    document.addEventListener('securitypolicyviolation', (event) => events.push(event.effectiveDirective))
    const script = document.createElement('script')
    script.textContent = 'globalThis.wasRun = true'
    const style = document.createElement('style')
    style.textContent = 'body { outline: 7px solid red }'
    const frame = document.createElement('iframe')
    frame.src = '/index.html'
    document.head.append(script, style)
    document.body.append(frame)
    // What a test driver evaluates may use eval all the same, so this is tried from a timer of the page's own.
    const evaluated = await new Promise<string>((resolve) => {
      setTimeout(() => {
        try {
          // eslint-disable-next-line no-eval -- that it is refused is the claim
          resolve(String((0, eval)('40 + 2')))
        } catch {
          resolve('refused')
        }
      })
    })
    await new Promise((resolve) => setTimeout(resolve, 200))
    const outline = getComputedStyle(document.body).outlineWidth
    return { events: [...new Set(events)].sort(), ran: 'wasRun' in globalThis, outline, evaluated }
  })
  expect(tried.events).toEqual(['frame-src', 'script-src', 'script-src-elem', 'style-src-elem'])
  expect(tried).toMatchObject({ ran: false, evaluated: 'refused' })
  expect(tried.outline).not.toBe('7px')
})

test('a style element with the nonce of this load applies, so an editor needs no unsafe-inline', async ({
  program,
}) => {
  const width = await program.page.evaluate(() => {
    const nonce = document.querySelector<HTMLMetaElement>('meta[name="style-nonce"]')?.nonce ?? ''
    const style = document.createElement('style')
    style.setAttribute('nonce', nonce)
    style.textContent = '#root { outline: 7px solid red }'
    document.head.append(style)
    return getComputedStyle(document.getElementById('root')!).outlineWidth
  })
  expect(width).toBe('7px')
  expect(program.complaints).toEqual([])
})

test('WebAssembly runs, a worker runs, and storage can be made persistent', async ({ program, runtime }) => {
  const got = await program.page.evaluate(async () => {
    // The smallest module: magic number and version (WebAssembly Core Specification 2.0, §5.5.16).
    const wasm = await WebAssembly.instantiate(new Uint8Array([0, 0x61, 0x73, 0x6d, 1, 0, 0, 0]))
    const persisted = await navigator.storage.persist()
    return { exports: Object.keys(wasm.instance.exports), persisted }
  })
  expect(got.exports).toEqual([])
  // A browser decides by itself whether to grant it; the shell always does.
  if (runtime === 'electron') expect(got.persisted).toBe(true)
})

test('nothing elsewhere can be fetched, opened or gone to', async ({ program }) => {
  const { page } = program
  const answer = await page.evaluate(async (address) => {
    const fetched = await fetch(`${address}/x`).then(
      () => 'fetched',
      () => 'refused',
    )
    const image = new Image()
    const shown = new Promise<string>((resolve) => {
      image.onload = () => resolve('shown')
      image.onerror = () => resolve('refused')
    })
    image.src = `${address}/x.png`
    const socket = await new Promise<string>((resolve) => {
      try {
        const opened = new WebSocket(address.replace('http', 'ws'))
        opened.onopen = () => resolve('opened')
        opened.onerror = () => resolve('refused')
      } catch {
        resolve('refused')
      }
    })
    return { fetched, shown: await shown, socket }
  }, elsewhere)
  expect(answer).toEqual({ fetched: 'refused', shown: 'refused', socket: 'refused' })
})

/** Makes the page reach out in every way that content can. */
async function tryEverything(page: Page): Promise<void> {
  await page.evaluate(async (address) => {
    document.body.insertAdjacentHTML(
      'beforeend',
      `<img src="${address}/a.png"><video src="${address}/v"></video>`,
    )
    document.body.insertAdjacentHTML(
      'beforeend',
      `<a id="away" ping="${address}/ping" href="${address}/away">away</a>`,
    )
    document.body.insertAdjacentHTML(
      'beforeend',
      `<div style="background: url(${address}/f.png)">styled</div>`,
    )
    for (const link of [
      `prefetch" href="${address}/b`,
      'preconnect" href="https://weather.example.org',
      'dns-prefetch" href="//time.example.org',
    ]) {
      document.head.insertAdjacentHTML('beforeend', `<link rel="${link}">`)
    }
    const area = document.createElement('textarea')
    area.spellcheck = true
    area.value = 'teh wether loger'
    document.body.append(area)
    area.focus()
    await fetch(`${address}/c`).catch(() => undefined)
    navigator.sendBeacon(`${address}/d`)
    try {
      const connection = new RTCPeerConnection({ iceServers: [{ urls: `stun:${address.slice(7)}:3478` }] })
      connection.createDataChannel('x')
      await connection.setLocalDescription(await connection.createOffer())
    } catch {
      // Refused at once is as good.
    }
    await fetch('/index.html')
  }, elsewhere)
  await page.waitForTimeout(3000)
}

test.describe('Electron only', () => {
  test.skip(({ runtime }) => runtime !== 'electron', 'about the Electron shell')

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

  test('the page gets no device, no place, no notifications and no clipboard reading', async ({
    program,
  }) => {
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

  test('a file is saved whole where the person says, and opened again up to the limit', async ({
    program,
  }) => {
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
      'copyText',
      'describe',
      'newWindow',
      'onCloseRequested',
      'openFiles',
      'readyToClose',
      'saveFile',
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

  test('the window waits for the page to save, but not for ever', async ({ start }) => {
    const program = await start()
    await program.page.evaluate(() => {
      window.stillroomHost.onCloseRequested(() => localStorage.setItem('saved-at-close', 'yes'))
    })
    const before = Date.now()
    await program.restart()
    expect(Date.now() - before).toBeLessThan(15_000)
    expect(await program.page.evaluate(() => localStorage.getItem('saved-at-close'))).toBe('yes')
  })

  test('a new window shows the same lab, and a second start adds no second program', async ({ program }) => {
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
})

test.describe('in a browser', () => {
  test.skip(({ runtime }) => runtime !== 'chromium', 'about the browser and its server')

  test('a session connects to this machine only', async ({ start }) => {
    const log = join(mkdtempSync(join(tmpdir(), 'stillroom-net-')), 'net.json')
    const program = await start({ switches: [...quietSwitches, ...netLogSwitches(log)] })
    const { address } = program
    await tryEverything(program.page)
    await program.close()
    const use = readNetLog(log)
    expect(use.addresses, 'the log holds what is asked of the network').toContain(address)
    expect(use.peers, 'the log holds the connections that were made').toContain(new URL(address).host)
    // The browser asks its maker's hosts for things of its own; no name is looked up and nothing is sent.
    expect(foreignPeers(use)).toEqual([])
    expect(foreignUse(use).filter((found) => found.startsWith('resolve'))).toEqual([])
    expect(foreignUse(use).filter((found) => found.includes(new URL(elsewhere).host))).toEqual([])
  })
})
