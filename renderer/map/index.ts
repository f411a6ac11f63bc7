export { MapPanel } from './MapPanel.tsx'
export { lineOfMap, MAP_KEYS, useMapKey } from './open.ts'
