export { insertBlock } from './insertBlock.ts'
export { drawnFences } from './fences.ts'
export { SketchMenu, type SketchMenuProps } from './SketchMenu.tsx'
