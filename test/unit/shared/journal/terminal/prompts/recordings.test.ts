/** Commands of recorded sessions without marks, against what their shells wrote down before they ran each. */
import { afterAll, describe, expect, it } from 'vitest'
import { learnPrompts, promptsOf } from '../../../../../../shared/journal/terminal/prompts/learn.ts'
import {
  agreement,
  isExamination,
  readLines,
  readLog,
  recordedSessions,
  type Agreement,
  type Recorded,
} from '../../../../../support/terminal/true-commands.ts'

const sessions = recordedSessions()

it('sessions without marks are at least six with different prompts, six of them frozen', () => {
  expect(sessions.length).toBeGreaterThanOrEqual(6)
  expect(sessions.filter(({ isFrozen }) => isFrozen)).toHaveLength(6)
  for (const { log } of sessions) expect(Buffer.from(log).includes('\u001b]133')).toBe(false)
})

/** Their prompt ends in no sign that a shell has. That a line editor was on tells it, which no text does. */
const signless = new Set(['late2-colon'])

/** Prints how far each agrees, and holds the bounds. */
function holdBounds(
  title: string,
  sessions: readonly Recorded[],
  atLeast: number,
  atMostWrong: number,
  read: (session: Recorded) => Promise<Agreement<unknown>>,
): void {
  describe(title, () => {
    const sums = { run: 0, found: 0, wrong: 0 }

    it.each(sessions)(`at least ${100 * atLeast} % of the commands are found: $name`, async (session) => {
      const { pairs, missed, wrong } = await read(session)
      sums.run += session.truth.length
      sums.found += pairs.length
      sums.wrong += wrong.length
      const numbers = `${pairs.length} of ${session.truth.length} found, ${wrong.length} of ${pairs.length + wrong.length} offered are none`
      const lists = [...missed.map((one) => `  missed: ${one}`), ...wrong.map((one) => `  none: ${one}`)]
      console.log([`${title}, ${session.name}: ${numbers}`, ...lists].join('\n'))
      expect(pairs.length / session.truth.length).toBeGreaterThanOrEqual(atLeast)
    })

    it(`at least 95 % of all are found, and at most ${100 * atMostWrong} % of what is offered is none`, () => {
      const offered = sums.found + sums.wrong
      console.log(
        `${title}, together: ${sums.found} of ${sums.run} found, ${sums.wrong} of ${offered} offered are none`,
      )
      expect(sums.run).toBeGreaterThan(0)
      expect(sums.found / sums.run).toBeGreaterThanOrEqual(0.95)
      expect(sums.wrong / offered).toBeLessThanOrEqual(atMostWrong)
    })
  })
}

// Two of 37 lines of one session stand garbled on the screen: its bash counted the prompt's width wrongly.
holdBounds('from the bytes', sessions, 0.94, 0.02, async ({ name, log, truth }) =>
  agreement(truth, await readLog(name, log)),
)

const withSigns = sessions.filter(({ name }) => !signless.has(name))

// Nor does a text tell what an output quotes of another session. Where a long command was edited, the text does not tell that two rows are one.
const fromText = async ({ log, truth }: Recorded) => {
  const prompts = promptsOf(learnPrompts((await readLines(log)).map((text) => ({ text }))))
  return agreement(
    truth,
    prompts.filter(({ command }) => command !== ''),
  )
}

const earlier = withSigns.filter((session) => !isExamination(session))
holdBounds('from the text alone', earlier, 0.9, 0.02, fromText)
holdBounds('from the text alone, with those examined', withSigns, 0.85, 0.05, fromText)

describe('places of commands without marks', () => {
  const known = { user: 0, host: 0, directory: 0, all: 0 }

  it.each(sessions)(
    'are those that the shell was at, where the prompt shows them: $name',
    async ({ name, log, truth }) => {
      const { pairs } = agreement(truth, await readLog(name, log))
      for (const [{ by, user, host, directory, command }, { place }] of pairs) {
        if (by !== 'bash' && by !== 'zsh') continue
        known.all++
        if (place.user !== null) expect(place.user, command).toBe(user)
        // The router is played by a shell on another machine; its prompt says router.
        if (place.host !== null) expect(place.host, command).toBe(name === 'serial' ? 'router' : host)
        const home = user === 'root' ? '/root' : `/home/${user}`
        if (place.directory !== null) expect(place.directory.replace(/^~/u, home), command).toBe(directory)
        for (const part of ['user', 'host', 'directory'] as const) if (place[part] !== null) known[part]++
      }
    },
  )

  afterAll(() => {
    console.log(
      `of ${known.all} commands: user of ${known.user}, host of ${known.host}, directory of ${known.directory} known`,
    )
    expect(known.user / known.all).toBeGreaterThan(0.5)
  })
})
