/** `1st`, `2nd`, `3rd`, `4th` … `11th` … `21st`. */
export function ordinal(place: number): string {
  const isTeen = Math.floor(place / 10) % 10 === 1
  return `${place}${(!isTeen && { 1: 'st', 2: 'nd', 3: 'rd' }[place % 10]) || 'th'}`
}
