import { defineConfig } from 'vitest/config'

/** Unit tests mirror the tree in test/unit; test/standards checks against the world outside. Both run in plain Node. */
export default defineConfig({
  define: { __STILLROOM_VERSION__: JSON.stringify('0.0.0-test') },
  test: {
    include: ['test/unit/**/*.test.{ts,tsx}', 'test/standards/**/*.test.{ts,tsx}'],
    environment: 'node',
    setupFiles: ['test/unit/support/seed.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // Speeds are compared side by side within one test, so files may run beside each other.
    pool: 'forks',
  },
})
