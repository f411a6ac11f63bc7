/** The worker that suggests tags for the open lab of a window: begun with the first question, ended with the lab. */
import { oneOfLab } from '../../store/ofLab.ts'
import { TagAsker } from '../../workers/tags.ts'

/** The asker of the open lab. @throws Error before one is open */
export const askerOf = oneOfLab((lab) => new TagAsker(lab.id))
