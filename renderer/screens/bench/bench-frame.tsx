import { type ReactNode, useRef } from 'react'
import { useLetterScale } from '../../components/use-letter-scale.ts'
import { useSize } from './use-size.ts'

/** In less, or with larger letters, the reading stands beneath the rest. */
const narrowestPx = 768

/** The bench's outline. It alone follows the window's size: what is on the bench is not drawn anew for it. */
export function BenchFrame({ children }: { children: ReactNode }) {
  const element = useRef<HTMLDivElement>(null)
  const { width } = useSize(element)
  const scale = useLetterScale(element)
  return (
    <div className="bench" data-narrow={width > 0 && width < narrowestPx * scale} ref={element}>
      {children}
    </div>
  )
}
