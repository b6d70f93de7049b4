import { degPerFrameOfRpm } from '../../../core/units/rate.ts'

const rpm = 2330
const fps = 240
const frames = 7
const perFrameDeg = degPerFrameOfRpm(rpm, fps)
const width = 960
const pitch = 108
const left = 60
const top = 56
const plotTop = 128
const degToPx = 100 / (perFrameDeg * (frames - 1))

/** What this program does, as one drawing: a ball seen in seven frames, and its bearing against time. */
export function TurningBall() {
  const y = (frame: number) => plotTop + 100 - frame * perFrameDeg * degToPx
  const x = (frame: number) => left + frame * pitch
  const each = Array.from({ length: frames }, (_, frame) => frame)
  return (
    <svg
      className="turning-ball"
      viewBox={`0 0 ${width} 250`}
      role="img"
      aria-labelledby="turning-ball-title"
    >
      <title id="turning-ball-title">
        A ball at {rpm} rpm, filmed at {fps} frames a second, turns {perFrameDeg.toFixed(1)}° from frame to
        frame.
      </title>
      <line
        className="turning-ball-axis"
        x1={left - 44}
        x2={x(frames - 1) + 44}
        y1={plotTop + 116}
        y2={plotTop + 116}
      />
      <line className="turning-ball-fit" x1={x(0)} y1={y(0)} x2={x(frames - 1)} y2={y(frames - 1)} />
      {each.map(frame => (
        <g key={frame}>
          <line className="turning-ball-drop" x1={x(frame)} x2={x(frame)} y1={top + 44} y2={plotTop + 116} />
          <circle className="turning-ball-ball" cx={x(frame)} cy={top} r="40" />
          <g transform={`rotate(${frame * perFrameDeg - 60} ${x(frame)} ${top})`}>
            {[-150, -96, -42, 42, 96, 150].map(hole => (
              <circle
                key={hole}
                className="turning-ball-hole"
                cx={x(frame) + 25 * Math.cos((hole * Math.PI) / 180)}
                cy={top + 25 * Math.sin((hole * Math.PI) / 180)}
                r="5"
              />
            ))}
            <rect
              className="turning-ball-mark"
              x={x(frame) + 14}
              y={top - 3}
              width="20"
              height="6"
              rx="1.5"
            />
          </g>
          <circle className="turning-ball-mark" cx={x(frame)} cy={y(frame)} r="4" />
        </g>
      ))}
      <text x={x(frames - 1) + 44} y={plotTop + 134} textAnchor="end">
        time
      </text>
      <text x={left - 44} y={plotTop + 12}>
        bearing
      </text>
      <text className="turning-ball-rpm" x={x(frames - 1) + 60} y={plotTop + 18}>
        {rpm}
      </text>
      <text x={x(frames - 1) + 60 + 72} y={plotTop + 18}>
        rpm
      </text>
      <text x={x(frames - 1) + 60} y={plotTop + 40}>
        {perFrameDeg.toFixed(1)}° a frame at {fps} fps
      </text>
    </svg>
  )
}
