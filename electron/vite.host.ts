import { readdirSync } from 'node:fs'
import { basename, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vite'

const here = fileURLToPath(new URL('.', import.meta.url))

/** Every `NAME.worker.ts` of the host becomes dist/host/NAME.worker.js. */
const workers = readdirSync(here, { recursive: true, encoding: 'utf8' })
  .filter(path => path.endsWith('.worker.ts'))
  .map(path => [basename(path, '.ts'), join(here, path)])

/** The host: the desktop's main process, the command line and the workers. Packages stay in node_modules. */
export default defineConfig({
  root: here,
  publicDir: false,
  build: {
    ssr: true,
    target: 'node20',
    outDir: '../dist/host',
    emptyOutDir: true,
    sourcemap: true,
    rolldownOptions: {
      input: {
        main: join(here, 'main/main.ts'),
        cli: join(here, 'cli/cli.ts'),
        ...Object.fromEntries(workers),
      },
      external: ['electron'],
      output: { entryFileNames: '[name].js', chunkFileNames: 'pieces/[name]-[hash].js' },
    },
  },
})
