/** Changes whenever the same marks, or the same pictures, could give another figure; it travels with every reading. */
export const methodVersion = '6'
