import type { GuideWay } from './check-ways.ts'

/** A few lines that show what is filmed and where the camera stands. */
export function CheckDrawing({ way }: { way: GuideWay }) {
  return (
    <svg className="check-drawing" viewBox="0 0 240 120" aria-hidden="true">
      <g className="check-drawing-camera">
        <rect x="12" y="44" width="34" height="24" rx="3" />
        <path d="M46 51 l10 -5 v20 l-10 -5 Z M29 68 v10 M29 78 l-13 32 M29 78 l13 32" />
      </g>
      <path className="check-drawing-sight" d="M58 50 L104 18 M58 62 L104 102" />
      {subjects[way]}
    </svg>
  )
}

const floor = <path d="M110 110 H232" />
const ballAt = (x: number, y: number) => <circle cx={x} cy={y} r="10" />

const subjects: Record<GuideWay, React.ReactNode> = {
  turntable: (
    <>
      <ellipse cx="172" cy="64" rx="54" ry="26" />
      <circle cx="172" cy="64" r="2.5" className="check-drawing-full" />
      <ellipse cx="200" cy="58" rx="9" ry="4.5" className="check-drawing-full" />
      <path d="M150 98 a58 30 0 0 0 50 -2 m-8 -5 l9 5 l-7 7" />
    </>
  ),
  lamp: (
    <>
      <path d="M172 8 v14 M158 36 a14 14 0 0 1 28 0 Z" />
      <path d="M150 60 l-10 14 M172 50 v18 M194 60 l10 14" className="check-drawing-sight" />
      <path d="M124 100 q8 -20 16 0 t16 0 t16 0 t16 0 t16 0 t16 0" />
    </>
  ),
  counter: (
    <>
      <rect x="122" y="36" width="100" height="48" rx="4" />
      <text x="172" y="70" textAnchor="middle">
        07.42
      </text>
    </>
  ),
  drop: (
    <>
      {floor}
      {ballAt(172, 18)}
      {ballAt(172, 42)}
      {ballAt(172, 84)}
      <path d="M194 20 v70 m-5 -8 l5 9 l5 -9" />
    </>
  ),
  spin: (
    <>
      <circle cx="172" cy="60" r="40" />
      <path
        d="M172 60 L172 20 A40 40 0 0 1 207 40 Z M172 60 L137 80 A40 40 0 0 1 137 40 Z"
        className="check-drawing-full"
      />
      <path d="M150 106 a50 50 0 0 0 46 -2 m-9 -3 l9 3 l-4 8" />
    </>
  ),
  bands: (
    <>
      <rect x="118" y="14" width="108" height="92" />
      <path d="M118 30 h108 M118 60 h108 M118 90 h108" className="check-drawing-wide" />
    </>
  ),
  edge: (
    <>
      <rect x="118" y="14" width="108" height="92" />
      <path d="M118 14 H168 L180 106 H118 Z" className="check-drawing-full" />
      <path d="M190 60 h26 m-8 -5 l9 5 l-9 5" />
    </>
  ),
  ball: (
    <>
      {floor}
      <circle cx="184" cy="92" r="18" />
      <path d="M58 116 H184 M58 111 v9 M184 111 v9" />
    </>
  ),
  width: (
    <>
      <path d="M110 22 V100 M104 22 h12 M104 100 h12" />
      <path d="M110 34 h6 M110 46 h6 M110 58 h6 M110 70 h6 M110 82 h6" />
      <path d="M58 116 H110 M58 111 v9 M110 111 v9" />
    </>
  ),
  view: <path d="M84 33 A36 36 0 0 1 84 86 M120 60 h4 M132 60 h4 M144 60 h4" />,
}
