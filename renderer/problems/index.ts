export { ProblemsPanel } from './ProblemsPanel.tsx'
