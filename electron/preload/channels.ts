/** The only names that travel between the page's process and the main one. */
export const channels = {
  call: 'whorl:call',
  cancel: 'whorl:cancel',
  event: 'whorl:event',
  /** To the page: the window is about to close. */
  closing: 'whorl:closing',
  /** From the page: nothing is on its way any more. */
  written: 'whorl:written',
} as const
