/** Figures of learning tags: what a large lab costs the worker that suggests them. */
import type { Figure } from './figure.ts'
import { costOfCatchingUp, keptOfLesson, timeOfLesson } from './support/tags-lesson.ts'

const lab = 'tagged sources of 40 kB'

export const figures: readonly Figure[] = [
  {
    id: 'tags.1',
    what: `processor time to learn 5,000 ${lab}, as a multiple of that for 500`,
    bound: { op: '<=', value: 15 },
    quick: false,
    measure: async () => {
      await timeOfLesson(100)
      return { value: (await timeOfLesson(5000)) / (await timeOfLesson(500)), unit: '' }
    },
  },
  {
    id: 'tags.2',
    what: `what is kept in memory of 5,000 ${lab}, for each byte of their text`,
    bound: { op: '<=', value: 0.8 },
    quick: false,
    measure: async () => ({ value: await keptOfLesson(5000), unit: '' }),
  },
  {
    id: 'tags.3',
    what: 'time of a suggestion behind a Change, as a multiple of one without, 5,000 tagged sources',
    bound: { op: '<=', value: 20 },
    quick: false,
    measure: async () => ({ value: await costOfCatchingUp(5000), unit: '' }),
  },
]
