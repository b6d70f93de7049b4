/** Changes whenever the same marks could give another figure; it travels with every reading. */
export const methodVersion = '5'
