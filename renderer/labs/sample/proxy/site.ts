/** The request, the certificate and the site. Run for real; test/fixtures/recordings/README.md says what was changed. */
import { lines } from '../lines.ts'
import type { SampleEntry } from '../format.ts'

export const site: readonly SampleEntry[] = [
  {
    key: 'c-keys-stay',
    kind: 'decision',
    moment: '2026-11-10T20:05:42.337+01:00',
    text: lines(
      "The server's key is made on gate.",
      '',
      '> Private keys stay on the machine that uses them. What travels on the stick',
      '>    is public: requests and certificates.',
    ),
    carries: [
      {
        from: { source: 'house-rules' },
        words: lines(
          'Private keys stay on the machine that uses them. What travels on the stick',
          '   is public: requests and certificates.',
        ),
      },
    ],
  },
  {
    key: 'c-request',
    kind: 'action',
    moment: '2026-11-10T20:12:00.000+01:00',
    text: lines(
      'On gate. Key and request.',
      '',
      '```sh',
      'install -d -m 700 /etc/nginx/tls && cd /etc/nginx/tls',
      "openssl req -new -newkey ec -pkeyopt ec_paramgen_curve:P-256 -nodes -keyout www.key -subj '/CN=www.observatory.home.arpa' -addext 'subjectAltName=DNS:www.observatory.home.arpa' -out www.csr",
      '```',
    ),
  },
  {
    key: 'c-request-look',
    kind: 'action',
    moment: '2026-11-10T20:14:26.546+01:00',
    text: lines(
      'Is the name in it?',
      '',
      '```sh',
      "openssl req -in www.csr -noout -text | grep -A 1 'Alternative Name'",
      '```',
    ),
  },
  {
    key: 'c-request-look-out',
    kind: 'output',
    moment: '2026-11-10T20:14:31.208+01:00',
    text: lines(
      '```text',
      '                X509v3 Subject Alternative Name: ',
      '                    DNS:www.observatory.home.arpa',
      '```',
    ),
  },
  {
    key: 'c-request-carry',
    kind: 'action',
    moment: '2026-11-10T20:15:03.842+01:00',
    text: lines('```sh', 'mount /dev/sdb1 /mnt/stick && cp www.csr /mnt/stick/ && umount /mnt/stick', '```'),
  },
  {
    key: 'c-sign-wrong',
    kind: 'action',
    moment: '2026-11-10T20:20:00.000+01:00',
    text: lines(
      'On desk. Signed it.',
      '',
      '```sh',
      'cd /root/ca && mount /dev/sdb1 /mnt/stick',
      'openssl x509 -req -in /mnt/stick/www.csr -CA issuing.crt -CAkey issuing.key -CAcreateserial -days 397 -out www.crt',
      '```',
    ),
  },
  {
    key: 'c-sign-wrong-out',
    kind: 'output',
    moment: '2026-11-10T20:20:33.509+01:00',
    text: lines(
      '```text',
      'Certificate request self-signature ok',
      'subject=CN = www.observatory.home.arpa',
      'Enter pass phrase for issuing.key:',
      '```',
    ),
  },
  {
    key: 'c-sign-carry',
    kind: 'action',
    moment: '2026-11-10T20:21:33.458+01:00',
    text: lines('```sh', 'cp www.crt issuing.crt root.crt /mnt/stick/ && umount /mnt/stick', '```'),
  },
  {
    key: 'c-install',
    kind: 'action',
    moment: '2026-11-10T20:28:00.000+01:00',
    text: lines(
      'On gate.',
      '',
      '```sh',
      'mount /dev/sdb1 /mnt/stick && cp /mnt/stick/www.crt /mnt/stick/issuing.crt /etc/nginx/tls/ && umount /mnt/stick',
      '```',
    ),
  },
  {
    key: 'c-site',
    kind: 'action',
    moment: '2026-11-10T20:29:36.689+01:00',
    text: lines(
      'The site.',
      '',
      '```sh',
      "cat > /etc/nginx/sites-available/www <<'END'",
      'server {',
      '    listen 443 ssl;',
      '    server_name www.observatory.home.arpa',
      '    ssl_certificate /etc/nginx/tls/www.crt;',
      '    ssl_certificate_key /etc/nginx/tls/www.key;',
      '    location / {',
      '        proxy_pass http://weather.observatory.home.arpa:8080;',
      '        proxy_set_header Host $host;',
      '        proxy_set_header X-Forwarded-For $remote_addr;',
      '    }',
      '}',
      'END',
      'rm /etc/nginx/sites-enabled/default; ln -s ../sites-available/www /etc/nginx/sites-enabled/www',
      '```',
    ),
  },
  {
    key: 'c-test-1',
    kind: 'action',
    moment: '2026-11-10T20:37:04.684+01:00',
    failed: true,
    text: lines('```sh', 'nginx -t', '```'),
  },
  {
    key: 'c-test-1-out',
    kind: 'output',
    moment: '2026-11-10T20:37:05.575+01:00',
    text: lines(
      '```text',
      '2026/11/10 20:37:05 [warn] 333#333: server name "/etc/nginx/tls/www.crt" has suspicious symbols in /etc/nginx/sites-enabled/www:4',
      '2026/11/10 20:37:05 [emerg] 333#333: no "ssl_certificate" is defined for the "listen ... ssl" directive in /etc/nginx/sites-enabled/www:1',
      'nginx: configuration file /etc/nginx/nginx.conf test failed',
      '```',
    ),
  },
  {
    key: 'c-semicolon',
    kind: 'problem',
    moment: '2026-11-10T20:37:10.575+01:00',
    text: lines(
      'nginx does not take the file. It complains about the certificate, but look at the line before:',
      '',
      '> Every directive ends with a semicolon. Where one is missing, nginx reads the next line as part of it, and the error names something else.',
    ),
    carries: [
      {
        from: { source: 'reverse-proxy' },
        words:
          'Every directive ends with a semicolon. Where one is missing, nginx reads the next line as part of it, and the error names something else.',
      },
    ],
  },
  {
    key: 'c-semicolon-fix',
    kind: 'fix',
    moment: '2026-11-10T20:37:18.042+01:00',
    text: lines(
      '```sh',
      "sed -i 's/server_name www.observatory.home.arpa$/&;/' /etc/nginx/sites-available/www",
      'nginx -t',
      '```',
    ),
    answers: 'c-semicolon',
  },
  {
    key: 'c-semicolon-out',
    kind: 'output',
    moment: '2026-11-10T20:38:37.636+01:00',
    text: lines(
      '```text',
      'nginx: the configuration file /etc/nginx/nginx.conf syntax is ok',
      'nginx: configuration file /etc/nginx/nginx.conf test is successful',
      '```',
    ),
  },
  {
    key: 'c-nginx-on',
    kind: 'action',
    moment: '2026-11-10T20:38:51.584+01:00',
    text: lines('```sh', 'systemctl enable --now nginx', 'ss -tln', '```'),
  },
  {
    key: 'c-nginx-on-out',
    kind: 'output',
    moment: '2026-11-10T20:39:30.155+01:00',
    text: lines(
      '```text',
      'State      Recv-Q     Send-Q         Local Address:Port           Peer Address:Port     Process     ',
      'LISTEN     0          511                  0.0.0.0:443                 0.0.0.0:*                    ',
      '```',
    ),
  },
  {
    key: 'c-evening',
    kind: 'observation',
    moment: '2026-11-10T20:40:00.155+01:00',
    text: 'Late. Port 443 is open; the clients come on Thursday.',
  },
]
