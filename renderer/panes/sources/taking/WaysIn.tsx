import { useEffect, useRef, useState } from 'react'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import { Button } from '../../../ui/index.ts'
import { pasteFromClipboard } from '../arrivals.ts'
import { chooseFiles, chooseFolder } from '../taking.ts'
import { BrowserPanel } from './BrowserPanel.tsx'
import { DropFolderPanel } from './DropFolderPanel.tsx'

/** The ways in beside typing: files, folders, the clipboard, a folder that is watched, a browser. */
export function WaysIn() {
  const workspace = useWorkspace()
  const [shown, setShown] = useState<'drop folder' | 'browser' | null>(null)
  const panel = useRef<HTMLDivElement>(null)
  useEffect(() => {
    const box = panel.current
    if (!shown || !box) return
    // What it says can grow once the host has told what it can do.
    const observer = new ResizeObserver(() => box.scrollIntoView({ block: 'nearest' }))
    observer.observe(box)
    return () => observer.disconnect()
  }, [shown])
  const toggle = (one: 'drop folder' | 'browser') => () => setShown(shown === one ? null : one)
  return (
    <section className="st-ways-in" aria-label="Other ways in">
      <div className="st-button-row">
        <Button onClick={() => void chooseFiles(workspace)}>Choose files…</Button>
        <Button onClick={() => void chooseFolder(workspace)}>Choose a folder…</Button>
        <Button onClick={() => void pasteFromClipboard(workspace)}>Paste</Button>
      </div>
      <div className="st-button-row">
        <Button look="quiet" aria-expanded={shown === 'drop folder'} onClick={toggle('drop folder')}>
          Drop folder
        </Button>
        <Button look="quiet" aria-expanded={shown === 'browser'} onClick={toggle('browser')}>
          From a browser
        </Button>
      </div>
      <div ref={panel}>
        {shown === 'drop folder' ? <DropFolderPanel /> : null}
        {shown === 'browser' ? <BrowserPanel /> : null}
      </div>
    </section>
  )
}
