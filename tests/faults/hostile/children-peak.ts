import { readdirSync, readFileSync } from 'node:fs'

/**
 * Watches the programs that this process starts and keeps the most memory that one of them ever held, by
 * what Linux says of a process (VmHWM in /proc/PID/status); 0 elsewhere.
 */
export function childrenPeakMegabytes(): { stop: () => number } {
  let peak = 0
  const look = () => {
    for (const pid of childrenOf(process.pid)) {
      const kilobytes = /^VmHWM:\s+(\d+) kB/m.exec(textOf(`/proc/${pid}/status`))?.[1]
      peak = Math.max(peak, Number(kilobytes ?? 0) / 1000)
    }
  }
  const timer = process.platform === 'linux' ? setInterval(look, 20) : undefined
  return {
    stop: () => {
      clearInterval(timer)
      return peak
    },
  }
}

function childrenOf(pid: number): string[] {
  try {
    return readdirSync(`/proc/${pid}/task`).flatMap(task =>
      textOf(`/proc/${pid}/task/${task}/children`).split(' ').filter(Boolean),
    )
  } catch {
    return []
  }
}

function textOf(path: string): string {
  try {
    return readFileSync(path, 'utf8')
  } catch {
    return ''
  }
}
