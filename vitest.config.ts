import { defineConfig } from 'vitest/config'

/** Tests that start the built program or a server, and those that draw: each file on its own. The others share what they load. */
const APART = ['program', 'cli', 'ui', 'support'].map((folder) => `tests/${folder}/*.test.{ts,tsx}`)

export default defineConfig({
  oxc: { jsx: { runtime: 'automatic' } },
  test: {
    environment: 'node',
    // What is waited for has its own, shorter deadline, which tells what was seen instead.
    testTimeout: 120_000,
    // Setting a test up may start a server: on a busy machine that takes longer than the usual ten seconds.
    hookTimeout: 120_000,
    // Every core: much of a test's time at a terminal is waiting.
    maxWorkers: '100%',
    projects: [
      { extends: true, test: { name: 'apart', include: APART } },
      {
        extends: true,
        test: { name: 'together', include: ['tests/**/*.test.{ts,tsx}'], exclude: APART, isolate: false },
      },
    ],
  },
})
