import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vite'

const here = fileURLToPath(new URL('.', import.meta.url))

/** The preload of the desktop's window: one CommonJS file, as a sandboxed preload must be. */
export default defineConfig({
  root: here,
  publicDir: false,
  build: {
    ssr: true,
    target: 'node20',
    outDir: '../dist/host',
    emptyOutDir: false,
    rolldownOptions: {
      input: { preload: join(here, 'preload/preload.ts') },
      external: ['electron'],
      output: { format: 'cjs', entryFileNames: '[name].cjs' },
    },
  },
})
