import type { Marks } from '../contract/marks.ts'
import type { Reading, ReadingDocument } from '../contract/reading.ts'
import { radPerSecondOfRpm, rpmOfRadPerSecond } from '../units/rate.ts'
import { senseOfRate, signOfSense } from '../units/sense.ts'
import { chooseMethod } from './choose.ts'
import { type Contact, contactIn } from './contact.ts'
import type { Estimate, NotMeasured } from './estimate.ts'
import { methodVersion } from './method-version.ts'
import type { Observations } from './observations.ts'
import { observationsOf } from './observations-of.ts'
import { withRateChange } from './rate-change.ts'
import { readingOf, unreadOf } from './reading-of.ts'
import { changeRemark } from './remarks.ts'

/**
 * A reading with what the bench draws beside it: how every sighting stands in the fit (`estimate`, its
 * `sightings` in the order of `observations.sightings`), and the contact that splits the window.
 */
export type ReadingInDetail = {
  reading: Reading
  estimate: Estimate | null
  observations: Observations | null
  contact: Contact | null
}

/** The spin of one hit, or a reading with the reason why it has none. Never throws on valid marks. */
export const readMarks = (marks: Marks): Reading => readMarksInDetail(marks).reading

export function readMarksInDetail(marks: Marks): ReadingInDetail {
  const observed = observationsOf(marks)
  const none = { estimate: null, observations: null, contact: null }
  if ('measured' in observed) return { ...none, reading: unreadOf(marks, observed) }
  const o = observed.observations
  const estimate = chooseMethod(o, settledRate(marks))
  const contact = contactIn(o, estimate)
  if (contact)
    return { ...none, observations: o, contact, reading: unreadOf(marks, acrossContact(contact, o)) }
  if (!estimate.measured) return { ...none, observations: o, reading: unreadOf(marks, estimate) }
  const final = o.withDecay ? withRateChange(estimate, o) : estimate
  return { reading: readingOf(marks, final, o), estimate: final, observations: o, contact: null }
}

/** `whorl.reading/1` of one marks document: one reading, or two where a contact lies inside the window. */
export function readingDocumentOf(marks: Marks, version: string): ReadingDocument {
  const whole = readMarksInDetail(marks)
  const flights = whole.contact ? flightsOf(marks, whole.contact, whole.observations!) : []
  const parts = flights.length > 0 ? flights.map(readMarksInDetail) : [whole]
  return {
    schema: 'whorl.reading/1',
    clip: null,
    readings: parts.map(part => part.reading),
    warnings: [
      ...(whole.contact ? [{ code: 'contact-inside', message: whole.reading.reasons[0]! }] : []),
      ...parts.flatMap(({ estimate, observations }) =>
        estimate && observations
          ? changeRemark(estimate, observations).map(message => ({ code: 'spin-changes', message }))
          : [],
      ),
    ],
    software: { version, methodVersion },
  }
}

const settledRate = ({ settled }: Marks): number | undefined =>
  settled ? radPerSecondOfRpm(settled.rpm) * signOfSense(settled.sense) : undefined

function acrossContact({ lastBefore, firstAfter, before, after }: Contact, o: Observations): NotMeasured {
  const words = ({ rateRadPerSecond: rate }: Estimate) =>
    `${Math.abs(rpmOfRadPerSecond(rate)).toFixed(0)} rpm ${senseOfRate(rate)}`
  const [from, to] = [o.frames[lastBefore]!.index, o.frames[firstAfter]!.index]
  return {
    measured: false,
    reason: `The ball is struck between frames ${from} and ${to}: ${words(before)} before, ${words(after)} after.`,
    tip: 'Let the window hold one flight.',
    contradictory: true,
  }
}

/** The marks of either side of a contact. What was settled was settled for the whole, so it goes. */
function flightsOf(marks: Marks, { lastBefore, firstAfter }: Contact, o: Observations): Marks[] {
  const [from, to] = [o.frames[lastBefore]!.index, o.frames[firstAfter]!.index]
  const part = (frames: Marks['frames']): Marks => ({ ...marks, frames, settled: undefined })
  return [
    part(marks.frames.filter(frame => frame.index <= from)),
    part(marks.frames.filter(frame => frame.index >= to)),
  ]
}
