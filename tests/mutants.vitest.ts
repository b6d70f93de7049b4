import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { BaseSequencer, type TestSpecification } from 'vitest/node'

/**
 * The tests that must notice when a room of core is changed for the worse (`npm run mutants`). Of spin's, without the
 * longest, `properties`: what only it would notice counts as not noticed.
 */
const noticing = {
  numerics: [
    'tests/core/numerics/**/*.test.ts',
    'tests/reference/{nist-*,gum,rounding,ratings-{holm,percentile,welch}}.test.ts',
  ],
  spin: [
    'tests/core/spin/**/!(properties).test.ts',
    'tests/reference/{alias,gum,least-variance,turntable}.test.ts',
  ],
}

/** Seconds long: run when no quick test has noticed. */
const slow = ['alias', 'clock', 'spin-changes']

class QuickFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification) =>
      slow.findIndex(name => moduleId.endsWith(`core/spin/${name}.test.ts`))
    return files.toSorted((a, b) => place(a) - place(b))
  }
}

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    include: noticing[process.env.MUTANTS_ROOM as keyof typeof noticing] ?? noticing.numerics,
    testTimeout: 60_000,
    sequence: { sequencer: QuickFirst },
  },
})
