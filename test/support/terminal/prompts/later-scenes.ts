/**
 * What is typed in four more sessions, by someone who had not read the reader: two people at bash, one at zsh, one at
 * fish. Recorded once and then left as they are: see the README beside the recordings.
 */
import { branch, hands, pasted, tools, typed, zshFor } from './late-scenes.ts'
import { answer, end, enter, prompt, python, sql, type Scene } from './scenes.ts'

/** A second host to go to, and a web server: what the staged machine has beyond the tools. */
const around = String.raw`${tools}
mkdir /opt/www
printf '{"time": "2026-03-02T18:30:00Z", "wind": 21.4, "note": "alarm # wind"}' > /opt/www/now.json
head -c 2500000 /dev/zero > /opt/www/archive.tar
(cd /opt/www && exec python3 -m http.server --bind 127.0.0.1 80 > /dev/null 2>&1) &
`

/** fish tells each line that it is about to run. */
const fishFor = (user: string, lines: string): string => String.raw`mkdir -p /home/${user}/.config/fish
cat > /home/${user}/.config/fish/config.fish <<END
function truth_ --on-event fish_preexec
  printf '%s\0' fish \$USER \$hostname \$PWD "\$argv[1]" >> $work/truth
end
END
cat >> /home/${user}/.config/fish/config.fish <<'END'
${lines}
END
chown -R ${user} /home/${user}/.config
`

