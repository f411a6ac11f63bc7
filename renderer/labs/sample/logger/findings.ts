/** Tuesday evening: the database is malformed. Run for real; test/fixtures/recordings/README.md says what was changed. */
import { lines } from '../lines.ts'
import type { SampleEntry } from '../format.ts'

export const findings: readonly SampleEntry[] = [
  {
    key: 'a-status',
    kind: 'action',
    moment: '2026-10-13T20:14:00.000+02:00',
    text: lines(
      'The readings stop again and again since the weekend. Looked at the logger first, on weather.',
      '',
      '```sh',
      'systemctl status weather-logger --no-pager',
      '```',
    ),
  },
  {
    key: 'a-status-out',
    kind: 'output',
    moment: '2026-10-13T20:14:03.607+02:00',
    text: lines(
      '```text',
      '● weather-logger.service - Weather logger of the observatory',
      '     Loaded: loaded (/etc/systemd/system/weather-logger.service; enabled; preset: enabled)',
      '     Active: activating (auto-restart) (Result: exit-code) since Tue 2026-10-13 20:14:02 CEST; 305ms ago',
      '    Process: 77 ExecStart=/usr/local/sbin/weather-logger (code=exited, status=11)',
      '   Main PID: 77 (code=exited, status=11)',
      '',
      "Oct 13 20:14:02 weather systemd[1]: weather-logger.service: Failed with result 'exit-code'.",
      '```',
    ),
  },
  {
    key: 'a-log',
    kind: 'action',
    moment: '2026-10-13T20:14:36.079+02:00',
    text: lines('What it said last.', '', '```sh', 'journalctl -u weather-logger -n 8 --no-pager', '```'),
  },
  {
    key: 'a-log-out',
    kind: 'output',
    moment: '2026-10-13T20:14:39.899+02:00',
    text: lines(
      '```text',
      'Oct 13 20:13:26 weather systemd[1]: weather-logger.service: Main process exited, code=exited, status=11/n/a',
      "Oct 13 20:13:26 weather systemd[1]: weather-logger.service: Failed with result 'exit-code'.",
      'Oct 13 20:13:31 weather systemd[1]: weather-logger.service: Scheduled restart job, restart counter is at 3.',
      'Oct 13 20:13:31 weather systemd[1]: Stopped weather-logger.service - Weather logger of the observatory.',
      'Oct 13 20:13:31 weather systemd[1]: Started weather-logger.service - Weather logger of the observatory.',
      'Oct 13 20:14:35 weather weather-logger[98]: Error: stepping, database disk image is malformed (11)',
      'Oct 13 20:14:35 weather systemd[1]: weather-logger.service: Main process exited, code=exited, status=11/n/a',
      "Oct 13 20:14:35 weather systemd[1]: weather-logger.service: Failed with result 'exit-code'.",
      '```',
    ),
  },
  {
    key: 'a-integrity',
    kind: 'action',
    moment: '2026-10-13T20:15:14.280+02:00',
    failed: true,
    text: lines(
      'Asked SQLite for its opinion.',
      '',
      '```sh',
      "sqlite3 /var/lib/weather/readings.db 'PRAGMA integrity_check'",
      '```',
    ),
  },
  {
    key: 'a-integrity-out',
    kind: 'output',
    moment: '2026-10-13T20:15:19.522+02:00',
    text: lines(
      '```text',
      '*** in database main ***',
      'Page 320: btreeInitPage() returns error code 11',
      'Page 82: btreeInitPage() returns error code 11',
      'Error: stepping, database disk image is malformed (11)',
      '```',
    ),
  },
  {
    key: 'a-malformed',
    kind: 'problem',
    moment: '2026-10-13T20:15:27.522+02:00',
    text: 'The database is malformed. Two pages are bad. The logger fails whenever a reading touches one of them, then starts again and loses that reading.',
  },
  {
    key: 'a-card-suspect',
    kind: 'observation',
    moment: '2026-10-13T20:15:35.522+02:00',
    text: lines(
      'This is the first line of the table about failing cards. The card has logged every minute for six years.',
      '',
      '> Stop writing to the card at once. Every further write can move worn blocks about and damage what was still good.',
    ),
    carries: [
      {
        from: { source: 'failing-cards' },
        words:
          'Stop writing to the card at once. Every further write can move worn blocks about and damage what was still good.',
      },
    ],
  },
  {
    key: 'a-stop',
    kind: 'action',
    moment: '2026-10-13T20:16:06.700+02:00',
    text: lines('So no more writes to the card.', '', '```sh', 'systemctl stop weather-logger', '```'),
  },
  {
    key: 'a-copy-damaged',
    kind: 'action',
    moment: '2026-10-13T20:16:35.706+02:00',
    text: lines(
      'A copy of the damaged file goes to the stick before anything else.',
      '',
      '```sh',
      'mount /dev/sdb1 /mnt/stick',
      'cp -a /var/lib/weather/readings.db /mnt/stick/readings-damaged.db',
      '```',
    ),
  },
  {
    key: 'a-sum',
    kind: 'action',
    moment: '2026-10-13T20:17:54.309+02:00',
    text: lines(
      'Compared the two.',
      '',
      '```sh',
      'sha256sum /var/lib/weather/readings.db /mnt/stick/readings-damaged.db',
      '```',
    ),
  },
  {
    key: 'a-sum-out',
    kind: 'output',
    moment: '2026-10-13T20:17:59.428+02:00',
    text: lines(
      '```text',
      '3e687236fcde408b5a460798cc00e65e9a11bceb2612e469ec0a604f0378c712  /var/lib/weather/readings.db',
      '3e687236fcde408b5a460798cc00e65e9a11bceb2612e469ec0a604f0378c712  /mnt/stick/readings-damaged.db',
      '```',
    ),
  },
  {
    key: 'a-stays-stopped',
    kind: 'decision',
    moment: '2026-10-13T20:19:51.895+02:00',
    text: lines(
      'The logger stays stopped until Saturday. Then the whole root moves to a disk.',
      '',
      '> The station keeps the lines of the last seven days in its own memory, so an hour without the logger costs nothing.',
      '',
      'Four days are within the seven.',
    ),
    carries: [
      {
        from: { source: 'logger-writes' },
        words:
          'The station keeps the lines of the last seven days in its own memory, so an hour without the logger costs nothing.',
      },
    ],
  },
]
