/** How to put a service behind the proxy with a certificate of our own, distilled from the journal. */
import { lines } from '../lines.ts'
import type { SampleProcedure } from '../format.ts'

export const procedure: SampleProcedure = {
  key: 'own-authority',
  created: '2026-11-15T15:00:00.000+01:00',
  title: 'Put a service behind the proxy, with a certificate of our own',
  purpose: lines(
    'People reach the service by name and over TLS. Only the proxy reaches it directly.',
    '',
    'Made for Debian 12, nginx 1.22 and OpenSSL 3.0. You need root shells on three machines: the authority (desk), the proxy (gate) and the service (weather). The web server nginx runs on the last two; the service listens on 127.0.0.1:8080. You need a stick at `/dev/sdb1`, and copies of `/etc/nginx` from the proxy and the service. Steps 1 to 5 and 9 are done once. To renew a certificate, follow steps 6 to 8, 10 and 11.',
  ),
  own: [
    {
      kind: 'how to undo',
      moment: '2026-11-15T15:38:00.000+01:00',
      text: 'On the proxy, remove the link `/etc/nginx/sites-enabled/www`. Put the copies of `/etc/nginx` back on both machines. Reload nginx on both.',
    },
  ],
  steps: [
    {
      place: { host: 'desk', user: 'root' },
      parts: [
        {
          kind: 'done already',
          moment: '2026-11-15T15:00:40.000+01:00',
          text: '`/root/ca/root.key` exists. A second key would replace the one that clients trust.',
        },
        {
          kind: 'caution',
          moment: '2026-11-15T15:01:10.000+01:00',
          text: '**Notice:** A lost passphrase cannot be reset: every client must then be taught a new root.\n\n*To avoid it:* Write it on paper and keep the paper in a safe place.',
          carries: [
            {
              from: { source: 'small-authorities' },
              words: 'A lost passphrase cannot be reset: every client must then be taught a new root.',
            },
          ],
        },
        {
          kind: 'do',
          moment: '2026-11-15T15:02:20.000+01:00',
          text: lines(
            'On the machine of the authority, make a folder and the key of the root.',
            '',
            '```sh',
            'install -d -m 700 /root/ca && cd /root/ca && umask 077',
            'openssl genpkey -algorithm EC -pkeyopt ec_paramgen_curve:P-256 -aes256 -out root.key',
            '```',
          ),
          carries: [
            { from: { entry: 'c-folder' }, words: 'install -d -m 700 /root/ca && cd /root/ca && umask 077' },
            {
              from: { entry: 'c-root-key' },
              words: 'openssl genpkey -algorithm EC -pkeyopt ec_paramgen_curve:P-256 -aes256 -out root.key',
            },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-15T15:02:50.000+01:00',
          text: 'It asks for the passphrase twice. Then `root.key` lies in `/root/ca`.',
        },
      ],
    },
    {
      place: { directory: '/root/ca' },
      parts: [
        {
          kind: 'do',
          moment: '2026-11-15T15:03:30.000+01:00',
          text: lines(
            'Make the root certificate. It is bound to one domain, here observatory.home.arpa.',
            '',
            '```sh',
            "openssl req -x509 -new -key root.key -days 3650 -subj '/O=Hill Observatory/CN=Hill Observatory Root' -addext 'keyUsage=critical,keyCertSign,cRLSign' -addext 'nameConstraints=critical,permitted;DNS:observatory.home.arpa' -out root.crt",
            'openssl x509 -in root.crt -noout -subject -dates -ext basicConstraints,keyUsage,nameConstraints',
            '```',
          ),
          carries: [
            {
              from: { entry: 'c-root' },
              words:
                "openssl req -x509 -new -key root.key -days 3650 -subj '/O=Hill Observatory/CN=Hill Observatory Root' -addext 'keyUsage=critical,keyCertSign,cRLSign' -addext 'nameConstraints=critical,permitted;DNS:observatory.home.arpa' -out root.crt",
            },
            {
              from: { entry: 'c-root-show' },
              words:
                'openssl x509 -in root.crt -noout -subject -dates -ext basicConstraints,keyUsage,nameConstraints',
            },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-15T15:04:40.000+01:00',
          text: lines(
            'The root signs certificates, and it is bound to one domain:',
            '',
            '```text',
            'X509v3 Name Constraints: critical',
            '    Permitted:',
            '      DNS:observatory.home.arpa',
            '```',
          ),
          carries: [
            {
              from: { entry: 'c-root-show-out' },
              words: lines(
                'X509v3 Name Constraints: critical',
                '    Permitted:',
                '      DNS:observatory.home.arpa',
              ),
            },
          ],
        },
        {
          kind: 'why',
          moment: '2026-11-15T15:05:50.000+01:00',
          text: 'A root that is trusted by a browser can vouch for any name on earth. Name constraints tie it down.',
          carries: [
            {
              from: { source: 'small-authorities' },
              words:
                'A root that is trusted by a browser can vouch for any name on earth. Name constraints tie it down',
            },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-11-15T15:07:00.000+01:00',
          text: lines(
            'Make the issuing authority, signed by the root.',
            '',
            '```sh',
            'openssl genpkey -algorithm EC -pkeyopt ec_paramgen_curve:P-256 -aes256 -out issuing.key',
            "openssl req -new -key issuing.key -subj '/O=Hill Observatory/CN=Hill Observatory Issuing' -out issuing.csr",
            "printf 'basicConstraints=critical,CA:TRUE,pathlen:0\\nkeyUsage=critical,keyCertSign,cRLSign\\n' > issuing.ext",
            'openssl x509 -req -in issuing.csr -CA root.crt -CAkey root.key -CAcreateserial -days 1825 -extfile issuing.ext -out issuing.crt',
            '```',
          ),
          carries: [
            {
              from: { entry: 'c-issuing-key' },
              words: lines(
                'openssl genpkey -algorithm EC -pkeyopt ec_paramgen_curve:P-256 -aes256 -out issuing.key',
                "openssl req -new -key issuing.key -subj '/O=Hill Observatory/CN=Hill Observatory Issuing' -out issuing.csr",
              ),
            },
            {
              from: { entry: 'c-issuing' },
              words: lines(
                "printf 'basicConstraints=critical,CA:TRUE,pathlen:0\\nkeyUsage=critical,keyCertSign,cRLSign\\n' > issuing.ext",
                'openssl x509 -req -in issuing.csr -CA root.crt -CAkey root.key -CAcreateserial -days 1825 -extfile issuing.ext -out issuing.crt',
              ),
            },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-15T15:07:30.000+01:00',
          text: 'The last command asks for the passphrase of the root and prints the subject of the issuing authority.',
        },
        {
          kind: 'why',
          moment: '2026-11-15T15:08:10.000+01:00',
          text: 'The issuing authority may be replaced without visiting every client.',
          carries: [
            {
              from: { source: 'small-authorities' },
              words: 'It may be replaced without visiting every client.',
              as: 'may be replaced without visiting every client.',
            },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-11-15T15:09:20.000+01:00',
          text: lines(
            'Verify what you made.',
            '',
            '```sh',
            'openssl verify -CAfile root.crt issuing.crt',
            '```',
          ),
          carries: [
            { from: { entry: 'c-issuing-verify' }, words: 'openssl verify -CAfile root.crt issuing.crt' },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-15T15:10:30.000+01:00',
          text: lines('```text', 'issuing.crt: OK', '```'),
          carries: [{ from: { entry: 'c-issuing-verify-out' }, words: 'issuing.crt: OK' }],
        },
      ],
    },
    {
      place: { host: 'gate', user: 'root' },
      parts: [
        {
          kind: 'do',
          moment: '2026-11-15T15:11:40.000+01:00',
          text: lines(
            'On the proxy, make the key of the server.',
            '',
            '```sh',
            'install -d -m 700 /etc/nginx/tls && cd /etc/nginx/tls',
            'umask 077',
            'openssl genpkey -algorithm EC -pkeyopt ec_paramgen_curve:P-256 -out www.key',
            '```',
          ),
          carries: [
            { from: { entry: 'c-request' }, words: 'install -d -m 700 /etc/nginx/tls && cd /etc/nginx/tls' },
            {
              from: { source: 'openssl-sheet' },
              words: 'genpkey -algorithm EC -pkeyopt ec_paramgen_curve:P-256 [-aes256] -out KEY',
              as: 'genpkey -algorithm EC -pkeyopt ec_paramgen_curve:P-256 -out www.key',
            },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-15T15:12:10.000+01:00',
          text: '`www.key` lies in `/etc/nginx/tls`, and only root can read it.',
        },
        {
          kind: 'why',
          moment: '2026-11-15T15:12:50.000+01:00',
          text: 'Private keys stay on the machine that uses them. What travels on the stick is public.',
          carries: [
            { from: { entry: 'c-keys-stay' }, words: 'Private keys stay on the machine that uses them.' },
          ],
        },
      ],
    },
    {
      place: { directory: '/etc/nginx/tls' },
      parts: [
        {
          kind: 'do',
          moment: '2026-11-15T15:14:00.000+01:00',
          text: lines(
            'Make the request with every name that people use. The second command shows the names, the third one puts the request on the stick.',
            '',
            '```sh',
            "cd /etc/nginx/tls && openssl req -new -key www.key -subj '/CN=www.observatory.home.arpa' -addext 'subjectAltName=DNS:www.observatory.home.arpa,DNS:gate.observatory.home.arpa' -out www.csr",
            "openssl req -in www.csr -noout -text | grep -A 1 'Alternative Name'",
            'mount /dev/sdb1 /mnt/stick && cp www.csr /mnt/stick/ && umount /mnt/stick',
            '```',
          ),
          carries: [
            {
              from: { entry: 'c-request-2' },
              words:
                "cd /etc/nginx/tls && openssl req -new -key www.key -subj '/CN=www.observatory.home.arpa' -addext 'subjectAltName=DNS:www.observatory.home.arpa,DNS:gate.observatory.home.arpa' -out www.csr",
            },
            {
              from: { entry: 'c-request-look' },
              words: "openssl req -in www.csr -noout -text | grep -A 1 'Alternative Name'",
            },
            {
              from: { entry: 'c-request-2' },
              words: 'mount /dev/sdb1 /mnt/stick && cp www.csr /mnt/stick/ && umount /mnt/stick',
            },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-15T15:15:10.000+01:00',
          text: 'All names under "Subject Alternative Name".',
          carries: [{ from: { entry: 'c-request-look-out' }, words: 'Subject Alternative Name' }],
        },
        {
          kind: 'why',
          moment: '2026-11-15T15:16:20.000+01:00',
          text: 'The certificate needs all names: "no alternative certificate subject name matches" is what a client says otherwise.',
          carries: [
            { from: { entry: 'c-gate-name-out' }, words: 'no alternative certificate subject name matches' },
          ],
        },
      ],
    },
    {
      place: { host: 'desk', user: 'root', directory: '/root/ca' },
      parts: [
        {
          kind: 'do',
          moment: '2026-11-15T15:17:30.000+01:00',
          text: lines(
            'On the machine of the authority, sign the request.',
            '',
            '```sh',
            'cd /root/ca && mount /dev/sdb1 /mnt/stick',
            'openssl x509 -req -in /mnt/stick/www.csr -copy_extensions copy -CA issuing.crt -CAkey issuing.key -days 397 -out www.crt',
            '```',
          ),
          carries: [
            {
              from: { entry: 'c-sign-2' },
              words: lines(
                'cd /root/ca && mount /dev/sdb1 /mnt/stick',
                'openssl x509 -req -in /mnt/stick/www.csr -copy_extensions copy -CA issuing.crt -CAkey issuing.key -days 397 -out www.crt',
              ),
            },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-15T15:18:00.000+01:00',
          text: 'The last command asks for the passphrase of the issuing authority and prints the subject of the server.',
        },
        {
          kind: 'why',
          moment: '2026-11-15T15:18:40.000+01:00',
          text: 'The request has the names, and signing drops them without `-copy_extensions copy`.',
          carries: [
            {
              from: { entry: 'c-san-why' },
              words: 'The request had the name, and the signing dropped it.',
              as: 'The request has the names, and signing drops them',
            },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-11-15T15:19:50.000+01:00',
          text: lines(
            'Put the chain on the stick. The first two commands show names, dates and chain.',
            '',
            '```sh',
            'openssl x509 -in www.crt -noout -dates -ext subjectAltName',
            'openssl verify -CAfile root.crt -untrusted issuing.crt -verify_hostname gate.observatory.home.arpa www.crt',
            'cat www.crt issuing.crt > /mnt/stick/www-chain.crt && umount /mnt/stick',
            '```',
          ),
          carries: [
            {
              from: { entry: 'c-sign-2-look' },
              words: lines(
                'openssl x509 -in www.crt -noout -dates -ext subjectAltName',
                'openssl verify -CAfile root.crt -untrusted issuing.crt -verify_hostname gate.observatory.home.arpa www.crt',
              ),
            },
            {
              from: { entry: 'c-chain-2' },
              words: 'cat www.crt issuing.crt > /mnt/stick/www-chain.crt && umount /mnt/stick',
            },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-15T15:21:00.000+01:00',
          text: lines(
            '```text',
            'X509v3 Subject Alternative Name: ',
            '    DNS:www.observatory.home.arpa, DNS:gate.observatory.home.arpa',
            'www.crt: OK',
            '```',
          ),
          carries: [
            {
              from: { entry: 'c-sign-2-look-out' },
              words: lines(
                'X509v3 Subject Alternative Name: ',
                '    DNS:www.observatory.home.arpa, DNS:gate.observatory.home.arpa',
                'www.crt: OK',
              ),
            },
          ],
        },
        {
          kind: 'if it fails',
          moment: '2026-11-15T15:22:10.000+01:00',
          text: 'IF it says "No extensions in certificate", sign again with `-copy_extensions copy`. Do not trust curl here; it takes the common name.',
          carries: [
            { from: { entry: 'c-san-look-out' }, words: 'No extensions in certificate' },
            {
              from: { entry: 'c-san-problem' },
              words: 'curl took the common name and said nothing',
              as: 'Do not trust curl here; it takes the common name',
            },
          ],
        },
        {
          kind: 'why',
          moment: '2026-11-15T15:23:20.000+01:00',
          text: 'Clients trust the root only. So a server must send its own certificate and that of the issuing authority.',
          carries: [
            {
              from: { entry: 'c-two-levels' },
              words:
                'Clients trust the root only. So a server must send its own certificate and that of the issuing authority.',
            },
          ],
        },
      ],
    },
    {
      place: { host: 'weather', user: 'root' },
      parts: [
        {
          kind: 'do',
          moment: '2026-11-15T15:24:30.000+01:00',
          text: lines(
            'Close the back door of the service, on its own machine.',
            '',
            '```sh',
            "sed -i 's/listen 127.0.0.1:8080/listen 192.0.2.11:8080/' /etc/nginx/sites-available/latest",
            "sed -i 's#root /srv/www;#&\\n    allow 192.0.2.13;\\n    deny all;#' /etc/nginx/sites-available/latest",
            'nginx -t && systemctl restart nginx',
            '```',
          ),
          carries: [
            {
              from: { entry: 'c-backend-open' },
              words: lines(
                "sed -i 's/listen 127.0.0.1:8080/listen 192.0.2.11:8080/' /etc/nginx/sites-available/latest",
                "sed -i 's#root /srv/www;#&\\n    allow 192.0.2.13;\\n    deny all;#' /etc/nginx/sites-available/latest",
                'nginx -t && systemctl restart nginx',
              ),
            },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-15T15:25:40.000+01:00',
          text: 'The service listens on its own address, not on loopback.',
          carries: [
            {
              from: { entry: 'c-loopback' },
              words: 'The service on weather listens on loopback',
              as: 'The service listens on its own address, not on loopback',
            },
          ],
        },
        {
          kind: 'if it fails',
          moment: '2026-11-15T15:26:50.000+01:00',
          text: 'IF `nginx -t` says that a directive is duplicate, the second command ran twice. Remove the extra lines with an editor.',
        },
      ],
    },
    {
      place: { host: 'gate', user: 'root' },
      parts: [
        {
          kind: 'caution',
          moment: '2026-11-15T15:28:00.000+01:00',
          text: '**Notice:** Copying replaces the chain that the proxy uses now. Keep the old one beside it, and test before you reload.',
          carries: [
            {
              from: { entry: 'c-keep-old' },
              words: 'The old chain stays beside the new one.',
              as: 'Keep the old one beside it',
            },
          ],
        },
        {
          kind: 'do',
          moment: '2026-11-15T15:29:10.000+01:00',
          text: lines(
            'On the proxy, install the chain and the site. The last command tests before it reloads. IF there is no old chain to keep, skip the first command.',
            '',
            '```sh',
            'cp -a /etc/nginx/tls/www-chain.crt /etc/nginx/tls/www-chain.crt.old',
            'mount /dev/sdb1 /mnt/stick && cp /mnt/stick/www-chain.crt /etc/nginx/tls/ && umount /mnt/stick',
            "cat > /etc/nginx/sites-available/www <<'END'",
            'server {',
            '    listen 443 ssl;',
            '    server_name www.observatory.home.arpa gate.observatory.home.arpa;',
            '    ssl_certificate /etc/nginx/tls/www-chain.crt;',
            '    ssl_certificate_key /etc/nginx/tls/www.key;',
            '    location / {',
            '        proxy_pass http://weather.observatory.home.arpa:8080;',
            '        proxy_set_header Host $host;',
            '        proxy_set_header X-Forwarded-For $remote_addr;',
            '    }',
            '}',
            'END',
            'ln -sfn ../sites-available/www /etc/nginx/sites-enabled/www',
            'nginx -t && systemctl reload nginx',
            '```',
          ),
          carries: [
            {
              from: { entry: 'c-keep-old' },
              words: lines(
                'cp -a /etc/nginx/tls/www-chain.crt /etc/nginx/tls/www-chain.crt.old',
                'mount /dev/sdb1 /mnt/stick && cp /mnt/stick/www-chain.crt /etc/nginx/tls/ && umount /mnt/stick',
              ),
            },
            {
              from: { entry: 'c-site' },
              words: lines(
                '    location / {',
                '        proxy_pass http://weather.observatory.home.arpa:8080;',
                '        proxy_set_header Host $host;',
                '        proxy_set_header X-Forwarded-For $remote_addr;',
                '    }',
                '}',
              ),
            },
            { from: { entry: 'c-reinstall' }, words: 'nginx -t && systemctl reload nginx' },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-15T15:30:20.000+01:00',
          text: lines(
            '```text',
            'nginx: the configuration file /etc/nginx/nginx.conf syntax is ok',
            'nginx: configuration file /etc/nginx/nginx.conf test is successful',
            '```',
          ),
          carries: [
            {
              from: { entry: 'c-semicolon-out' },
              words: lines(
                'nginx: the configuration file /etc/nginx/nginx.conf syntax is ok',
                'nginx: configuration file /etc/nginx/nginx.conf test is successful',
              ),
            },
          ],
        },
        {
          kind: 'if it fails',
          moment: '2026-11-15T15:31:30.000+01:00',
          text: 'IF the test complains about the certificate, look at the line before for a missing semicolon. The old configuration stays in use.',
          carries: [
            {
              from: { entry: 'c-semicolon' },
              words: 'It complains about the certificate, but look at the line before:',
              as: 'IF the test complains about the certificate, look at the line before',
            },
          ],
        },
      ],
    },
    {
      place: { host: 'desk', user: 'root' },
      parts: [
        {
          kind: 'do',
          moment: '2026-11-15T15:32:40.000+01:00',
          text: lines(
            'From another machine, ask through the proxy and past it.',
            '',
            '```sh',
            'curl --cacert /root/ca/root.crt https://www.observatory.home.arpa/latest.json https://gate.observatory.home.arpa/latest.json',
            "curl -o /dev/null -s -w '%{http_code}\\n' http://weather.observatory.home.arpa:8080/latest.json",
            '```',
          ),
          carries: [
            {
              from: { entry: 'c-both' },
              words:
                'curl --cacert /root/ca/root.crt https://www.observatory.home.arpa/latest.json https://gate.observatory.home.arpa/latest.json',
            },
            {
              from: { entry: 'c-backdoor' },
              words:
                "curl -o /dev/null -s -w '%{http_code}\\n' http://weather.observatory.home.arpa:8080/latest.json",
            },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-11-15T15:33:50.000+01:00',
          text: lines('The reading twice, then:', '', '```text', '403', '```'),
          carries: [{ from: { entry: 'c-closed' }, words: '403' }],
        },
        {
          kind: 'if it fails',
          moment: '2026-11-15T15:35:00.000+01:00',
          text: lines(
            'IF curl cannot get the local issuer, the chain file lacks the issuing authority. IF the answer is 502, read the last line of the error log on the proxy.',
            '',
            '```sh',
            'tail -n 1 /var/log/nginx/error.log',
            '```',
          ),
          carries: [
            {
              from: { entry: 'c-chain-why' },
              words: 'The server sends one certificate where two are needed.',
              as: 'the chain file lacks the issuing authority',
            },
            { from: { entry: 'c-error-log' }, words: 'tail -n 1 /var/log/nginx/error.log' },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-11-15T15:36:10.000+01:00',
          text: 'Write the day of renewal into the calendar of the volunteers, one month before the end.',
        },
      ],
    },
  ],
  silences: [
    {
      moment: '2026-11-15T15:39:00.000+01:00',
      rule: 'literal value',
      step: 2,
      words: 'observatory.home.arpa',
      reason: 'These are the names of this observatory, and the step says so.',
    },
    {
      moment: '2026-11-15T15:39:20.000+01:00',
      rule: 'literal value',
      step: 6,
      words: '/dev/sdb1',
      reason: 'The stick is named among what is needed before the first step.',
    },
    {
      moment: '2026-11-15T15:39:40.000+01:00',
      rule: 'no evidence',
      step: 12,
      words: 'Write the day of renewal into the calendar of the volunteers, one month before the end.',
      reason: 'It was agreed at a table, not at a keyboard.',
    },
  ],
  leftOut: [
    {
      moment: '2026-11-15T15:40:00.000+01:00',
      reason: 'The page behind the proxy is a job of its own; the procedure begins where it answers.',
      commands: [
        {
          entry: 'c-backend',
          words: [
            'install -d /srv/www',
            '> /srv/www/latest.json',
            'cat > /etc/nginx/sites-available/latest',
            'ln -s ../sites-available/latest /etc/nginx/sites-enabled/latest',
          ],
        },
      ],
    },
  ],
}
