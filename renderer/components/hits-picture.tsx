import './hits-picture.css'
import { counted } from './counted.ts'

type HitsPictureProps = { hits: number; accepted: number; heldBack?: number; widthPx?: number }

/** How far the work is, as a row of pegs, one a hit: accepted stand full, held back half, open ones are hollow. */
export function HitsPicture({ hits, accepted, heldBack = 0, widthPx = 168 }: HitsPictureProps) {
  const name =
    hits === 0
      ? 'no hits yet'
      : `${accepted} of ${counted(hits, 'hit')} accepted${heldBack > 0 ? `, ${heldBack} held back` : ''}`
  const step = Math.min(10, hits === 0 ? 10 : widthPx / hits)
  // Pegs too thin to be told apart close up into one bar.
  const gap = step >= 4 ? Math.min(3, step * 0.35) : 0
  const height = (index: number) => (index < accepted ? 12 : index < accepted + heldBack ? 6 : 0)
  return (
    <svg className="hits-picture" width={widthPx} height="14" role="img" aria-label={name}>
      <line
        x1="0"
        x2={hits === 0 ? widthPx : Math.max(step * hits - gap, 0)}
        y1="13.5"
        y2="13.5"
        data-empty={hits === 0}
      />
      {gap > 0
        ? Array.from({ length: hits }, (_, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a peg is nothing but its place.
            <Peg key={index} x={index * step} width={step - gap} height={height(index)} />
          ))
        : [
            <Peg key="accepted" x={0} width={step * accepted} height={12} />,
            <Peg key="held" x={step * accepted} width={step * heldBack} height={6} />,
          ]}
    </svg>
  )
}

function Peg({ x, width, height }: { x: number; width: number; height: number }) {
  return height > 0 ? (
    <rect x={x} y={13 - height} width={width} height={height} />
  ) : (
    <rect className="hits-picture-open" x={x + 0.5} y={1.5} width={Math.max(width - 1, 0.5)} height={11} />
  )
}
