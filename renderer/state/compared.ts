import { create } from 'zustand'

/** Set-ups that are chosen to be compared, still so after a look at one of them. */
export const useCompared = create<{ setUpIds: string[] }>(() => ({ setUpIds: [] }))

/** As many as a comparison takes. */
const most = 12

export const toggleCompared = (setUpId: string) =>
  useCompared.setState(({ setUpIds }) => ({
    setUpIds: setUpIds.includes(setUpId)
      ? setUpIds.filter(id => id !== setUpId)
      : [...setUpIds, setUpId].slice(-most),
  }))
