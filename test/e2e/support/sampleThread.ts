/** Words of the sample that the specs carry: each stands once where it is looked for, and near the journal's end. */
export const thread = {
  project: 'The weather logger moves to a disk',
  source: 'How the logger writes its readings',
  sourceWords: 'It reads the line and adds one row to an SQLite database.',
  actionWords: 'systemctl list-timers weather-backup.timer --no-pager',
  outputWords: '1 timers listed.',
} as const
