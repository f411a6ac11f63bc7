export { showVersions, VersionLine } from './VersionLine.tsx'
