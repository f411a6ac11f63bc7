export { COVERAGE_KEYS, lineOfCoverage, useCoverageKey } from './open.ts'
