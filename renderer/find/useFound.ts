/** Asks the finding worker what is in the box, and holds what was answered last. */
import { useCallback, useEffect, useMemo, useRef, useState } from 'react'
import { useStore } from 'zustand'
import { useShallow } from 'zustand/react/shallow'
import type { Answer } from '../../shared/find/ask/answerer.ts'
import type { Range } from '../../shared/lab/model.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import type { FindAsker, FoundAnswer, FoundCommands } from '../workers/find.ts'
import { isQuestion } from './answers.ts'
import { findAskerOf } from './asking.ts'
import { commandsWithin, partOf } from './commands.ts'
import type { FindOrder, GroupName } from './groups.ts'
import { LatestQuestion } from './latest.ts'
import { useFind } from './state.ts'

interface Question {
  readonly typed: string
  readonly kept: readonly Range[]
  readonly order: FindOrder
  readonly narrow: GroupName | null
  readonly most: number
}

export interface Found {
  /** null while nothing is asked, and before the first answer. */
  readonly answer: FoundAnswer | null
  readonly commands: FoundCommands | null
  /** Of what reads as a question or an error; null for all else, and until it is answered. */
  readonly answered: Answer | null
  /** What was typed when this was asked. */
  readonly typed: string
  readonly hasFailed: boolean
}

const nothing: Found = { answer: null, commands: null, answered: null, typed: '', hasFailed: false }

/** So many of the best are asked for while every group is shown. */
const BEST = 24
/** So long nothing is asked after a Change: typing makes many. */
const REST_MS = 250
/** So often what is there is asked for while the index is built. */
const BUILDING_MS = 600

/** @returns what was found; `upToDate` ends once the newest question is answered */
export function useFound(): Found & {
  readonly share: number | null
  readonly upToDate: () => Promise<void>
} {
  const workspace = useWorkspace()
  const asker = findAskerOf(workspace)
  const [found, setFound] = useState<Found>(nothing)
  const commands = useRef<Promise<unknown>>(Promise.resolve())
  const asking = useMemo(
    () =>
      new LatestQuestion<Question, FoundAnswer>(
        (question) => askAll(asker, question),
        (answer, { typed, narrow, most }) => {
          setFound((before) => ({
            ...{ answer, commands: before.commands, typed, hasFailed: false },
            answered: before.typed === typed ? before.answered : null,
          }))
          const limit = narrow === 'command' ? most : BEST
          commands.current = commandsFor(asker, answer, limit).then(
            (next) =>
              setFound((before) => (before.answer === answer ? { ...before, commands: next } : before)),
            // The hits stand there all the same.
            (error: unknown) => console.error(error),
          )
        },
        (error) => {
          console.error(error)
          setFound({ ...nothing, hasFailed: true })
        },
      ),
    [asker],
  )
  useEffect(() => {
    asker.begin()
    return () => asking.drop()
  }, [asker, asking])
  const question = useFind(
    useShallow(({ typed, kept, order, narrow, most }): Question => ({ typed, kept, order, narrow, most })),
  )
  const isEmpty = question.typed.trim() === ''
  useEffect(() => {
    if (isEmpty) {
      asking.drop()
      setFound(nothing)
    } else asking.want(question)
  }, [asking, question, isEmpty])
  useAnswered(asker, question.typed, found.typed, setFound)
  const share = useStore(asker.building, (state) => state.share)
  useAskedAgain(isEmpty ? null : () => asking.want(question), share !== null)
  const upToDate = useCallback(async () => {
    await asking.settled()
    await commands.current
  }, [asking])
  return { ...found, share, upToDate }
}

/** A question is not answered half typed: only what has stood there for so long is asked. */
const STANDS_MS = 300

/** Asks for an answer behind the hits, which must not wait for it. */
function useAnswered(
  asker: FindAsker,
  typed: string,
  found: string,
  setFound: (change: (before: Found) => Found) => void,
): void {
  useEffect(() => {
    if (found !== typed || !isQuestion(typed)) return undefined
    let isOver = false
    const timer = setTimeout(() => {
      void asker.answer(typed).then(
        ({ answer }) => {
          if (!isOver)
            setFound((before) => (before.typed === typed ? { ...before, answered: answer } : before))
        },
        // The hits stand there all the same.
        (error: unknown) => console.error(error),
      )
    }, STANDS_MS)
    return () => {
      isOver = true
      clearTimeout(timer)
    }
  }, [asker, typed, found, setFound])
}

/** Asks again after every Change of the lab, and now and then while the index is built. */
function useAskedAgain(ask: (() => void) | null, isBuilding: boolean): void {
  const sequence = useWorkspaceState((state) => state.labSources?.sequence)
  const latest = useRef(ask)
  useEffect(() => {
    latest.current = ask
  })
  const before = useRef(sequence)
  useEffect(() => {
    if (before.current === sequence) return undefined
    before.current = sequence
    const timer = setTimeout(() => latest.current?.(), REST_MS)
    return () => clearTimeout(timer)
  }, [sequence])
  const wasBuilding = useRef(isBuilding)
  useEffect(() => {
    if (wasBuilding.current && !isBuilding) latest.current?.()
    wasBuilding.current = isBuilding
    if (!isBuilding) return undefined
    const timer = setInterval(() => latest.current?.(), BUILDING_MS)
    return () => clearInterval(timer)
  }, [isBuilding])
}

/** The counts of all groups, and the hits of those that are shown. */
async function askAll(
  asker: FindAsker,
  { typed, kept, order, narrow, most }: Question,
): Promise<FoundAnswer> {
  const now = Date.now()
  const all = asker.ask({
    ...{ typed, keptAsWords: kept, order, now },
    limit: order === 'best' || narrow !== null ? BEST : most,
  })
  if (narrow === null || narrow === 'act' || narrow === 'command') return all
  // Before what was typed, so that its last word is still the one that is being typed.
  const filter = `thing:${narrow} `
  const moved = kept.map(({ start, end }) => ({ start: start + filter.length, end: end + filter.length }))
  const one = asker.ask({ typed: filter + typed, keptAsWords: moved, order, now, limit: most })
  const [{ hits }, whole] = [await one, await all]
  return { ...whole, hits }
}

async function commandsFor(asker: FindAsker, { query }: FoundAnswer, limit: number): Promise<FoundCommands> {
  const part = partOf(query)
  if (part.length < 2) return { commands: [], count: 0, isWhole: true }
  return commandsWithin(await asker.commands(part, limit), query)
}
