import { defineConfig } from 'vitest/config'

export default defineConfig({
  oxc: { jsx: { runtime: 'automatic' } },
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    environment: 'node',
    testTimeout: 60_000,
    // Setting a test up may start a server: on a busy machine that takes longer than the usual ten seconds.
    hookTimeout: 60_000,
    // Every core: much of a test's time at a terminal is waiting.
    maxWorkers: '100%',
  },
})
