import { execFileSync } from 'node:child_process'
import { appendFileSync } from 'node:fs'
import { join } from 'node:path'
import { onTestFinished } from 'vitest'
import { temporaryFolder } from './temporary.ts'

/** A disk of 600 kB, where this person may mount one (root on Linux); else null. */
export function smallDisk(): string | null {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return null
  const folder = temporaryFolder()
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=600k', 'tmpfs', folder], { stdio: 'ignore' })
  } catch {
    return null
  }
  onTestFinished(() => void execFileSync('umount', ['-l', folder]))
  return folder
}

/** Leaves no room at all on a small disk. */
export function fillUp(disk: string): void {
  for (const bytes of [4096, 1]) {
    try {
      for (;;) appendFileSync(join(disk, 'filler'), Buffer.alloc(bytes))
    } catch {}
  }
}
