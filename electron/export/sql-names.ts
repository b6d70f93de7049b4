/** A name as SQL takes it, whatever is in it (ISO/IEC 9075, delimited identifier). */
export const quoted = (name: string) => `"${name.replaceAll('"', '""')}"`
