/** The worker that finds in the open lab of a window: begun when a lab is open and nothing else is to be done, ended with it. */
import { oneOfLab } from '../store/ofLab.ts'
import { FindAsker } from '../workers/find.ts'

/** The asker of the open lab. @throws Error before one is open */
export const findAskerOf = oneOfLab((lab) => new FindAsker(lab.id))
