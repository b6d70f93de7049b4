import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { _electron } from 'playwright-core'
import { expect, it } from 'vitest'

const checkout = join(import.meta.dirname, '../../..')
const electron = join(checkout, 'node_modules', 'electron')

/** Electron's own program, where it was fetched and this system can show a window. */
function program(): string | null {
  const named = join(electron, 'path.txt')
  if (!existsSync(named)) return null
  const path = join(electron, 'dist', readFileSync(named, 'utf8'))
  const display = process.platform !== 'linux' || process.env.DISPLAY || process.env.WAYLAND_DISPLAY
  return existsSync(path) && display ? path : null
}

it('opens a real window whose page has the bridge and nothing else of the host', async () => {
  const executablePath = program()
  if (executablePath === null) {
    console.log('No Electron program or no display here: the real window was NOT driven, its stand-in was.')
    return
  }
  const folder = mkdtempSync(join(tmpdir(), 'whorl-window-'))
  const args = [checkout, '--workspace', join(folder, 'workspace.sqlite')]
  if (process.getuid?.() === 0) args.unshift('--no-sandbox')
  const app = await _electron.launch({ executablePath, args })
  try {
    const page = await app.firstWindow()
    await page.waitForSelector('#root > *')
    expect(page.url()).toMatch(/^whorl:\/\/app\//)
    const seen = await page.evaluate(async () => ({
      bridge: Object.keys(globalThis.whorl ?? {}).sort(),
      info: await globalThis.whorl?.call('workspace.info', {}, 'one'),
      node: ['require', 'process', 'module', 'Buffer'].filter(name => name in globalThis),
      opened: window.open('https://example.org/') === null,
    }))
    expect(seen.bridge).toEqual(['beforeClose', 'call', 'cancel', 'on', 'pathOf'])
    expect(seen.info).toMatchObject({ ok: true, answer: { shell: 'desktop', empty: true } })
    expect(seen.node).toEqual([])
    expect(seen.opened).toBe(true)
  } finally {
    await app.close()
    rmSync(folder, { recursive: true, force: true })
  }
})
