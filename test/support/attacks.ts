/**
 * Pages that try to run something. Written after the public descriptions of such attacks: OWASP's "Cross Site Scripting
 * Prevention" and "XSS Filter Evasion" cheat sheets, and the list of ways to run scripts in the HTML standard (event handler
 * content attributes, javascript: URLs, srcdoc, SVG script, meta refresh). Each would set `wasRun` on the program's own window.
 */

const mark = (name: string): string => `try{top.wasRun='${name}'}catch(e){};window.wasRun='${name}'`

/** Attacks by name, each a piece of a page's body. */
export const attacks: Readonly<Record<string, string>> = {
  script: `<script>${mark('script')}</script>`,
  'script in capitals': `<ScRiPt>${mark('capitals')}</sCrIpT>`,
  'script not closed': `<p>before<script>${mark('not closed')}//`,
  'script within script': `<scr<script>ipt>${mark('within')}</scr</script>ipt>`,
  'script behind a null': `<scr\0ipt>${mark('null')}</scr\0ipt>`,
  'script as a module': `<script type=module>${mark('module')}</script>`,
  'script by data': `<script src="data:text/javascript,${mark('data script')}"></script>`,
  'picture that fails': `<img src=x onerror="${mark('onerror')}">`,
  'picture without quotes': `<img src=x:x onerror=${mark('quotes').replaceAll(' ', '')}>`,
  'picture with a slash': `<img/src=x/onerror="${mark('slash')}">`,
  'broken picture': `<img """><script>${mark('broken')}</script>">`,
  'drawing that loads': `<svg onload="${mark('svg')}"><circle r=9></svg>`,
  'script in a drawing': `<svg><script>${mark('svg script')}</script></svg>`,
  'drawing by CDATA': `<svg><script><![CDATA[${mark('cdata')}]]></script></svg>`,
  'link in a drawing': `<svg><a xlink:href="javascript:${mark('xlink')}"><text y=20>press</text></a></svg>`,
  'animated link': `<svg><a><animate attributeName=href values="javascript:${mark('animate')}"/><text y=20>press</text></a></svg>`,
  'used drawing': `<svg><use href="data:image/svg+xml,<svg id='x' xmlns='http://www.w3.org/2000/svg' onload='${mark('use')}'/>#x"/></svg>`,
  'foreign object': `<svg><foreignObject><img src=x onerror="${mark('foreign')}"></foreignObject></svg>`,
  'formula link': `<math href="javascript:${mark('math')}">press</math>`,
  'formula that turns into HTML': `<math><mtext><table><mglyph><style><img src=x onerror="${mark('mglyph')}"></style></mglyph></table></mtext></math>`,
  'link to a script': `<a href="javascript:${mark('link')}">press</a>`,
  'link with a tab': `<a href="jav&#x09;ascript:${mark('tab')}">press</a>`,
  'link with a line end': `<a href="jav&#x0A;ascript:${mark('line end')}">press</a>`,
  'link with a control character': `<a href="&#1;javascript:${mark('control')}">press</a>`,
  'link in entities': `<a href="&#106;&#97;&#118;&#97;&#115;&#99;&#114;&#105;&#112;&#116;&#58;${mark('entities')}">press</a>`,
  'link to another script language': `<a href="vbscript:msgbox(1)">press</a>`,
  'link to a page in itself': `<a href="data:text/html;base64,PHNjcmlwdD50b3Aud2FzUnVuPSdkYXRhJzwvc2NyaXB0Pg==">press</a>`,
  'link of a file': `<a href="file:///etc/passwd">press</a>`,
  'base that changes links': `<base href="javascript:/"><a href="/${mark('base')}//">press</a>`,
  'page within': `<iframe src="javascript:${mark('iframe')}"></iframe>`,
  'page within by srcdoc': `<iframe srcdoc="<script>${mark('srcdoc')}</script>"></iframe>`,
  'page within that loads': `<iframe onload="${mark('iframe onload')}"></iframe>`,
  object: `<object data="javascript:${mark('object')}"></object><object data="data:text/html,<script>top.wasRun='object'</script>"></object>`,
  embed: `<embed src="javascript:${mark('embed')}"><embed src="data:image/svg+xml,<svg xmlns='http://www.w3.org/2000/svg' onload='top.wasRun=1'/>">`,
  applet: `<applet code="x" onerror="${mark('applet')}"></applet>`,
  refresh: `<meta http-equiv="refresh" content="0;url=javascript:${mark('refresh')}">`,
  'refresh to a page in itself': `<meta http-equiv="refresh" content="0;url=data:text/html,<script>top.wasRun='refresh'</script>">`,
  'body that loads': `<body onload="${mark('body')}" onpageshow="${mark('pageshow')}" onhashchange="${mark('hash')}">`,
  'field that takes the focus': `<input autofocus onfocus="${mark('focus')}"><select autofocus onfocus="${mark('select')}"></select>`,
  'form that is sent': `<form action="javascript:${mark('form')}"><button autofocus>Send</button><input type=submit formaction="javascript:${mark('formaction')}"></form>`,
  'details that open': `<details open ontoggle="${mark('toggle')}"><summary>more</summary>x</details>`,
  'film that fails': `<video><source onerror="${mark('video')}"></video><audio src=x onerror="${mark('audio')}"></audio>`,
  'words that run': `<marquee onstart="${mark('marquee')}">x</marquee>`,
  'animation by style': `<style>@keyframes k{from{left:0}to{left:1px}}</style><p style="animation:k 1s" onanimationstart="${mark('animation')}">x</p>`,
  'style sheet with a script': `<style>@import 'javascript:${mark('import')}'; p{background:url(javascript:${mark('url')});behavior:url(x.htc)}</style>`,
  'style attribute with a script': `<p style="background-image:url(javascript:${mark('style')});width:expression(${mark('expression')})">x</p>`,
  'style sheet by link': `<link rel=stylesheet href="javascript:${mark('sheet')}"><link rel=import href="data:text/html,<script>top.wasRun=1</script>">`,
  'text of a title': `<title><img src=x onerror="${mark('title')}"></title>`,
  'text of a comment': `<!--><img src=x onerror="${mark('comment')}">--><!--[if gte IE 4]><script>${mark('conditional')}</script><![endif]-->`,
  'text of a text area': `<textarea></textarea><img src=x onerror="${mark('textarea')}">`,
  'text of noscript': `<noscript><p title="</noscript><img src=x onerror='${mark('noscript')}'>"></noscript>`,
  'text of a template': `<template><img src=x onerror="${mark('template')}"></template><template shadowrootmode=open><img src=x onerror="${mark('shadow')}"></template>`,
  'names that hide the document': `<form name=getElementById><input name=createElement></form><img name=body><a id=defaultView href="javascript:${mark('clobber')}">press</a>`,
  'plain text': `<xmp><img src=x onerror="${mark('xmp')}"></xmp><plaintext><script>${mark('plaintext')}</script>`,
}

