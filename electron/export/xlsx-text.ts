/** Text as a workbook's XML holds it: what XML cannot hold is written as _xHHHH_ (ECMA-376, 22.9.2.19). */
export const escapedText = (text: string): string =>
  text
    .replace(/_x[0-9A-Fa-f]{4}_/g, '_x005F$&')
    .replace(
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what XML cannot hold
      /[\u0000-\u0008\u000b\u000c\r\u000e-\u001f\ufffe\uffff]/g,
      c => `_x${c.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`,
    )
    .replace(/[&<>]/g, c => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;' })[c]!)

export const unescapedText = (text: string): string =>
  text.replace(/_x([0-9A-Fa-f]{4})_/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)))
