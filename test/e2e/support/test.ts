import { test as base } from '@playwright/test'
import { launch, maybeMissing, type Launched, type LaunchOptions, type RuntimeKind } from './launch.ts'

export { expect } from '@playwright/test'

export interface RuntimeOptions {
  runtime: RuntimeKind
}
interface Fixtures {
  /** Starts the program in this project's runtime; what a test started and left open is closed behind it. */
  start: (options?: LaunchOptions) => Promise<Launched>
  /** The program, started on a fresh profile. */
  program: Launched
}

/** Playwright's test, run once in each runtime, and skipped by name where the runtime is not here. */
export const test = base.extend<Fixtures & RuntimeOptions>({
  runtime: ['chromium', { option: true }],
  start: async ({ runtime }, use) => {
    const missing = maybeMissing(runtime)
    test.skip(missing !== null, missing ?? '')
    const open: Launched[] = []
    await use(async (options) => {
      const launched = await launch(runtime, options)
      open.push(launched)
      return launched
    })
    for (const launched of open) await launched.close().catch(() => undefined)
  },
  program: async ({ start }, use) => use(await start()),
})
