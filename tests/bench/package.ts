import { execFileSync, spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { extractAll, getRawHeader } from '@electron/asar'
import { root } from '../e2e/served.ts'

/**
 * `npm run package:check`: packs the program as `npm run package -- --dir` does, around a stand-in for Electron's
 * program (the real one has to be fetched), and looks at what came out: the fuses, the archive, and whether what
 * it holds, and nothing else, can open the app and read a clip. Linux only; a minute.
 */
const folder = mkdtempSync(join(tmpdir(), 'whorl-package-'))
const electron = join(folder, 'electron-dist')

/** The wire that fuses are burnt into: a sentinel, a version, a count, one letter each (@electron/fuses). */
const sentinel = 'dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX'
const asShipped = '101011001'
const wanted = '010011001'
const names = [
  ...['run as Node', 'cookie encryption', 'NODE_OPTIONS', 'inspector', 'archive integrity', 'archive only'],
  ...['own snapshot', 'file rights', 'WebAssembly trap handlers'],
]

function standInElectron(): void {
  for (const name of ['resources', 'locales']) mkdirSync(join(electron, name), { recursive: true })
  const { version } = JSON.parse(readFileSync(join(root, 'node_modules/electron/package.json'), 'utf8'))
  for (const name of ['LICENSE', 'LICENSES.chromium.html', 'chrome-sandbox', 'locales/en-US.pak'])
    writeFileSync(join(electron, name), '')
  writeFileSync(join(electron, 'version'), version)
  const wire = [Buffer.from(sentinel), Buffer.from([1, asShipped.length]), Buffer.from(asShipped)]
  writeFileSync(join(electron, 'electron'), Buffer.concat([Buffer.from('#!/bin/sh\n'), ...wire]), {
    mode: 0o755,
  })
}

function fusesOf(program: string): string {
  const bytes = readFileSync(program)
  const at = bytes.indexOf(sentinel) + sentinel.length + 2
  return bytes.toString('latin1', at, at + asShipped.length)
}

let failed = false
function tell(what: string, isGood: boolean): void {
  console.log(`${isGood ? 'good' : 'BAD '}  ${what}`)
  failed ||= !isGood
}

try {
  standInElectron()
  execFileSync(process.execPath, [join(root, 'electron/package.mjs'), '--dir'], {
    env: { ...process.env, WHORL_ELECTRON_DIST: electron, WHORL_OUT: join(folder, 'out') },
    stdio: ['ignore', 'ignore', 'inherit'],
  })
  const packed = join(folder, 'out', 'linux-unpacked')
  const fuses = fusesOf(join(packed, 'whorl'))
  for (const [i, name] of names.entries())
    tell(`fuse ${name}: ${fuses[i] === '1' ? 'on' : 'off'}`, fuses[i] === wanted[i])

  const archive = join(packed, 'resources', 'app.asar')
  const { headerString } = getRawHeader(archive)
  tell(
    'every file of the archive has its hash',
    !/"size":\d+,"offset":"\d+"(?!,"integrity")/.test(headerString),
  )
  const out = join(folder, 'app')
  extractAll(archive, out)
  const cli = `import(${JSON.stringify(join(out, 'dist/host/cli.js'))}).then(({ main }) => main(['open', '--smoke']))`
  const { status, stdout, stderr } = spawnSync(process.execPath, ['-e', cli], {
    env: { ...process.env, DISPLAY: '', WAYLAND_DISPLAY: '' },
    encoding: 'utf8',
  })
  tell(`what the archive holds works alone: ${(stdout || stderr).trim()}`, status === 0)
} finally {
  rmSync(folder, { recursive: true, force: true })
}
process.exit(failed ? 1 : 0)
