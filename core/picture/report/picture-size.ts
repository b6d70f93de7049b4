import { type Accents, type FigureForm, usualLook } from '../../contract/publish.ts'
import { type Figures, figuresIn } from '../figure-text.ts'
import type { Look, Size } from '../look.ts'

/** How a report says figures and draws pictures. */
export type ReportStyle = { figures: Figures; pictures: [Look, Size] }

/** On paper: the width of its column at the size of its letters. */
export const reportStyle = (order: { accents: Accents; figures: FigureForm }): ReportStyle => ({
  figures: figuresIn(order.figures),
  pictures: [
    { ...usualLook, accents: order.accents, figures: order.figures },
    { widthPx: 720, heightPx: null },
  ],
})
