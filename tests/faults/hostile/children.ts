import { readdirSync, readFileSync } from 'node:fs'

/** What Linux says of the programs that this process starts (/proc, proc(5)); nothing is known elsewhere. */
const isKnown = process.platform === 'linux'
/** Of the times in /proc/PID/stat: 100 a second in every build of Linux that Node runs on (USER_HZ). */
const ticksASecond = 100

/** Watches the programs that this process starts and keeps the most memory that one of them ever held (VmHWM). */
export function childrenPeakMegabytes(): { stop: () => number } {
  let peak = 0
  const look = () => {
    for (const pid of childrenOf(process.pid)) {
      const kilobytes = /^VmHWM:\s+(\d+) kB/m.exec(textOf(`/proc/${pid}/status`))?.[1]
      peak = Math.max(peak, Number(kilobytes ?? 0) / 1000)
    }
  }
  const timer = isKnown ? setInterval(look, 20) : undefined
  return {
    stop: () => {
      clearInterval(timer)
      return peak
    },
  }
}

/** Processor time of all programs that this process started, those that ended with them; NaN where it is not known. */
export function childrenProcessorSeconds(): number {
  if (!isKnown) return Number.NaN
  const [, , ownEnded] = timesOf(process.pid)
  const living = childrenOf(process.pid).map(pid => timesOf(pid).reduce((sum, time) => sum + time, 0))
  return living.reduce((sum, time) => sum + time, ownEnded)
}

/** Seconds in user mode and in the kernel, and of children that ended and were waited for; 0 of one that is gone. */
function timesOf(pid: number | string): [user: number, kernel: number, ended: number] {
  const text = textOf(`/proc/${pid}/stat`)
  // The name stands second, in brackets, and may hold blanks: what follows it begins with the third field.
  const ticks = text
    .slice(text.lastIndexOf(')') + 2)
    .split(' ')
    .map(Number)
  const [user = 0, kernel = 0, endedUser = 0, endedKernel = 0] = ticks.slice(11, 15)
  return [user / ticksASecond, kernel / ticksASecond, (endedUser + endedKernel) / ticksASecond]
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
