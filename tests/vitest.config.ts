import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const root = fileURLToPath(new URL('..', import.meta.url))
const electronStub = fileURLToPath(new URL('./electron/electron-stub.ts', import.meta.url))
const alias = { electron: electronStub }
/** A state that is waited for may come late: a busy machine is slow, not broken. */
const patient = { poll: { timeout: 60_000 } }

/** Four groups: pure core, the host, the page's pieces, and the whole program in a real browser. */
export default defineConfig({
  root,
  test: {
    reporters: ['default', './tests/closing-line.ts'],
    coverage: { include: ['core/**'], reporter: ['text-summary', 'html'], thresholds: { lines: 95 } },
    projects: [
      {
        resolve: { alias },
        test: {
          name: 'core',
          root,
          include: ['tests/{core,reference,truth}/**/*.test.ts'],
          testTimeout: 60_000,
        },
      },
      {
        resolve: { alias },
        test: {
          name: 'host',
          expect: patient,
          root,
          include: ['tests/{electron,faults}/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          globalSetup: ['tests/built.ts'],
        },
      },
      {
        resolve: { alias },
        test: {
          name: 'renderer',
          root,
          environment: 'happy-dom',
          include: ['tests/renderer/**/*.test.{ts,tsx}'],
          testTimeout: 30_000,
        },
      },
      {
        resolve: { alias },
        test: {
          name: 'e2e',
          expect: patient,
          root,
          include: ['tests/e2e/**/*.test.ts'],
          testTimeout: 240_000,
          hookTimeout: 240_000,
          fileParallelism: false,
          globalSetup: ['tests/built.ts'],
        },
      },
    ],
  },
})
