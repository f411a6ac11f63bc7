/** The link that another one stands for: what was said before its words moved, or before it was set again by hand. */
import { useMemo, useState } from 'react'
import type { LinkId } from '../../shared/lab/ids.ts'
import type { OpenLab } from '../db/lab.ts'
import { useLabRead } from '../store/useLabRead.ts'
import { Button } from '../ui/index.ts'
import { WordsAt } from './WordsAt.tsx'
import { madeWords, wordsOfEnd } from './words.ts'

export function EarlierLink({ id }: { readonly id: LinkId }) {
  const [isOpen, setOpen] = useState(false)
  return (
    <div className="st-hop-beside">
      <Button look="quiet" className="st-flush" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
        The link before it
      </Button>
      {isOpen ? <Earlier id={id} /> : null}
    </div>
  )
}

function Earlier({ id }: { readonly id: LinkId }) {
  const read = useMemo(
    () => async (lab: OpenLab) => {
      // It may stand again: the words that it is about were put back beside those that went on.
      const [gone] = await lab.queries.goneLinks([id])
      return gone ?? (await lab.queries.findLink(id)) ?? null
    },
    [id],
  )
  const link = useLabRead(read)
  if (link === undefined) return null
  if (link === null || link === 'failed') return <p className="st-trace-detail">It is not in this lab.</p>
  const then = wordsOfEnd(link.newer)
  return (
    <div className="st-hop-earlier">
      <p className="st-trace-detail">{madeWords(link)}</p>
      {then === '' ? null : <WordsAt end="Then" text={then} />}
      {link.revises ? <EarlierLink id={link.revises} /> : null}
    </div>
  )
}
