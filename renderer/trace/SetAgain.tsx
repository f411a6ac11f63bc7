/** Says anew to which words a loose link leads: they are selected in the text as it stands. */
import { EditorState, Prec } from '@codemirror/state'
import { EditorView, keymap } from '@codemirror/view'
import { useEffect, useMemo, useRef, type ReactNode } from 'react'
import type { OpenLab } from '../db/lab.ts'
import { readingExtensions, selectedRanges } from '../editor/extensions.ts'
import { useLabRead } from '../store/useLabRead.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button, Dialog } from '../ui/index.ts'
import { loadLabel } from './labels.ts'
import { endSettingAgain, setAgain, useSettingAgain, type SettingAgain } from './settingAgain.ts'
import { WordsAt } from './WordsAt.tsx'
import { wordsOfEnd } from './words.ts'

export function SetAgain(): ReactNode {
  const setting = useSettingAgain((state) => state.setting)
  return setting ? <Setting key={`${setting.link.id} ${setting.side}`} setting={setting} /> : null
}

function Setting({ setting }: { readonly setting: SettingAgain }) {
  const workspace = useWorkspace()
  const { link, side } = setting
  const { node } = link[side]
  const read = useMemo(
    () => async (lab: OpenLab) => ({
      text: (await lab.queries.standing(node.id as never))?.text ?? null,
      name: (await loadLabel(lab, node)).name,
    }),
    [node],
  )
  const loaded = useLabRead(read)
  const view = useRef<EditorView | null>(null)
  const text = loaded && loaded !== 'failed' ? loaded.text : null
  const set = (): void => {
    const { current } = view
    if (!current) return
    const [range] = selectedRanges(current)
    if (range) void setAgain(workspace, setting, current.state.doc.toString(), range)
    else
      workspace.say('notice', 'Select the words that it is to lead to first, with Shift and the arrow keys.')
  }
  return (
    <Dialog
      title="Set the link again"
      width="wide"
      onClose={endSettingAgain}
      actions={
        <>
          <Button onClick={endSettingAgain}>Leave it loose</Button>
          <Button look="strong" keys="Control+Enter" disabled={text === null} onClick={set}>
            Link the selected words
          </Button>
        </>
      }
    >
      <WordsAt end="Once" text={wordsOfEnd(link[side])} />
      <p className="st-trace-detail">
        {text === null && loaded !== undefined
          ? 'The text is gone, so the link cannot be set again.'
          : `Select the words in ${loaded && loaded !== 'failed' ? loaded.name : 'the text'} that it is to lead to.`}
      </p>
      {text === null ? null : (
        <Picker key={text} text={text} onOpen={(opened) => (view.current = opened)} onSet={set} />
      )}
    </Dialog>
  )
}

interface PickerProps {
  readonly text: string
  readonly onOpen: (view: EditorView | null) => void
  readonly onSet: () => void
}

function Picker({ text, onOpen, onSet }: PickerProps) {
  const parent = useRef<HTMLDivElement>(null)
  const latest = useRef({ onOpen, onSet })
  useEffect(() => {
    latest.current = { onOpen, onSet }
  })
  useEffect(() => {
    const keys = Prec.highest(
      keymap.of([
        { key: 'Mod-Enter', run: () => (latest.current.onSet(), true) },
        { key: 'Escape', run: () => (endSettingAgain(), true) },
      ]),
    )
    const extensions = [keys, readingExtensions('The text as it stands')]
    const view = new EditorView({
      parent: parent.current!,
      state: EditorState.create({ doc: text, extensions }),
    })
    view.focus()
    const opened = latest.current
    opened.onOpen(view)
    return () => {
      latest.current.onOpen(null)
      view.destroy()
    }
  }, [text])
  return <div ref={parent} className="st-set-again-text st-scroll" />
}
