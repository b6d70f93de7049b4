import { fileURLToPath } from 'node:url'
import { build } from '../build.mjs'

/** Builds when the sources changed since the last time, then runs the command line in this process. */
export async function launch(words) {
  // whoever lists processes would see the words, and a connection string may hold a password
  process.title = 'whorl'
  try {
    await build()
  } catch (error) {
    process.stderr.write(`whorl: the build failed: ${error.message}\n`)
    process.exit(1)
  }
  // npm runs scripts in the checkout; file names are meant from where the person stands
  if (['whorl', 'start'].includes(process.env.npm_lifecycle_event) && process.env.INIT_CWD)
    process.chdir(process.env.INIT_CWD)
  const { main } = await import('../../dist/host/cli.js')
  await main(words)
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await launch(process.argv.slice(2))
