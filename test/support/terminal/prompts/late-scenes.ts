/**
 * What is typed in five more sessions, by someone who had not read the reader, as different people work: with slips and
 * mends, keys of the history, completion, paging, editors. Recorded once and then left as they are: see the README beside
 * the recordings.
 */
import { answer, end, enter, prompt, python, sql, type Scene, type Step } from './scenes.ts'

const key = (sign: string): string => (sign === '\n' ? 'Enter' : sign === ';' ? '=\\;' : `=${sign}`)

/** Typed sign by sign, so that the shell shows one at a time as it does for a person. */
export const typed = (line: string): Step => ({ keys: [...Array.from(line, key), 'Enter'] })

/** Signs and named keys in turn: a text is typed sign by sign, a name in brackets (`[Up]`) is one key. */
export const hands = (text: string): Step => ({
  keys: text.split(/(\[[A-Z][A-Za-z-]*\])/u).flatMap((part) => {
    const named = /^\[([A-Z][A-Za-z-]*)\]$/u.exec(part)
    return named?.[1] === undefined ? Array.from(part, key) : [named[1]]
  }),
})

/** Put in at once as a terminal does it where the shell asked for bracketed paste; then Enter. */
export const pasted = (text: string): Step => ({
  keys: [`=\u001B[200~${text.replaceAll('\n', '\r')}\u001B[201~`, 'Enter'],
})

export const branch = String.raw`branch_() { local b; b=$(git symbolic-ref --short HEAD 2>/dev/null) || return 0; printf '%s' "$1$b$2"; }`

export const zshFor = (user: string, lines: string): string => String.raw`cat > /home/${user}/.zshrc <<END
preexec() { print -rn -- zsh$'\0'\$USERNAME$'\0'\$HOST$'\0'\$PWD$'\0'"\$1"$'\0' >> $work/truth }
END
cat >> /home/${user}/.zshrc <<'END'
export LANG=C.UTF-8 PATH=/opt/bin:$PATH
autoload -Uz compinit && compinit -u -D
bindkey -e
setopt prompt_subst
${lines}
END
chown ${user} /home/${user}/.zshrc
`

/** Programs of the staged machine: a service manager with its log, and a sender that shows how far it is. */
export const tools = String.raw`git config --system --add safe.directory '*'
echo 'Defaults secure_path="/opt/bin:/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin"' > /etc/sudoers.d/paths
mkdir -p /opt/bin /opt/log
cat > /opt/bin/systemctl <<'END'
#!/bin/sh
case "$1 $2" in
'status logger')
  printf '\033[0;1;32m●\033[0m logger.service - Weather logger of the mast\n'
  printf '     Loaded: loaded (/etc/systemd/system/logger.service; \033[0;1;32menabled\033[0m; preset: enabled)\n'
  printf '     Active: \033[0;1;32mactive (running)\033[0m since Mon 2026-03-02 17:58:41 UTC; 2h 4min ago\n'
  printf '   Main PID: 612 (python3)\n     CGroup: /system.slice/logger.service\n             └─612 python3 /srv/logger/logger.py\n\n'
  tail -n 3 /opt/log/journal;;
'restart logger' | 'reload sshd' | 'daemon-reload ') [ "$(id -u)" = 0 ] || { echo "Failed to $1 $2.service: Access denied" >&2; exit 4; };;
*) echo "Unit $2.service not found." >&2; exit 5;;
esac
END
cat > /opt/log/journal <<'END'
Mar 02 18:10:00 clock logger[612]: 3.1 C, 6.0 m/s, gust > 9
Mar 02 18:11:07 clock sudo[701]:     orla : TTY=pts/1 ; PWD=/srv/logger ; USER=root ; COMMAND=/usr/bin/true
Mar 02 18:12:30 clock sshd[718]: Accepted publickey for orla from 192.0.2.14 port 50112 ssh2
Mar 02 18:20:00 clock logger[612]: 2.9 C, 7.2 m/s, 50 % cloud
Mar 02 18:20:01 clock CRON[733]: (root) CMD (/srv/watch.sh > /dev/null)
Mar 02 18:30:00 clock logger[612]: 2.7 C, 21.4 m/s, alarm # wind
Mar 02 18:30:02 clock logger[612]: $ wall 'the mast must come down'
END
cat > /opt/bin/journalctl <<'END'
#!/bin/sh
lines=10 follow=
while [ $# -gt 0 ]; do case $1 in -n) lines=$2; shift;; -f) follow=1;; esac; shift; done
tail -n "$lines" /opt/log/journal
[ -z "$follow" ] || sleep 30
END
cat > /opt/bin/send-readings <<'END'
#!/bin/sh
[ -r "$1" ] || { echo "send-readings: $1: no such file" >&2; exit 1; }
echo "Sending $1 to archive.example.org"
for n in 5 20 35 50 65 80 95 100; do
  printf '\r[%-20s] %3d %%' "$(printf '%*s' $((n / 5)) '' | tr ' ' '#')" $n; sleep 0.15
done
printf '\r\033[KSent, 100 %% > archive\n'
END
chmod 755 /opt/bin/*
`

