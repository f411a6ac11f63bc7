import { Button, sourceKindFaces } from '../../renderer/ui/index.ts'
import { BackIcon } from '../../renderer/ui/icons.tsx'
import { reading, sources } from './mock.ts'

export function SourceList({ chosen }: { readonly chosen: number }) {
  return (
    <ul className="st-source-list">
      {sources.map((source, place) => {
        const { icon: Picture, word } = sourceKindFaces[source.kind]
        return (
          <li
            key={source.title}
            data-end={`source-${place}`}
            className={place === chosen ? 'st-source st-source--chosen' : 'st-source'}
          >
            <button type="button" className="st-source-open" aria-current={place === chosen || undefined}>
              <Picture />
              <span className="st-source-title">{source.title}</span>
              <span className="st-source-address">{source.address}</span>
              <span className="st-source-facts">
                {word}. {source.facts}
              </span>
            </button>
          </li>
        )
      })}
    </ul>
  )
}

export function SourceReading() {
  return (
    <div className="st-reading">
      <div className="st-reading-head">
        <div>
          <Button look="quiet" className="st-flush" icon={BackIcon}>
            All sources
          </Button>
        </div>
        <h3 className="st-reading-title">Moving a root file system to a disk</h3>
        <span className="st-source-address">move-root.md, captured 14 Nov 2026, 18:31</span>
      </div>
      <div className="st-reading-text st-prose st-scroll">
        <p>{reading[0]}</p>
        <p>
          <mark className="st-mark">{reading[1]}</mark>
        </p>
        <p>
          Two files name the root: <mark className="st-mark st-mark--derives">the table of file systems</mark>
          , and the line that the boot loader hands to the kernel.{' '}
          <mark className="st-mark st-mark--found">Change both.</mark>
        </p>
        <pre className="st-code">rsync -aHAX --one-file-system / /mnt/new/</pre>
      </div>
    </div>
  )
}
