import { elsewhere } from './support/reach.ts'
import { expect, test } from './support/test.ts'

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

test('WebAssembly runs, and storage can be made persistent', async ({ program, runtime }) => {
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

test('what was committed with strict durability is there after the program is killed', async ({
  program,
}) => {
  const open = `new Promise((resolve, reject) => {
    const opening = indexedDB.open('kill-test', 1)
    opening.onupgradeneeded = () => opening.result.createObjectStore('words')
    opening.onsuccess = () => resolve(opening.result)
    opening.onerror = () => reject(opening.error)
  })`
  await program.page.evaluate(`(async () => {
    const transaction = (await ${open}).transaction('words', 'readwrite', { durability: 'strict' })
    transaction.objectStore('words').put('kept', 1)
    await new Promise((resolve) => (transaction.oncomplete = resolve))
  })()`)
  await program.killAndRestart()
  const found = await program.page.evaluate(`(async () => {
    const asked = (await ${open}).transaction('words').objectStore('words').get(1)
    return new Promise((resolve) => (asked.onsuccess = () => resolve(asked.result)))
  })()`)
  expect(found).toBe('kept')
})
