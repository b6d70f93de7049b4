import { useBench } from '../state/use-bench.ts'

/** Takes the last step back, and brings it again. */
export function UndoSteps() {
  const canUndo = useBench(state => state.canUndo)
  const canRedo = useBench(state => state.canRedo)
  const undo = useBench(state => state.undo)
  const redo = useBench(state => state.redo)
  return (
    <span className="undo-steps">
      <button type="button" className="plain" disabled={!canUndo} onClick={undo}>
        undo
      </button>
      <button type="button" className="plain" disabled={!canRedo} onClick={redo}>
        redo
      </button>
    </span>
  )
}
