import { useEffect, useRef, useState } from 'react'
import { bookmarkletFor } from '../../../../shared/intake/handed-over.ts'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import { Button } from '../../../ui/index.ts'

/** The bookmark by which a browser hands over the page that a person is on. */
export function BrowserPanel() {
  const workspace = useWorkspace()
  const link = useRef<HTMLAnchorElement>(null)
  const isBrowser = useIsBrowser()
  useEffect(() => {
    // React refuses addresses that are scripts. This one is never followed here: it is to be dragged away or copied.
    link.current?.setAttribute('href', bookmarkletFor())
  }, [])
  const copy = async () => {
    const result = await workspace.host.copyText({ text: bookmarkletFor() })
    const words = 'Copied. Make a new bookmark in your browser and paste it as the address.'
    workspace.say(result.ok ? 'done' : 'problem', result.ok ? words : result.sentence)
  }
  return (
    <div className="st-way-in" role="group" aria-label="From a browser">
      <p>
        Keep this link among your browser’s bookmarks. Pressed on a page, it hands the page’s address, its
        title and the words that you selected over to Stillroom, and sends nothing anywhere else.
        {isBrowser
          ? ' It works with the installed Stillroom program only, which this window in a browser is not.'
          : ''}
      </p>
      <div className="st-button-row">
        <a
          ref={link}
          className="st-bookmarklet"
          draggable
          onClick={(event) => {
            event.preventDefault()
            workspace.say(
              'notice',
              'This link is for your browser: drag it to the bookmarks there, or copy it.',
            )
          }}
        >
          Hand over to Stillroom
        </a>
        <Button onClick={() => void copy()}>Copy the link</Button>
      </div>
    </div>
  )
}

function useIsBrowser(): boolean {
  const workspace = useWorkspace()
  const [isBrowser, setBrowser] = useState(false)
  useEffect(() => {
    let isOver = false
    void workspace.host.describe().then((result) => {
      if (!isOver && result.ok) setBrowser(result.value.kind === 'browser')
    })
    return () => {
      isOver = true
    }
  }, [workspace])
  return isBrowser
}
