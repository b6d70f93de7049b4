/** The only names that travel between the page's process and the main one. */
export const channels = { call: 'whorl:call', cancel: 'whorl:cancel', event: 'whorl:event' } as const
