import type { TableRow } from '../../../core/contract/standings.ts'
import { type RpmScale, rpmScaleOf } from '../../components/rpm-scale.ts'

/** One scale for all hits and bands of these rows. */
export const tableScale = (rows: readonly Pick<TableRow, 'dots' | 'leftOut' | 'band'>[]): RpmScale =>
  rpmScaleOf(
    rows.flatMap(({ dots, leftOut, band }) => [
      ...[dots, leftOut].flatMap(rpms =>
        rpms.length > 0 ? [{ lowRpm: rpms[0]!, highRpm: rpms.at(-1)! }] : [],
      ),
      // A single hit's neighbour may be known so badly that its band would flatten all others.
      ...(band && dots.length > 2 ? [band] : []),
    ]),
  )
