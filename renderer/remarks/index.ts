export { beginRemark, isWritingOn, lineOfRemarking } from './open.ts'
export { StepRemarks } from './StepRemarks.tsx'