export const laterScenes: readonly Scene[] = [
  {
    name: 'late3-code-below',
    host: 'desk',
    columns: 94,
    command: 'su - mira',
    stage: `${around}
cat > docs/yesterday.txt <<'END'
For Orla, how the gusts were counted:

mira@desk /srv/logger ‹main› 21:40:12
[0]$ python3 check.py 20
1 of 4
mira@desk /srv/logger ‹main› 21:40:31
[0]$ git switch calm

$ is for all, # only for root.
END
${prompt(
  'mira',
  String.raw`export LANG=C.UTF-8
PATH=/opt/bin:$PATH
${branch}
PS1='\[\e[32m\]\u@\h\[\e[0m\] \[\e[1;34m\]\w\[\e[0m\]\[\e[33m\]$(code_=$?; branch_ " ‹" "›"; exit $code_)\[\e[0m\] \[\e[90m\]\t\[\e[0m\]\n[$?]\$ '
eval "$(dircolors -b)"
alias ls='ls --color=auto' grep='grep --color=auto' l='ls -l --time-style=+%F'
PAGER=less GIT_PAGER=less EDITOR=nano`,
)}${prompt(
      'orla',
      String.raw`export LANG=C.UTF-8
PS1='\[\e[01;32m\]\u@\h\[\e[00m\]:\[\e[01;34m\]\w \$\[\e[00m\] '`,
    )}${prompt('root', 'PATH=/opt/bin:$PATH')}`,
    steps: [
      typed('cd /srv/logger'),
      typed('git pull'),
      typed('git log --oneline -n 5'),
      typed('l'),
      typed('gerp -n wind conf/logger.conf readings.csv'),
      hands('[Up][C-a][C-f][DC][DC]re[Enter]'),
      hands('python3 chekc.py[C-u]python3 ch[Tab]6[Enter]'),
      hands('nano REA[Tab][Enter]'),
      hands('[Down][Down][End] It is in Python.[C-o][Enter][C-x]'),
      typed('git diff'),
      typed('git commit -qam "Say what it is written in" && git log -1 --stat'),
      typed('for n in 5 10 20; do\n  printf "%s: " $n\n  python3 check.py $n\ndone'),
      hands('[Up] | tac[Enter]'),
      typed('curl -s http://weather.home.arpa/now.json'),
      hands('[Up] | python3 -m json.tool[Enter]'),
      typed('curl --limit-rate 900k -o /tmp/archive.tar http://weather.home.arpa/archive.tar'),
      typed(
        'awk -F, \'NR > 1 && $3 > 6 { printf "%s  %5.1f m/s  %s\\n", substr($1, 12, 5), $3, $4 }\' readings.csv | sort -k2 -n',
      ),
      typed('sleep 2 &'),
      typed('cat docs/yesterday.txt'),
      { wait: 1500 },
      enter,
      enter,
      hands('rm -r docs/[C-c]'),
      typed('sudo -i'),
      answer('starlight'),
      typed('du -s --apparent-size /srv/logger/* | sort -n | tail -n 3'),
      typed('journalctl -n 4'),
      hands('systemctl restart loger[BSpace][BSpace][BSpace]gger[Enter]'),
      typed('exit'),
      typed('ssh orla@weather'),
      typed('cd /srv/logger && tail -n 2 readings.csv'),
      typed('grep --color=always -n "[#>]" README.md conf/logger.conf'),
      hands('cat docs/m[Tab][Enter]'),
      end,
      typed(
        'cat > /tmp/mail.txt <<EOF\nDear Orla,\n$ is what we type, > what it answers.\n[0]$ means it went well.\nEOF',
      ),
      typed('wc -l /tmp/mail.txt; tail -c 8 /tmp/mail.txt | tr -d "\\n"'),
      typed('less README.md'),
      hands('/mast[Enter]q'),
      hands('[C-r]check.py $n[C-c]'),
      hands('[C-r]awk[Enter]'),
      hands('git sta[C-l]sh list[Enter]'),
      typed('clear'),
      typed('git push origin main'),
      typed('exit'),
    ],
  },
  {
    name: 'late3-angle-root',
    host: 'gate',
    columns: 80,
    command: 'su - mira',
    stage: `${around}
printf '1 gate.home.arpa\n2 clock.home.arpa\n3 weather.home.arpa\n' > /root/rack.txt
cat > /root/notes.txt <<'END'
The evening when gate was renewed:

gate:~ # tar -xzf keep.tgz -C /
gate:~ # exit
mira@gate:~> ssh orla@weather

> 192.0.2.1 stays what it is
# nothing else to do
END
head -c 24000000 /dev/zero > /srv/night.img
${prompt('mira', String.raw`PS1='\u@\h:\w> '`)}${prompt('orla', String.raw`PS1='\u@\h:\w> '`)}${prompt(
      'root',
      String.raw`PATH=/opt/bin:$PATH
PS1='\h:\w # '`,
    )}`,
    steps: [
      typed('id'),
      typed('cat /etc/hosts'),
      typed('ssh orla@waether'),
      { wait: 500 },
      hands('[Up][BSpace][BSpace][BSpace][BSpace][BSpace][BSpace]eather[Enter]'),
      typed('cd /srv/logger'),
      typed('ls -F'),
      typed('sqlite3 readings.db'),
      sql('.tables'),
      sql('.mode column'),
      sql('select * from reading where wind > 6;'),
      sql('select count(*),\n  avg(wind)\n  from reading;'),
      sql('select gust from reading;'),
      sql('.quit'),
      typed('sed -n 5,20p README.md'),
      typed('sudo -i'),
      typed('cd /etc/ssh'),
      typed('vi sshd_config'),
      hands('/X11[Enter]A # no screen here[Escape]:wq[Enter]'),
      typed('grep -n X11 sshd_config'),
      typed('sshd -t; echo $?'),
      hands('systemctl relaod[BSpace][BSpace][BSpace]oad sshd[Enter]'),
      typed('exit'),
      typed('date +%F | tr -d "\\n" > /tmp/stamp; cat /tmp/stamp'),
      end,
      enter,
      typed('sudo -i'),
      answer('starlihgt'),
      { wait: 2500 },
      answer('starlight'),
      typed('ls'),
      typed('cat notes.txt'),
      hands('cp /etc/hosts /etc/hosts.ba[C-c]'),
      typed('while read -r n host; do\n  echo "$n> $host"\ndone < rack.txt'),
      typed('tar -czvf /srv/keep.tgz \\\n  -C / etc/hosts etc/motd \\\n  etc/ssh/ssh_config'),
      hands('tar -tf /srv/k[Tab][Enter]'),
      typed('rsync --progress --bwlimit=9m /srv/night.img orla@weather:/tmp/'),
      { wait: 3000 },
      typed('sleep 1 &'),
      typed('grep -c . notes.txt'),
      { wait: 1200 },
      enter,
      typed(
        'for f in /etc/ssh/ssh_config /etc/ssh/sshd_config /etc/hosts; do printf "%-24s %3d lines\\n" $f $(wc -l < $f); done',
      ),
      hands('[Up][Up][Enter]'),
      typed('cat >> notes.txt <<!\n\n$ the image went over in three seconds\n# ask Orla\n!'),
      typed('tail -n 3 notes.txt'),
      typed('clear'),
      hands('rm /srv/night.im[Tab][Enter]'),
      hands('[C-r]tar -c[Enter]'),
      typed('exit'),
      typed('exit'),
    ],
  },
  {
    name: 'late3-zsh-failure-first',
    host: 'clock',
    columns: 90,
    command: 'su -s /usr/bin/zsh - orla',
    stage: `${around}
chown -R orla /srv/logger
${zshFor(
  'orla',
  String.raw`${branch}
eval "$(dircolors -b)"
alias ls='ls --color=auto' grep='grep --color=auto'
export PAGER=less GIT_PAGER=less EDITOR=vi
PROMPT='%(?..%F{red}%? %f)%F{blue}%n%f@%m %B%~%b $(branch_ "%F{magenta}(%f" "%F{magenta})%f ")%# '`,
)}`,
    steps: [
      typed('cd /srv/logger'),
      typed('ls -lh --time-style=+%F'),
      hands('git bra[Tab]'),
      { wait: 800 },
      hands('[Enter]'),
      typed('git chekcout calm'),
      hands('[Up][C-w][C-w]checkout calm[Enter]'),
      typed('tail -n 2 conf/logger.conf'),
      hands('cat con[Tab][Tab][C-u]cat docs/move.txt[Enter]'),
      typed('grep -rn --color=always "#" conf docs | head -n 5'),
      typed('python3'),
      python('import csv'),
      python("rows = list(csv.DictReader(open('readings.csv')))"),
      python('len(rows)'),
      python("for row in rows:\n    print('%', row['time'][11:16], row['wind'])\n"),
      python("rows[4]['wind']"),
      python('print(rows[0]["wind"], end="")'),
      python('quit()'),
      typed('curl -s http://weather.home.arpa/now.json'),
      hands('[Up] | tr , "[C-v][C-j]"[C-c]'),
      typed('wget -q --show-progress --limit-rate=1m -P /tmp http://weather.home.arpa/archive.tar'),
      { wait: 1500 },
      typed('for f in conf/* docs/*; do\n  wc -l $f\ndone'),
      typed(
        'cat <<EOF > /tmp/plan.txt\n% of the sky: 50\n$ nothing yet\norla@clock ~ % means the clock\nEOF',
      ),
      typed('cat /tmp/plan.txt'),
      typed('(sleep 2; true) &'),
      typed('vi /tmp/plan.txt'),
      hands('Go# bring a lamp[Escape]:wq[Enter]'),
      { wait: 1000 },
      enter,
      typed('git log -p main'),
      hands('[Space]q'),
      typed('sudo -i'),
      typed('ls /srv'),
      typed('tail -n 3 /opt/log/journal'),
      hands('echo "observatory.example.org" > /etc/mailnmae[BSpace][BSpace][BSpace]ame[Enter]'),
      typed('cat /etc/mailname'),
      end,
      typed('false'),
      enter,
      hands('less REA[Tab][Enter]'),
      hands('[Space]q'),
      typed(
        'sqlite3 -separator " > " readings.db "select substr(time, 12, 5), wind from reading order by wind desc" && echo "that was the evening"',
      ),
      hands('[Up][C-a]time [Enter]'),
      { keys: [...Array.from('mkdir /tmp/of-the-night', (sign) => `=${sign}`), 'Enter'] },
      { keys: [...Array.from('cd ', (sign) => `=${sign}`), 'M-.', 'Enter'] },
      typed('cp /srv/logger/readings.csv . && ls'),
      pasted('cut -d, -f1,3 readings.csv |\n  tail -n +2 |\n  sort -t, -k2 -n'),
      hands('cd -[Enter]'),
      hands('git sta[C-l]tus -s[Enter]'),
      typed('git commit --amend'),
      hands('A, and no more[Escape]:wq[Enter]'),
      hands('[C-r]plan[C-r][Enter]'),
      typed('exit'),
    ],
  },
  {
    name: 'late3-fish',
    host: 'desk',
    columns: 86,
    command: 'su -s /usr/bin/fish - mira',
    stage: `${around}
cat > docs/fish.txt <<'END'
What I typed when I was new to it:

mira@desk ~> cd /srv/logger
mira@desk /s/logger (main)> python3 check.py 6
2 of 4
END
${fishFor(
  'mira',
  String.raw`set -gx LANG C.UTF-8
set -gx PATH /opt/bin $PATH
set -gx PAGER less
set -gx GIT_PAGER less
set -gx EDITOR nano`,
)}${prompt('orla', String.raw`PS1='\u@\h \W \$ '`)}`,
    steps: [
      typed('cd /srv/logger'),
      typed('ls'),
      typed('git status -s'),
      hands('cat conf/lo[Tab][Enter]'),
      typed('pyhton3 check.py 6'),
      hands('[Up][C-a][C-f][C-f][DC]t[C-f]h[BSpace][C-d]h[C-c]'),
      hands('python3 ch[Tab]6[Enter]'),
      typed('cat docs/fish.txt'),
      typed('for f in *.csv conf/*\nwc -l $f\nend'),
      typed('grep -n "#" conf/logger.conf readings.csv'),
      typed('nano docs/move.txt'),
      hands('[Down][Down][End] It rained.[C-o][Enter][C-x]'),
      typed('git diff'),
      hands('git di[Right][Enter]'),
      typed('false'),
      enter,
      typed('curl -s http://weather.home.arpa/now.json'),
      hands('[Up] | python3 -m json.tool[Enter]'),
      typed('curl -# --limit-rate 900k -o /tmp/archive.tar http://weather.home.arpa/archive.tar'),
      { wait: 1500 },
      typed('cat > /tmp/note.txt'),
      hands('> lower the mast[Enter]mira@desk ~> is the prompt[Enter]'),
      end,
      typed('wc -l /tmp/note.txt'),
      hands('rm -r /tmp/no[C-c]'),
      typed('sleep 1 &'),
      { wait: 1300 },
      enter,
      typed('ssh orla@weather'),
      typed('cd /srv/logger'),
      typed('head -n 3 readings.csv'),
      hands('tial[C-u]tail -n 1 readings.csv | cut -d, -f4[Enter]'),
      typed('cat <<EOF >> /tmp/seen.txt\n$ all was well\nEOF'),
      typed('exit'),
      typed('sudo -i'),
      answer('starlight'),
      typed('journalctl -n 3'),
      typed('ls --color=always /srv/logger'),
      end,
      typed(
        'awk -F, \'NR > 1 { sum += $3 } END { printf "%.2f m/s in the mean of %d readings\\n", sum / (NR - 1), NR - 1 }\' readings.csv',
      ),
      hands('[Up][Up][Up][Down][Down][Enter]'),
      typed('git log --oneline | cat'),
      typed('less README.md'),
      hands('[Space]q'),
      typed('set last (tail -n 1 readings.csv); echo -n $last'),
      typed('git checkout -q docs conf; and git switch calm'),
      typed('clear'),
      typed('git show --stat'),
      typed('exit'),
    ],
  },
]
