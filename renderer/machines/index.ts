export { MachinesPanel } from './MachinesPanel.tsx'
