export { lineOfReview } from './open.ts'
export { ReviewButton, StepFindings } from './ReviewSigns.tsx'
