/**
 * A name as text that any picture or page can hold: without control characters (XML 1.0, 2.2, has no place
 * for them), halves of surrogate pairs, and marks that would turn the direction of what stands beside it.
 */
export const plainText = (text: string): string =>
  text
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not get through
    .replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\ufffe\uffff]/g, ' ')
    .replace(/[\u200f\u202a-\u202e\u2066-\u2069]/g, '')
    .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
