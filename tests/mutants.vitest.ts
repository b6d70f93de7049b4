import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

/** The tests that must notice when a room of core is changed for the worse (`npm run mutants`). */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    include: [
      'tests/core/numerics/**/*.test.ts',
      'tests/reference/{nist-*,gum,rounding,ratings-{holm,percentile,welch}}.test.ts',
    ],
    testTimeout: 60_000,
  },
})
