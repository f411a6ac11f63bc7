export interface ProgressLineProps {
  /** What is going on, for instance 'Reading rack-notes.html'. */
  readonly words: string
  /** 0 to 1; null while the length is unknown. */
  readonly share: number | null
}

/** Work that takes a while. It never blocks: the person can go on typing meanwhile. */
export function ProgressLine({ words, share }: ProgressLineProps) {
  const percent = share === null ? null : Math.round(Math.max(0, Math.min(share, 1)) * 100)
  return (
    <div className="st-progress">
      <p className="st-progress-words">
        <span>{words}</span>
        {percent === null ? null : <span className="st-mono">{percent} %</span>}
      </p>
      <div
        className={percent === null ? 'st-progress-track st-progress-track--unknown' : 'st-progress-track'}
        role="progressbar"
        aria-label={words}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={percent ?? undefined}
      >
        <span className="st-progress-fill" style={percent === null ? {} : { width: `${percent}%` }} />
      </div>
    </div>
  )
}
