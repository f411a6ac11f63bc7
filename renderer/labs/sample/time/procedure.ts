/** How to serve time to a closed network, distilled from the journal. */
import { lines } from '../lines.ts'
import type { SampleProcedure } from '../format.ts'

export const procedure: SampleProcedure = {
  key: 'serve-time',
  created: '2026-11-03T19:30:00.000+01:00',
  title: 'Serve time to a closed network',
  purpose: lines(
    'One machine gives the time to all others, also while the uplink is down.',
    '',
    'Made for Debian 12 and chrony 4.3. You need a root shell on the server and on each client, and a name for the server that every client resolves. The network of this house is 192.0.2.0/24.',
  ),
  own: [
    {
      kind: 'how to undo',
      moment: '2026-11-03T20:03:00.000+01:00',
      text: 'On each machine, take the `#` before `pool` away again. Remove the files that were made below `/etc/chrony`. Restart chrony.',
    },
  ],
  steps: [
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-11-03T19:31:10.000+01:00',
          text: lines(
            'On the server, take the pool of the distribution away.',
            '',
            '```sh',
            "sed -i 's/^pool /#pool /' /etc/chrony/chrony.conf",
            '```',
          ),
          carries: [
            { from: { entry: 'b-pool' }, words: "sed -i 's/^pool /#pool /' /etc/chrony/chrony.conf" },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-03T19:32:20.000+01:00',
          text: 'The line in `/etc/chrony/chrony.conf` begins with `#pool`. A second run changes nothing.',
        },
        {
          kind: 'why',
          moment: '2026-11-03T19:33:30.000+01:00',
          text: 'The packaged file then stays as it was, but for the pool line, which has no switch.',
          carries: [
            {
              from: { entry: 'b-own-files' },
              words: lines(
                'The packaged file then stays as it was, but for the',
                '> pool line, which has no switch.',
              ),
              as: 'The packaged file then stays as it was, but for the pool line, which has no switch.',
            },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-11-03T19:34:40.000+01:00',
          text: lines(
            'Name the sources upstream. These two are those of this house.',
            '',
            '```sh',
            "echo 'server time1.example.org iburst' > /etc/chrony/sources.d/upstream.sources",
            "echo 'server 198.51.100.7 iburst' >> /etc/chrony/sources.d/upstream.sources",
            '```',
          ),
          carries: [
            {
              from: { entry: 'b-upstream' },
              words: lines(
                "echo 'server time1.example.org iburst' > /etc/chrony/sources.d/upstream.sources",
                "echo 'server 198.51.100.7 iburst' >> /etc/chrony/sources.d/upstream.sources",
              ),
            },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-03T19:35:10.000+01:00',
          text: 'The file has two lines that begin with `server`.',
        },
        {
          kind: 'why',
          moment: '2026-11-03T19:35:50.000+01:00',
          text: 'The others drift together with the server and still agree, even when no source is reached.',
          carries: [
            {
              from: { entry: 'b-one-server' },
              words: 'the others drift together with it and still agree',
              as: 'The others drift together with the server and still agree',
            },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'caution',
          moment: '2026-11-03T19:37:00.000+01:00',
          text: '**Notice:** A client with `local` becomes an island that believes itself, and its logs go wrong.\n\n*To avoid it:* Put `local` on the server only.',
          carries: [
            {
              from: { source: 'closed-time' },
              words: 'A client with `local` becomes an island that believes itself',
            },
            { from: { source: 'closed-time' }, words: 'Put `local` on the server only.' },
          ],
        },
        {
          kind: 'do',
          moment: '2026-11-03T19:38:10.000+01:00',
          text: lines(
            'Let the server serve its own clock to your network.',
            '',
            '```sh',
            "cat > /etc/chrony/conf.d/observatory.conf <<'END'",
            "# Serve the observatory's own network, also while the uplink is down.",
            'local stratum 10',
            'allow 192.0.2.0/24',
            'END',
            '```',
          ),
          carries: [
            {
              from: { entry: 'b-local-file' },
              words: lines(
                "# Serve the observatory's own network, also while the uplink is down.",
                'local stratum 10',
              ),
            },
            { from: { entry: 'b-allow' }, words: 'allow 192.0.2.0/24' },
          ],
        },
        { kind: 'expect', moment: '2026-11-03T19:38:40.000+01:00', text: 'The file has three lines.' },
        {
          kind: 'why',
          moment: '2026-11-03T19:39:20.000+01:00',
          text: 'Without `allow` chrony answers no clients and does not open port 123 at all.',
          carries: [
            {
              from: { entry: 'b-no-allow' },
              words: 'Without `allow` chrony answers no clients and does not open port 123 at all.',
            },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-11-03T19:40:30.000+01:00',
          text: lines(
            'Restart the service. The first command tests its configuration.',
            '',
            '```sh',
            'chronyd -p > /dev/null && systemctl restart chrony',
            '```',
          ),
          carries: [
            { from: { entry: 'b-allow' }, words: 'chronyd -p > /dev/null && systemctl restart chrony' },
          ],
        },
        { kind: 'expect', moment: '2026-11-03T19:41:40.000+01:00', text: 'No line at all.' },
        {
          kind: 'if it fails',
          moment: '2026-11-03T19:42:50.000+01:00',
          text: 'IF it says "Invalid directive", correct the line in the file that it names. The service was not restarted.',
          carries: [{ from: { entry: 'b-check-config-out' }, words: 'Invalid directive' }],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-11-03T19:44:00.000+01:00',
          text: lines('Let the service start at boot.', '', '```sh', 'systemctl enable --now chrony', '```'),
          carries: [{ from: { entry: 'b-start' }, words: 'systemctl enable --now chrony' }],
        },
        {
          kind: 'expect',
          moment: '2026-11-03T19:44:30.000+01:00',
          text: '`systemctl is-active chrony` says `active`.',
        },
        {
          kind: 'if it fails',
          moment: '2026-11-03T19:45:10.000+01:00',
          text: lines(
            'IF the job fails, read what the service said last.',
            '',
            '```sh',
            'journalctl -u chrony -n 6 --no-pager -o cat',
            '```',
          ),
          carries: [{ from: { entry: 'b-start-log' }, words: 'journalctl -u chrony -n 6 --no-pager -o cat' }],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-11-03T19:46:20.000+01:00',
          text: lines('See who listens.', '', '```sh', 'ss -uln', '```'),
          carries: [{ from: { entry: 'b-sockets-2' }, words: 'ss -uln' }],
        },
        {
          kind: 'expect',
          moment: '2026-11-03T19:47:30.000+01:00',
          text: lines(
            'A line for port 123:',
            '',
            '```text',
            'UNCONN     0          0                    0.0.0.0:123                 0.0.0.0:*',
            '```',
          ),
          carries: [
            {
              from: { entry: 'b-sockets-2-out' },
              words: 'UNCONN     0          0                    0.0.0.0:123                 0.0.0.0:*',
            },
          ],
        },
        {
          kind: 'if it fails',
          moment: '2026-11-03T19:48:40.000+01:00',
          text: 'IF port 123 is missing, the line with `allow` is missing too, or is misspelt.',
          carries: [
            {
              from: { entry: 'b-no-allow' },
              words: 'Port 123 is missing. I removed the misspelt `allow` and never wrote the right one.',
              as: 'port 123 is missing, the line with `allow` is missing too, or is misspelt',
            },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-11-03T19:49:50.000+01:00',
          text: lines(
            'On each client, make the server the only source.',
            '',
            '```sh',
            "sed -i 's/^pool /#pool /' /etc/chrony/chrony.conf",
            "echo 'server clock.observatory.home.arpa iburst' > /etc/chrony/sources.d/observatory.sources",
            'systemctl enable --now chrony',
            '```',
          ),
          carries: [
            {
              from: { entry: 'b-client' },
              words: lines(
                "sed -i 's/^pool /#pool /' /etc/chrony/chrony.conf",
                "echo 'server clock.observatory.home.arpa iburst' > /etc/chrony/sources.d/observatory.sources",
                'systemctl enable --now chrony',
              ),
            },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-03T19:50:20.000+01:00',
          text: '`systemctl is-active chrony` says `active`.',
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-11-03T19:51:00.000+01:00',
          text: lines(
            'On the client, set the clock from samples that are taken now.',
            '',
            '```sh',
            'chronyc burst 4/4',
            'chronyc waitsync 6 0.1',
            '```',
          ),
          carries: [
            { from: { entry: 'b-burst' }, words: lines('chronyc burst 4/4', 'chronyc waitsync 6 0.1') },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-03T19:52:10.000+01:00',
          text: '`200 OK`, and a last line whose `refid` is not 00000000.',
        },
        {
          kind: 'if it fails',
          moment: '2026-11-03T19:53:20.000+01:00',
          text: lines(
            'IF it gives up after six tries, see whether the server answers:',
            '',
            '```sh',
            'ping -c 2 clock.observatory.home.arpa',
            '```',
          ),
          carries: [
            { from: { entry: 'b-client-ping' }, words: 'ping -c 2 clock.observatory.home.arpa' },
            {
              from: { entry: 'b-client-thinks' },
              words: 'The network is well.',
              as: 'see whether the server answers',
            },
          ],
        },
        {
          kind: 'why',
          moment: '2026-11-03T19:54:30.000+01:00',
          text: 'A client that got no answers asks less and less often.',
          carries: [
            { from: { entry: 'b-slow' }, words: 'A client that got no answers asks less and less often.' },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-11-03T19:55:40.000+01:00',
          text: lines('See what the client follows.', '', '```sh', 'chronyc sources', '```'),
          carries: [{ from: { entry: 'b-synced' }, words: 'chronyc sources' }],
        },
        {
          kind: 'expect',
          moment: '2026-11-03T19:56:50.000+01:00',
          text: lines(
            '`^*` before the name of the server:',
            '',
            '```text',
            '^* clock.observatory.home.a>    10',
            '```',
          ),
          carries: [{ from: { entry: 'b-synced-out' }, words: '^* clock.observatory.home.a>    10' }],
        },
        {
          kind: 'if it fails',
          moment: '2026-11-03T19:58:00.000+01:00',
          text: 'IF it shows `^?` and a reach of 0, the server does not answer. Go back to the step that shows who listens.',
          carries: [
            {
              from: { source: 'reading-chronyc' },
              words: '377 means that all eight were answered, 0 that none was.',
              as: 'a reach of 0, the server does not answer',
            },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-11-03T19:59:10.000+01:00',
          text: lines('On the server, see who asks.', '', '```sh', 'chronyc clients', '```'),
          carries: [{ from: { entry: 'b-clients' }, words: 'chronyc clients' }],
        },
        {
          kind: 'expect',
          moment: '2026-11-03T20:00:20.000+01:00',
          text: 'A line for each client, with no drops.',
          carries: [
            {
              from: { entry: 'b-clients-out' },
              words: 'weather.observatory.home>',
              as: 'A line for each client',
            },
          ],
        },
        {
          kind: 'why',
          moment: '2026-11-03T20:01:30.000+01:00',
          text: 'Agreement is not truth. When the server has no source, all clocks agree and may all be wrong.',
          carries: [
            {
              from: { entry: 'b-not-truth' },
              words:
                'Agreement is not truth. When the server has no source, all clocks agree and may all be wrong.',
            },
          ],
        },
      ],
    },
  ],
}
