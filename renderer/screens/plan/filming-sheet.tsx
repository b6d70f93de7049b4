import './filming-sheet.css'
import type { Plan, PlannedMark } from '../../../core/contract/plan.ts'
import type { TestDay } from '../../../core/contract/test-day.ts'
import type { DayBlock } from '../../../core/planning/test-day.ts'
import { textOfSeconds } from '../../../core/units/duration.ts'
import { textOfMetres } from '../../../core/units/length.ts'
import { digits } from '../../components/figure-text.ts'

type FilmingSheetProps = { plan: Plan; day: TestDay; blocks: DayBlock[] }

const markWords: Record<PlannedMark, string> = {
  dot: 'One dot as large as a finger nail',
  'two-dots': 'Two dots a quarter turn apart',
  arrow: 'An arrow, so that it reads one way',
  line: 'A plain line looks the same after half a turn: an arrow is better',
}

const cautions = [
  'Lamps that flicker can trouble photosensitive people: say so beforehand, keep flashing lamps out of sight.',
  'Balls fly fast: eye protection for all near the court, nobody in the line of the ball.',
  'Lead tape: wear gloves or wash your hands after touching it, and keep it from children.',
  'Ladders and cables: a second person holds the ladder, cables are taped down or run along the wall.',
  'Not a certification: the governing body’s laboratory decides what is legal for play.',
]

/** One printed page for the day of filming; on the screen only its order is shown. */
export function FilmingSheet({ plan, day, blocks }: FilmingSheetProps) {
  const { setUp } = plan
  const wide = (setUp.widthPx * setUp.distanceMetres) / setUp.focalLengthPx
  const facts = [
    [
      'Camera',
      `${setUp.captureFps} fps, exposure ${textOfSeconds(setUp.exposureSeconds)}, ${setUp.widthPx} × ${setUp.heightPx} px. Lock focus and exposure; switch stabilisation off; send the original file.`,
    ],
    [
      'Stand',
      `On a stand, ${digits(setUp.distanceMetres, 1)} m from the ball’s path, square to it, at the height of the ball. The picture is ${digits(wide, 1)} m wide there; light from behind the camera.`,
    ],
    [
      'Ball',
      `${textOfMetres(setUp.ballDiameterMetres)} across, about ${digits(plan.ballDiameterPx)} px in the picture, ${plan.framesInView} frames in view.`,
    ],
    [
      'Mark',
      `${markWords[setUp.mark]}, ${setUp.markFromAxisDeg}° from the spin axis, waterproof and dark. Two dots a quarter turn apart show the most.`,
    ],
    ['Expect', `${plan.flag === 'clear' ? '' : 'Not ready. '}At ${digits(setUp.rpm)} rpm: ${plan.limits}`],
    [
      'Every block',
      `${day.reference} is the reference: same person, same ball, same stroke. ${day.ballChangeAfter === null ? 'The same ball all day.' : `A fresh ball after ${day.ballChangeAfter} hits at the most, where ◆ stands.`}`,
    ],
  ]
  return (
    <article className="sheet" aria-label="Filming sheet">
      <h1>Filming sheet</h1>
      <p className="sheet-day">
        Day ____________ Place ______________________ Filmed by ______________________
      </p>
      <dl>
        {facts.map(([word, text]) => (
          <div key={word}>
            <dt>{word}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      <h2>
        Order, number {day.seed}: {day.hitsEach} hits of each paddle
      </h2>
      <div className="sheet-blocks">
        {blocks.map((block, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a block is its number
          <ol key={i} aria-label={`Block ${i + 1}`}>
            {block.turns.map(({ paddle, hits, isReference, freshBall }) => (
              <li key={paddle} data-reference={isReference}>
                <span className="sheet-box" />
                {freshBall && '◆ '}
                {paddle}
                <span className="sheet-hits">{hits}</span>
              </li>
            ))}
          </ol>
        ))}
      </div>
      <h2>Take care</h2>
      <ul className="sheet-cautions">
        {cautions.map(line => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </article>
  )
}
