import {
  closeSync,
  fchmodSync,
  fsyncSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'

/**
 * Puts bytes in a file's place in one step: written beside it, synced, then renamed over it. Whoever looks
 * meanwhile sees the old or the new, and a full disk or a kill leaves the old.
 */
export function replaceFile(path: string, bytes: Uint8Array): void {
  const beside = `${path}.${process.pid}.tmp`
  try {
    const file = openSync(beside, 'w')
    try {
      const old = statSync(path, { throwIfNoEntry: false })
      if (old) fchmodSync(file, old.mode)
      writeFileSync(file, bytes)
      fsyncSync(file)
    } finally {
      closeSync(file)
    }
    renameSync(beside, path)
  } catch (thrown) {
    rmSync(beside, { force: true })
    throw thrown
  }
}
