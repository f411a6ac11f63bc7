import { defineConfig } from '@playwright/test'
import type { RuntimeOptions } from './test/e2e/support/test.ts'

/**
 * The main job, from the outside, in both runtimes: the same specs run in a Chromium and in an Electron window.
 * A spec about one of them alone says so in its name: `*.electron.spec.ts`, `*.chromium.spec.ts`.
 */
export default defineConfig<RuntimeOptions>({
  testDir: 'test/e2e',
  outputDir: 'test-results',
  globalSetup: './test/e2e/support/build-first.ts',
  timeout: 240_000,
  expect: { timeout: 20_000 },
  // One window at a time: on two cores a second one makes timings uncertain, and drags need the front window.
  workers: 1,
  retries: 0,
  forbidOnly: process.env.CI !== undefined,
  reporter: [['list']],
  use: { screenshot: 'only-on-failure' },
  projects: [
    { name: 'chromium', use: { runtime: 'chromium' }, testIgnore: '**/*.electron.spec.ts' },
    { name: 'electron', use: { runtime: 'electron' }, testIgnore: '**/*.chromium.spec.ts' },
  ],
})
