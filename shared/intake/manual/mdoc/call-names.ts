/** The macros of mdoc(7) that a line of another macro may call. */
const groups = [
  'Ad An Ar Cd Cm Dv Em Er Ev Fa Fd Fl Fr Ft Hf Ic Li Ms Mt Nm No Pa Sx Sy Tn Va Vt Bf',
  'Xr Fn Fo Fc In Pf Ns Ap Lk Nd St Lb At Bx Ux Fx Nx Ox Dx Bsx',
  'Op Aq Bq Brq Dq Pq Ql Qq Sq',
  'Oo Ao Bo Bro Do Po Qo So Eo Xo',
  'Oc Ac Bc Brc Dc Pc Qc Sc Ec Xc Ta',
]

export const callNames: ReadonlySet<string> = new Set(groups.flatMap((group) => group.split(' ')))
