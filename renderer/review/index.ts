export { lineOfReview } from './open.ts'
export { FindingsAt, ReviewButton } from './ReviewSigns.tsx'
