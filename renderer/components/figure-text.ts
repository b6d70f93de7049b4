export { digits, halfWidthOf, rpmWithHalfWidth } from '../../core/picture/figure-text.ts'
