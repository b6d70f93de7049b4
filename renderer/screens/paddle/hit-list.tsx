import type { PaddleHit, PaddleSetUp } from '../../../core/contract/standings.ts'
import { BandBar } from '../../components/band-bar.tsx'
import { dayInWords } from '../../components/day-words.ts'
import { Figure } from '../../components/figure.tsx'
import { digits, halfWidthOf } from '../../components/figure-text.ts'
import { FlagMark } from '../../components/flag-mark.tsx'
import type { RpmScale } from '../../components/rpm-scale.ts'
import { hrefOf } from '../../state/route.ts'
import { InOrOut } from './in-or-out.tsx'

/** Every hit, set-up by set-up: in the mean, or out of it and why. */
export function HitList({ setUps, scale }: { setUps: PaddleSetUp[]; scale: RpmScale }) {
  const measured = setUps.some(({ hits }) => hits.some(hit => hit.perSpeed !== null))
  return (
    <section className="hit-list" aria-label="Hits">
      <h2>Hits</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">Flag</th>
            <th scope="col" className="hit-list-figure">
              rpm
            </th>
            <th scope="col">Band, 95 %</th>
            {measured && (
              <>
                <th scope="col" className="hit-list-figure">
                  rpm per m/s
                </th>
                <th scope="col" className="hit-list-figure">
                  Spin parameter
                </th>
              </>
            )}
            <th scope="col">Filmed</th>
            <th scope="col">In the mean</th>
          </tr>
        </thead>
        {setUps
          .filter(({ hits }) => hits.length > 0)
          .map(setUp => (
            <tbody key={setUp.setUpId}>
              {setUps.length > 1 && (
                <tr>
                  <th colSpan={measured ? 7 : 5} scope="rowgroup">
                    {setUp.name}
                  </th>
                </tr>
              )}
              {setUp.hits.map(hit => (
                <Line key={hit.hitId} hit={hit} scale={scale} measured={measured} />
              ))}
            </tbody>
          ))}
      </table>
    </section>
  )
}

function Line({ hit, scale, measured }: { hit: PaddleHit; scale: RpmScale; measured: boolean }) {
  const { rpm, band, flag, perSpeed, spinParameter } = hit
  return (
    <tr data-out={hit.leftOut !== null}>
      <td>
        <FlagMark flag={flag} bare />
      </td>
      <td className="hit-list-figure">
        {rpm === null ? '–' : <Figure rpm={rpm} halfWidthRpm={band && halfWidthOf(band)} unit={false} />}
      </td>
      <td className="hit-list-band">
        <BandBar rpm={rpm} band={band} flag={flag} scale={scale} lines />
      </td>
      {measured && (
        <>
          <td className="hit-list-figure figure">{perSpeed ? digits(perSpeed.value, 1) : '–'}</td>
          <td className="hit-list-figure figure">{spinParameter ? digits(spinParameter.value, 3) : '–'}</td>
        </>
      )}
      <td className="hit-list-clip">
        <span>{dayInWords(hit.day)}</span>
        <a className="quiet" href={hrefOf({ screen: 'bench', hitId: hit.hitId })}>
          {hit.clipName}, from frame {hit.fromFrame}
        </a>
      </td>
      <td>
        <InOrOut hit={hit} />
      </td>
    </tr>
  )
}
