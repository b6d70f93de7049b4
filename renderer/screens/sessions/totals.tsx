import { counted } from '../../components/counted.ts'

/** All sessions together, in one quiet line. */
export function Totals({ sessions }: { sessions: { clips: number; hits: number; accepted: number }[] }) {
  const sum = (of: 'clips' | 'hits' | 'accepted') => sessions.reduce((total, each) => total + each[of], 0)
  return (
    <p className="quiet">
      {counted(sum('clips'), 'clip')}, {counted(sum('hits'), 'hit')}, {sum('accepted')} accepted
    </p>
  )
}
