export { insertBlock } from './insertBlock.ts'
export { sketchToSvg } from './sketchToSvg.ts'
export { drawnFences } from './fences.ts'
export { SketchMenu, type SketchMenuProps } from './SketchMenu.tsx'
