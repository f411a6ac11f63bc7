export { beginRemark, lineOfRemarking } from './open.ts'
export { StepRemarks } from './StepRemarks.tsx'
