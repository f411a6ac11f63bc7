/** Scenes by the address: ?scene=screen|drag|reading|folded|empty|parts|dialog|confirm|menu&theme=light|dark&size=normal|bench */
import { StrictMode, useState } from 'react'
import { createRoot } from 'react-dom/client'
import {
  defaultLayout,
  Screen,
  StatusLine,
  ThreePanes,
  TopBar,
  type PaneLayout,
} from '../../renderer/frame/index.ts'
import {
  applyFace,
  Button,
  EmptyState,
  Menu,
  type TextSize,
  type ThemeChoice,
} from '../../renderer/ui/index.ts'
import {
  AddIcon,
  ExportIcon,
  JournalIcon,
  LabIcon,
  ProcedureIcon,
  RedoIcon,
  SearchIcon,
  SettingsIcon,
  SourcesIcon,
  TextSizeIcon,
  ThemeIcon,
  UndoIcon,
} from '../../renderer/ui/icons.tsx'
import './gallery.css'
import { Composer, Journal } from './journal.tsx'
import { Parts } from './parts.tsx'
import { Procedure } from './procedure.tsx'
import { MockRibbons } from './ribbons.tsx'
import { SourceList, SourceReading } from './sources.tsx'

const asked = new URLSearchParams(location.search)
const scene = asked.get('scene') ?? 'screen'
const face = {
  theme: (asked.get('theme') ?? 'system') as ThemeChoice,
  size: (asked.get('size') ?? 'normal') as TextSize,
}

function Bar() {
  return (
    <TopBar
      lab={
        <Menu
          label="Lab"
          lines={[{ id: 'o', word: 'Observatory', isChosen: true, onChoose: () => undefined }]}
          trigger={(attributes) => (
            <Button {...attributes} className="st-button--name" icon={LabIcon}>
              Observatory
            </Button>
          )}
        />
      }
      project={
        <Menu
          label="Project"
          lines={[{ id: 'w', word: 'Weather logger', isChosen: true, onChoose: () => undefined }]}
          trigger={(attributes) => (
            <Button {...attributes} className="st-button--name">
              Weather logger on a disk
            </Button>
          )}
        />
      }
      middle={
        <Button icon={SearchIcon} look="quiet" keys="Ctrl+K">
          Find
        </Button>
      }
      undoRedo={
        <>
          <Button look="quiet" icon={UndoIcon} label="Undo: carry" keys="Ctrl+Z" />
          <Button look="quiet" icon={RedoIcon} label="Redo" keys="Ctrl+Shift+Z" disabled />
        </>
      }
      settings={
        <>
          <Button look="quiet" icon={TextSizeIcon} label="Text size: normal" />
          <Button look="quiet" icon={ThemeIcon} label="Theme: system" />
          <Button look="quiet" icon={SettingsIcon} label="Settings" />
        </>
      }
    />
  )
}

const empty = {
  sources: (
    <EmptyState
      icon={SourcesIcon}
      purpose="What you read before and while you work: pages, manuals, files."
      action={<Button icon={AddIcon}>Add a source</Button>}
      hint="Or drop a file, a link or a piece of text here."
    />
  ),
  journal: (
    <EmptyState
      icon={JournalIcon}
      purpose="What you do and what the machine answers, in the order in which it happens."
      hint="Write the first entry below. It is kept as you type."
    />
  ),
  procedure: (
    <EmptyState
      icon={ProcedureIcon}
      purpose="Numbered steps that someone else can follow, distilled from the journal."
      action={<Button icon={AddIcon}>Write the first step</Button>}
      hint="Or carry something over from the journal."
    />
  ),
}

function Whole() {
  const [layout, setLayout] = useState<PaneLayout>(
    scene === 'folded' ? { ...defaultLayout, folded: ['sources'] } : defaultLayout,
  )
  const isEmpty = scene === 'empty'
  return (
    <Screen
      top={<Bar />}
      foot={<StatusLine end={<span>Kept on this machine only</span>}>Written down at 20:03:12</StatusLine>}
    >
      <ThreePanes
        layout={layout}
        onLayout={setLayout}
        sources={{
          title: 'Sources',
          ...(isEmpty ? {} : { count: 8, countWords: '8 sources' }),
          actions: <Button look="quiet" icon={AddIcon} label="Add a source" />,
          body: isEmpty ? empty.sources : scene === 'reading' ? <SourceReading /> : <SourceList chosen={1} />,
        }}
        journal={{
          title: 'Journal',
          ...(isEmpty ? {} : { count: 41, countWords: '41 entries' }),
          body: isEmpty ? empty.journal : <Journal chosen={5} />,
          foot: <Composer />,
        }}
        procedure={{
          title: 'Procedure',
          ...(isEmpty ? {} : { count: 7, countWords: '7 steps' }),
          actions: (
            <Button look="quiet" icon={ExportIcon}>
              Export
            </Button>
          ),
          body: isEmpty ? empty.procedure : <Procedure isDragging={scene === 'drag'} />,
        }}
        {...(isEmpty || scene === 'reading'
          ? {}
          : { ribbons: (geometry) => <MockRibbons geometry={geometry} /> })}
      />
    </Screen>
  )
}

applyFace(face)
const isWhole = ['screen', 'drag', 'reading', 'folded', 'empty'].includes(scene)
createRoot(document.getElementById('root')!).render(
  <StrictMode>{isWhole ? <Whole /> : <Parts shows={scene} />}</StrictMode>,
)
