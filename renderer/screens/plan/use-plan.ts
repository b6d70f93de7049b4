import { useEffect, useState } from 'react'
import { create } from 'zustand'
import type { Plan, PlanSetUp } from '../../../core/contract/plan.ts'
import { bandCurves, type Curve } from '../../../core/planning/curves.ts'
import { planOf } from '../../../core/planning/plan.ts'
import { type PlanTexts, startTexts } from './plan-fields.ts'

/** What was typed stays while other screens are looked at. */
export const usePlanTexts = create<{ texts: PlanTexts }>(() => ({ texts: startTexts }))

/** Long enough that typing is not held up by reckoning. */
const pauseMs = 250

/** The plan and its curves, reckoned after a pause in typing; the curves grow point by point. */
export function usePlan(setUp: PlanSetUp | null): { plan: Plan | null; curves: Curve[] } {
  const [plan, setPlan] = useState<Plan | null>(null)
  const [curves, setCurves] = useState<Curve[]>([])
  const key = JSON.stringify(setUp)
  useEffect(() => {
    const wanted = JSON.parse(key) as PlanSetUp | null
    if (wanted === null) return
    let timer = setTimeout(() => {
      setPlan(planOf(wanted))
      const curvesToCome = bandCurves(wanted)
      const drawn = new Map<number, Curve>()
      const step = () => {
        const { value, done } = curvesToCome.next()
        if (done) return
        drawn.set(value.captureFps, value)
        setCurves([...drawn.values()])
        timer = setTimeout(step)
      }
      timer = setTimeout(step)
    }, pauseMs)
    return () => clearTimeout(timer)
  }, [key])
  return { plan: setUp === null ? null : plan, curves }
}
