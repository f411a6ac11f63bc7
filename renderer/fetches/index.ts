export { listedIn, type FilledTexts } from './listed.ts'
export { lineOfFetches, useFetchesKey } from './open.ts'
