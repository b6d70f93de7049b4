import { type RatingRules, ratingRulesSchema, usualRules } from '../../core/contract/rating-rules.ts'
import type { Workspace } from '../store/workspace.ts'

const name = 'ratings'

/** How this workspace places its paddles; the usual way where nobody has said, or another version said it. */
export function ratingRulesOf(workspace: Workspace): RatingRules {
  const kept = workspace.setting(name)
  return (kept === null ? null : ratingRulesSchema.safeParse(JSON.parse(kept)).data) ?? usualRules
}

export const keepRatingRules = (workspace: Workspace, rules: RatingRules): void =>
  workspace.keepSetting(name, JSON.stringify(rules))
