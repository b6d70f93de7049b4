import { useKeys } from '../../state/keys.ts'
import { moveCrosshair, resize } from './state/by-keys.ts'
import { goToFirst, goToLast, goToUnmarked, step } from './state/going.ts'
import { followMark, markHidden } from './state/marking.ts'
import { placeHere, takeOff } from './state/place.ts'
import { workOnRim } from './state/rim.ts'
import { useBenchStore } from './state/use-bench.ts'

const digits = ['1', '2', '3', '4']
const arrows = ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown']

/** The bench's keys: letters under the left hand, arrows and Enter under the right. */
export function useBenchKeys(): void {
  const store = useBenchStore()
  const { getState } = store
  const setWindow = (end: 'fromFrame' | 'toFrame') => {
    const { marks, frame, edit } = getState()
    edit('time', { kind: 'set-window', window: { ...marks.window, [end]: frame } })
  }
  const move = ({ key }: KeyboardEvent, isFar: boolean) => {
    const dx = key === 'ArrowRight' ? 1 : key === 'ArrowLeft' ? -1 : 0
    const dy = key === 'ArrowDown' ? 1 : key === 'ArrowUp' ? -1 : 0
    moveCrosshair(store, dx, dy, isFar)
  }

  useKeys('The hit', [
    { keys: ['c'], word: 'begins at this frame', run: () => setWindow('fromFrame') },
    { keys: ['v'], word: 'ends at this frame', run: () => setWindow('toFrame') },
    {
      keys: ['w'],
      word: 'the whole clip, or the hit alone',
      run: () => getState().set({ wholeClip: !getState().wholeClip }),
    },
  ])
  useKeys('On the ball', [
    { keys: arrows, word: 'move the crosshair, the line or the circle', run: event => move(event, false) },
    { keys: arrows.map(key => `Shift+${key}`), word: 'ten times as far', run: event => move(event, true) },
    { keys: ['Enter'], word: 'place it there; keep the circle', run: () => placeHere(store) },
    { keys: ['x'], word: 'hidden in this frame', run: () => markHidden(store) },
    { keys: ['Backspace', 'Delete'], word: 'take it off this frame', run: () => takeOff(store) },
    { keys: ['r'], word: 'the rim; again: three new points', run: () => workOnRim(store) },
    { keys: ['+', '='], word: 'larger circle; come closer', run: () => resize(store, 1) },
    { keys: ['-'], word: 'smaller circle; step back', run: () => resize(store, -1) },
    { keys: ['f'], word: 'the mark', run: () => followMark(store) },
    {
      keys: digits,
      word: 'one of several marks',
      run: event => followMark(store, getState().marks.marks[Number(event.key) - 1]?.id),
    },
  ])
  useKeys('Frames', [
    { keys: ['a'], word: 'one back', run: () => step(store, -1) },
    { keys: ['d'], word: 'one on', run: () => step(store, 1) },
    { keys: ['Shift+a'], word: 'five back', run: () => step(store, -5) },
    { keys: ['Shift+d'], word: 'five on', run: () => step(store, 5) },
    { keys: ['q'], word: 'first of the hit', run: () => goToFirst(store) },
    { keys: ['e'], word: 'last of the hit', run: () => goToLast(store) },
    { keys: ['s'], word: 'next without the mark', run: () => goToUnmarked(store) },
    {
      keys: ['Space'],
      word: 'run slowly, stop',
      run: () => getState().set({ playing: !getState().playing }),
    },
  ])
}