/** All of them as pages, with words that must stay readable behind the attack. */
export function attackPages(): readonly { readonly name: string; readonly html: string }[] {
  return Object.entries(attacks).map(([name, body], at) => ({
    name: `${String(at + 1).padStart(2, '0')} ${name}.html`,
    html: `<!doctype html><html><head><title>${name}</title></head><body><h1>${name}</h1><p>The mast leans.</p>\n${body}\n</body></html>`,
  }))
}

/** A file of bookmarks: so many links, in folders that lie within each other so deep. */
export function deepBookmarks(links: number, depth: number): string {
  const perFolder = Math.ceil(links / depth)
  const lines = ['<!DOCTYPE NETSCAPE-Bookmark-file-1>', '<TITLE>Bookmarks</TITLE>', '<DL><p>']
  let made = 0
  for (let level = 1; level <= depth; level++) {
    lines.push(`<DT><H3 ADD_DATE="1760000000">Shelf ${level}</H3>`, '<DL><p>')
    for (let at = 0; at < perFolder && made < links; at++)
      lines.push(
        `<DT><A HREF="https://docs.example.org/${level}/${++made}" ADD_DATE="1760000000" TAGS="rack,shelf ${level}">Page ${made}</A>`,
      )
  }
  for (let level = 0; level <= depth; level++) lines.push('</DL><p>')
  return lines.join('\n')
}
