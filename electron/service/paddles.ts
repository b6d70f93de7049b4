import type { Service } from '../../core/contract/calls.ts'
import type { Parts } from './parts.ts'

type Calls = 'paddles.list' | 'paddles.create' | 'paddles.addSetUp'

export const paddleCalls = ({ workspace, bus }: Parts): Pick<Service, Calls> => ({
  'paddles.list': async () => workspace.paddles(),
  'paddles.create': async paddle => {
    const created = workspace.createPaddle(paddle)
    bus.say({ kind: 'changed', what: 'paddles', id: created.id })
    return created
  },
  'paddles.addSetUp': async ({ paddleId, ...setUp }) => {
    const paddle = workspace.addSetUp(paddleId, setUp)
    bus.say({ kind: 'changed', what: 'paddles', id: paddleId })
    return paddle
  },
})