export const lateScenes: readonly Scene[] = [
  {
    name: 'late2-environment',
    host: 'desk',
    columns: 92,
    command: 'su - mira',
    stage: `${tools}
printf 'Rack, from the top:\n1 gate    192.0.2.1\n2 clock   192.0.2.2\n# 3 is empty\nroot@gate: ask Orla\n' > /root/rack.txt
chmod 700 /root
cat > docs/last-week.txt <<'END'
What I did when the readings stopped (copied from my terminal):

mira@desk:~$ cd /srv/logger
mira@desk:/srv/logger$ python3 check.py 6
2 of 4
mira@desk:/srv/logger$ sudo systemctl restart logger

and then it ran again.
END
${prompt(
  'mira',
  String.raw`export LANG=C.UTF-8
PATH=/opt/bin:$PATH
PS1='\[\e]0;\u@\h: \w\a\]\[\033[01;32m\]\u@\h\[\033[00m\]:\[\033[01;34m\]\w\[\033[00m\]\$ '
eval "$(dircolors -b)"
alias ls='ls --color=auto' grep='grep --color=auto' ll='ls -alF --time-style=+%F'
PAGER=less GIT_PAGER=less EDITOR=nano`,
)}`,
    steps: [
      typed('cd /srv/logger'),
      typed('ls'),
      typed('ll conf/'),
      typed('gti status'),
      hands('[Up][C-a][Right][DC][DC]it[Enter]'),
      hands('cat re[Tab]'),
      { wait: 300 },
      hands('[Tab][Tab]'),
      { wait: 300 },
      hands('c[Tab][Enter]'),
      typed('nano conf/logger.conf'),
      hands('[Down][Down][Down][End] It once took a minute.[C-o][Enter][C-x]'),
      typed('git diff'),
      typed('git commit -am "Say how slowly the station answers"'),
      typed('git log -p'),
      hands('[Space]'),
      hands('q'),
      typed('cat docs/last-week.txt'),
      typed('python3 -m venv --without-pip ~/env'),
      typed('source ~/env/bin/activate'),
      typed('python check.py 6'),
      typed('python'),
      python('import csv, statistics'),
      python("wind = [float(row['wind']) for row in csv.DictReader(open('readings.csv'))]"),
      python('statistics.mean(wind)'),
      python('for w in wind:\n    print("$", w)\n'),
      python('exit()'),
      typed('send-readings readings.csv'),
      typed('tr -d "\\n" < README.md | tail -c 60'),
      enter,
      typed('cat /root/rack.txt'),
      typed('sudo !!'),
      answer('starlight'),
      hands('rm -rf ~/en[C-c]'),
      enter,
      enter,
      pasted('for f in conf/*.conf README.md; do\n  grep -c "^#" "$f"\ndone'),
      typed(
        'python check.py 6 && python check.py 7 && python check.py 20 && echo "counted thrice" | tee -a ~/counted-on-the-desk.txt',
      ),
      hands('[Up][Up][Up][Down][Down][Enter]'),
      typed('grep -rn "#" conf docs'),
      typed('less README.md'),
      hands('[Space]q'),
      typed('clear'),
      hands('ls -l[C-l]t[Enter]'),
      typed('deactivate'),
      typed('git push'),
      pasted('sudo tail -n 2 /root/rack.txt'),
      typed('exit'),
    ],
  },
  {
    name: 'late2-night-watch',
    host: 'clock',
    columns: 88,
    command: 'su -s /usr/bin/zsh - orla',
    stage: `${tools}
${zshFor(
  'orla',
  `${branch}
PROMPT=$'\\n%F{blue}#%f %F{cyan}%n%f @ %F{green}%m%f in %B%~%b$(branch_ " on git:") [%*] %(?..%F{red}C:%?%f)\\n%F{red}$%f '`,
)}${prompt('root', String.raw`PS1='\[\e[31m\]\h\[\e[0m\]:\w# '`)}`,
    steps: [
      typed('cd /srv/logger'),
      typed('ls -la --color --time-style=+%F'),
      typed('systemctl status logger'),
      typed('jounralctl -u logger -n 5'),
      hands('[Up][C-a][M-d]journalctl[Enter]'),
      typed('journalctl -u logger -n 8 | grep -i gust'),
      typed('sudo systemctl restart loger'),
      enter,
      hands('sudo systemctl restart loger[BSpace][BSpace]ger[Enter]'),
      hands('cat do[Tab]m[Tab][Enter]'),
      typed('for h in gate weather clock; do\n  getent hosts $h.home.arpa\ndone'),
      typed(
        'cat > ~/handover.md <<EOF\n# Night of 2 March\n$ nothing was typed on the mast\n> wind above 20 at 18:30\nEOF',
      ),
      typed('cat ~/handover.md'),
      typed('(sleep 2; echo "mirror done") &'),
      typed('printf "%.1f" $(( (3.4 + 3.1 + 2.9) / 3 ))'),
      { wait: 2200 },
      enter,
      typed('sqlite3 readings.db "select time, wind from reading order by wind desc limit 1"'),
      typed(
        'sqlite3 -header -column readings.db "select substr(time, 12, 5) as at, wind from reading where wind > 5" > /tmp/evening.txt; cat /tmp/evening.txt',
      ),
      hands('sudo reboo[C-c]'),
      typed('journalctl -n 3 -f'),
      { wait: 700 },
      { keys: ['C-c'] },
      typed('vi ~/handover.md'),
      hands('Go$ wind has fallen[Escape]:wq[Enter]'),
      typed('wc -w ~/handover.md'),
      typed('sudo -i'),
      typed('cd /etc'),
      typed('grep -v "^#" ssh/sshd_config | grep .'),
      typed('cp -p hosts hosts.bak'),
      hands('diff hosts hosts.bakk[BSpace] && echo smae[BSpace][BSpace][BSpace]ame[Enter]'),
      end,
      typed('git log --oneline --graph --all --decorate | cat'),
      typed('git switch calm'),
      hands('[Up][Up][Enter]'),
      hands('[C-r]gust[Enter]'),
      typed('clear'),
      typed('scp readings.db orla@weather:/tmp/'),
      { wait: 600 },
      answer('yes'),
      { wait: 600 },
      answer('starlight'),
      { wait: 600 },
      pasted('git diff main --stat | cat'),
      typed('python3 check.py 20'),
      typed('tail -n 1 readings.csv | cut -d, -f3 | tr -d "\\n"'),
      typed('exit'),
    ],
  },
  {
    name: 'late2-numbered-root',
    host: 'gate',
    columns: 80,
    command: 'su -',
    stage: `${tools}
${prompt(
  'root',
  String.raw`bind 'set enable-bracketed-paste off'
PATH=/opt/bin:$PATH
PS1='\h:\w \!\$ '`,
)}${prompt('orla', String.raw`PS1='[\u@\h \W]\$ '`)}${prompt(
      'mira',
      String.raw`bind 'set enable-bracketed-paste off'
PS1='\u:\W\$ '`,
    )}`,
    steps: [
      typed('cd /etc/ssh'),
      typed('ls'),
      hands('gerp[C-u]grep -n Port sshd_config[Enter]'),
      typed('cp -a sshd_config{,.orig}'),
      typed('vi sshd_config'),
      hands('/PermitRoot[Enter]ccPermitRootLogin no[Escape]:wq[Enter]'),
      typed('diff -u sshd_config.orig sshd_config'),
      typed('sshd -t && echo fine'),
      typed('systemctl reload sshd'),
      typed('journalctl -n 6'),
      typed('tar -C / -czf /srv/etc-before.tgz \\\n    etc/ssh/sshd_config etc/hosts \\\n    etc/hostname'),
      hands('ls -s /sr[Tab][Enter]'),
      typed('more sshd_config'),
      hands('[Space]'),
      hands('q'),
      typed('ssh orla@weather'),
      typed('cd /srv/logger'),
      typed('tail -n 3 readings.csv'),
      typed('cat conf/logger.conf'),
      hands('python3 check.py[C-c]'),
      typed('python3 check.py 5'),
      typed('sudo systemctl restart logger'),
      typed('sqlite3 readings.db "select count(*) from reading"'),
      typed('exit'),
      typed('dd if=/dev/urandom of=/dev/null bs=1M count=1200 status=progress'),
      typed('for n in 1 2 3\ndo\n  echo "try $n # not yet"\n  sleep 0.3\ndone'),
      typed('su - mira'),
      typed('id -un'),
      typed('crontab -l'),
      typed('echo -n "0 2 * * * /srv/watch.sh" > jobs; cat jobs'),
      end,
      typed('sleep 1 &'),
      { wait: 1400 },
      enter,
      typed(
        'cat > /etc/motd <<EOF\ngate: what is done as root# is written down.\n> Ask before you restart.\nEOF',
      ),
      typed('cat /etc/motd'),
      typed('cat /etc/hostname; printf "%s" "$(cat /etc/motd)"'),
      hands('[C-r]diff[Enter]'),
      hands('[Up][Up][Up][Down][Enter]'),
      typed('rm sshd_config.orig'),
      hands(
        'mv /srv/etc-before.tgz /root/etc-before-the-change-of-the-second-of-mar[BSpace][BSpace][BSpace]March.tgz[Enter]',
      ),
      typed('history | tail -n 4'),
      typed('exit'),
    ],
  },
  {
    name: 'late2-folder-branch',
    host: 'desk',
    columns: 100,
    command: 'su -s /usr/bin/zsh - mira',
    stage: `${tools}
${zshFor(
  'mira',
  String.raw`${branch}
changed_() { [ -z "$(git status --porcelain 2>/dev/null)" ] || printf ' %%F{yellow}✗'; }
PROMPT='%(?.%F{green}.%F{red})➜%f  %F{cyan}%1~%f $(branch_ "%F{blue}git:(%F{red}" "%F{blue})$(changed_)%f ")'`,
)}${prompt(
      'orla',
      String.raw`export LANG=C.UTF-8
PATH=/opt/bin:$PATH
PS1='\[\033[01;32m\]\u@\h\[\033[01;34m\] \w \$\[\033[00m\] '`,
    )}${prompt(
      'root',
      String.raw`PATH=/opt/bin:$PATH
PS1='\[\033[01;31m\]\h\[\033[01;34m\] \w \$\[\033[00m\] '`,
    )}`,
    steps: [
      typed('cd /srv/logger'),
      typed('ls --color'),
      typed('git st'),
      typed('git status -s'),
      typed('git switch -c gusts'),
      typed('echo "gust = wind > 15" >> conf/logger.conf'),
      typed('nano docs/move.txt'),
      hands('[Down][Down]Orla was there too.[Enter][C-o][Enter][C-x]'),
      typed('git diff'),
      typed('git add -p'),
      answer('y'),
      typed('git commit -m "Keep gusts apart\n\nThe mean hides them."'),
      typed('git checkout -q conf docs; git log --oneline'),
      typed('git clone /srv/logger /tmp/copy'),
      typed('sqlite3 readings.db'),
      sql('.headers on'),
      sql('.mode box'),
      sql('select time, wind\n  from reading\n  where wind > 6;'),
      sql('select temprature from reading;'),
      sql('.quit'),
      typed('ssh orla@weather'),
      typed('cd /srv/logger'),
      typed('ls --color'),
      typed('grep --color=always "#" conf/logger.conf'),
      typed('sudo -i'),
      typed('systemctl status logger --no-pager'),
      typed('echo -n 2 > /run/lock/interval; cat /run/lock/interval'),
      end,
      hands('catt[BSpace] /run/lock/in[Tab][Enter]'),
      end,
      typed('python3 -m http.server 8080 --bind 127.0.0.1 &'),
      { wait: 900 },
      typed('curl -s http://127.0.0.1:8080/README.md | head -n 7'),
      typed('kill %1'),
      enter,
      typed('for f in *.csv conf/*; do\n  echo "$f: $(wc -l < $f)"\ndone'),
      pasted(
        'awk -F, \'NR > 1 { wind += $3; count++ } END { printf "%.2f m/s in the mean of %d readings", wind / count, count }\' readings.csv',
      ),
      hands('[Up][C-a]time [Enter]'),
      hands('[C-r]clone[C-c]'),
      typed('clear'),
      typed('git switch main'),
      hands('git branch -d gus[Tab][Enter]'),
      hands('[Up][C-b][C-b][C-b][C-b][C-b][C-b][BSpace]D[Enter]'),
      typed('cd'),
      typed('exit'),
    ],
  },
  {
    name: 'late2-colon',
    host: 'clock',
    columns: 84,
    command: 'su - mira',
    stage: `${tools}
printf 'time,temperature,wind,note\n2026-03-02T18:00:00Z,3.4,5.1,\n2026-03-02T18:10:00Z,3.1,6.5,\n' > docs/before.csv
printf 'check:\n\tpython3 check.py 6\n\t@echo "> done, 0 %% lost"\n\nshow: check\n\ttail -n 1 readings.csv\n' > Makefile
printf ': clock logger; make check\npython3 check.py 6\n2 of 4\n: clock logger; git switch calm\n' > docs/session.txt
chown mira Makefile
${prompt(
  'mira',
  String.raw`export LANG=C.UTF-8
PS1=': \h \W; '`,
)}${prompt('orla', String.raw`PS1='\h% '`)}`,
    steps: [
      typed('cd /srv/logger'),
      typed('ls -F'),
      typed("awk -F, 'NR>1 {print $3}' readings.csv | sort -n | tail -1"),
      typed('sed -n 3,6p docs/move.txt'),
      hands('mak chek[BSpace]ck[Enter]'),
      hands('[Up][C-a][C-f][C-f][C-f]e[Enter]'),
      typed('make show'),
      typed('sh -x /srv/watch.sh'),
      typed('while true; do date +%T; sleep 1; done'),
      { wait: 1500 },
      { keys: ['C-c'] },
      typed('cat > /tmp/notes'),
      hands('lower the mast;[Enter]: open the lid[Enter]# dry it[Enter]'),
      end,
      typed('wc /tmp/notes'),
      typed('ed /tmp/notes'),
      answer('2s/lid/box/'),
      answer('1,$p'),
      answer('w'),
      answer('q'),
      typed('diff readings.csv docs/before.csv'),
      typed('sleep 30'),
      { wait: 400 },
      { keys: ['C-z'] },
      typed('bg'),
      typed('jobs'),
      typed('kill %1'),
      enter,
      typed('git grep -n wind'),
      typed('git format-patch -1 --stdout calm'),
      typed('ssh orla@weather'),
      typed('cd /srv/logger'),
      typed('grep % readings.csv'),
      typed('head -c 30 readings.csv'),
      enter,
      hands('ls do[Tab][Enter]'),
      hands('cat ..[C-c]'),
      typed('exit'),
      typed('cat docs/session.txt'),
      typed('cp readings.csv /tmp/$(date +%F).csv && ls /tmp/*.csv | sed "s/[0-9]/x/g"'),
      typed(
        'find . -name "*.conf" -o -name "*.py" | xargs grep -l "#" | while read -r file; do echo "$file: remarks"; done',
      ),
      pasted('cat <<! | tr a-z A-Z\nlid\n; box\n!'),
      hands('[Up][Up][Up][C-c]'),
      hands('rm /tmp/nots[Left]e[Enter]'),
      hands('[C-p][C-p][C-p][C-p][C-n][Enter]'),
      typed('printf "%d;" 1 2 3'),
      typed('git stash list'),
      typed('cd /tmp && rm notes'),
      typed('exit'),
    ],
  },
]
