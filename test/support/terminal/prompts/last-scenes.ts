/**
 * What is typed in three last sessions, by someone who had not read the reader: two at bash, one at zsh. Recorded once and
 * then left as they are: see the README beside the recordings.
 */
import { branch, hands, pasted, tools, typed, zshFor } from './late-scenes.ts'
import { answer, end, enter, prompt, python, sql, type Scene } from './scenes.ts'

export const lastScenes: readonly Scene[] = [
  {
    name: 'late4-clock-and-code',
    host: 'desk',
    columns: 96,
    command: 'su - mira',
    stage: `${tools}
printf 'As it was typed on Monday:\\n\\n18:41|0|mira@desk logger $ python3 check.py 6\\n2 of 4\\n' > docs/monday.txt
${prompt(
  'mira',
  String.raw`export LANG=C.UTF-8
PS1='\[\e[36m\]\A\[\e[0m\]|$?|\[\e[1m\]\u@\h\[\e[0m\] \W \$ '
eval "$(dircolors -b)"
alias ls='ls --color=auto' grep='grep --color=auto'
PAGER=less GIT_PAGER=less EDITOR=nano`,
)}${prompt('orla', String.raw`PS1='\u@\h:\w\$ '`)}`,
    steps: [
      typed('cd /srv/logger'),
      typed('ls'),
      hands('pyton3[BSpace][BSpace][BSpace][BSpace]hon3 ch[Tab]6[Enter]'),
      typed('gti log --oneline'),
      hands('[Up][C-a][Right][DC][DC]it[Enter]'),
      typed('cat docs/monday.txt'),
      hands('nano conf/lo[Tab][Enter]'),
      hands('[Down][Down][End] Or five.[C-o][Enter][C-x]'),
      typed('git diff --stat | cat'),
      typed('python3'),
      python('import statistics'),
      python('statistics.mean([5.1, 6.0, 7.2])'),
      python('exit()'),
      hands('rm -r do[C-c]'),
      enter,
      pasted('for f in conf/* docs/*; do\n  wc -l "$f"\ndone'),
      typed('ssh orla@weather'),
      typed('cd /srv/logger'),
      typed('grep --color=always -n "#" conf/logger.conf'),
      typed('head -c 40 readings.csv'),
      end,
      typed(
        'awk -F, \'NR > 1 && $3 > 6 { printf "%s %5.1f m/s %s\\n", $1, $3, $4 }\' readings.csv | sort -k2 -n | tail -n 2',
      ),
      typed('cat > /tmp/note <<EOF\n# for Orla\n$ nothing failed\nEOF'),
      typed('printf "%s" done'),
      typed('less README.md'),
      hands('[Space]q'),
      typed('clear'),
      typed('tail -n 2 readings.csv'),
      typed('exit'),
    ],
  },
  {
    name: 'late4-braces-root',
    host: 'gate',
    columns: 82,
    command: 'su -',
    stage: `${tools}
${prompt(
  'root',
  String.raw`PATH=/opt/bin:$PATH
PS1='{\h} \w # '`,
)}${prompt('orla', String.raw`PS1='{\h} \w $ '`)}`,
    steps: [
      typed('cd /etc/ssh'),
      typed('ls'),
      typed('grep -n Port sshd_confg'),
      hands('[Up][BSpace]ig[Enter]'),
      typed('cp -a sshd_config{,.orig}'),
      typed('vi sshd_config'),
      hands('/X11[Enter]ccX11Forwarding no[Escape]:wq[Enter]'),
      typed('diff -u sshd_config.orig sshd_config'),
      typed('sshd -t && echo fine'),
      typed('journalctl -n 4'),
      typed('ssh orla@weather'),
      typed('cd /srv/logger'),
      typed('cat docs/move.txt'),
      typed('sqlite3 readings.db'),
      sql('select count(*) from reading;'),
      sql('select time, wind\n  from reading\n  where wind > 6;'),
      sql('.quit'),
      typed('sudo -i'),
      typed('systemctl status logger'),
      typed('exit'),
      end,
      enter,
      typed('for h in gate clock weather\ndo\n  getent hosts $h\ndone'),
      hands('rm sshd_config.o[C-c]'),
      hands('rm sshd_config.o[Tab][Enter]'),
      typed('tr -d "\\n" < /etc/hostname'),
      typed('cat >> /etc/motd <<!\n# X11 is off\n!'),
      typed(
        'tar -czf /srv/etc-of-the-gate.tgz /etc/ssh/sshd_config /etc/hosts /etc/motd && ls -s /srv/*.tgz',
      ),
      typed('clear'),
      typed('cat /etc/motd'),
      typed('exit'),
    ],
  },
  {
    name: 'late4-zsh-guillemet',
    host: 'clock',
    columns: 90,
    command: 'su -s /usr/bin/zsh - mira',
    stage: `${tools}
${zshFor(
  'mira',
  String.raw`${branch}
export PAGER=less GIT_PAGER=less EDITOR=vi
PROMPT='%F{yellow}%m%f %2~$(branch_ " [" "]") %B»%b '`,
)}${prompt('orla', String.raw`PS1='\h:\w\$ '`)}`,
    steps: [
      typed('cd /srv/logger'),
      typed('ls --color'),
      typed('git stauts'),
      hands('[Up][C-w]status -s[Enter]'),
      hands('cat con[Tab]l[Tab][Enter]'),
      typed('git switch calm'),
      typed('git diff main'),
      typed('grep -rn --color=always wind conf readings.csv'),
      typed('for n in 5 10 20; do\n  python3 check.py $n\ndone'),
      hands('[Up][Enter]'),
      typed('cat <<EOF > /tmp/plan\n» bring a lamp\nclock srv/logger » ls\nEOF'),
      typed('cat /tmp/plan'),
      hands('sudo reb[C-c]'),
      enter,
      typed('sudo -i'),
      answer('starlight'),
      typed('tail -n 3 /opt/log/journal'),
      end,
      typed('ssh orla@weather'),
      typed('tail -n 1 /srv/logger/readings.csv'),
      typed('uptime -p'),
      typed('exit'),
      typed('cut -d, -f3 readings.csv | tail -n 1 | tr -d "\\n"'),
      typed('vi /tmp/plan'),
      hands('Go# and tea[Escape]:wq[Enter]'),
      typed(
        'sqlite3 -header -column readings.db "select time, wind from reading where wind > 5 order by wind desc"',
      ),
      typed('less README.md'),
      hands('[Space]q'),
      typed('clear'),
      typed('send-readings readings.csv'),
      typed('git switch -q main'),
      typed('exit'),
    ],
  },
]
