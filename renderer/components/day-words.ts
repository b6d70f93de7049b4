const dayAndMonth = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', timeZone: 'UTC' })
const weekday = new Intl.DateTimeFormat('en-GB', { weekday: 'long', timeZone: 'UTC' })
const wholeDay = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
})
const dateOf = (day: string) => new Date(`${day}T00:00:00Z`)

/** `14 May` of `2026-05-14`. */
export const dayWithoutYear = (day: string): string => dayAndMonth.format(dateOf(day))
/** `Thursday` of `2026-05-14`. */
export const weekdayOf = (day: string): string => weekday.format(dateOf(day))
/** `14 May 2026` of `2026-05-14`. */
export const dayInWords = (day: string): string => wholeDay.format(dateOf(day))
/** Today where the person is, as `2026-05-14`. */
export function today(now = new Date()): string {
  const two = (figure: number) => String(figure).padStart(2, '0')
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`
}
