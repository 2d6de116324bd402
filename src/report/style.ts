/** The look of a report: ink on paper, one accent, figures in columns; prints on A4 and Letter alike. */
export const style = `
:root{--ink:#1b2330;--soft:#525b69;--rule:#d8d2c3;--paper:#fffdf8;--accent:#0f6b5c;--left:#1d3c66;--right:#b4261f;--warn:#8a5000;--bad:#b4261f}
*{box-sizing:border-box}
body{margin:0 auto;max-width:190mm;padding:8mm;background:var(--paper);color:var(--ink);font:14px/1.4 "Atkinson Hyperlegible Next",system-ui,sans-serif;font-variant-numeric:tabular-nums;overflow-wrap:break-word}
h1{font-size:1.4em;line-height:1.2;margin:0}h2{font-size:1.12em;margin:1.1em 0 .3em;border-bottom:1px solid var(--rule);padding-bottom:.15em}h3{font-size:1em;margin:.7em 0 .1em}
p{margin:.2em 0}ul{margin:.2em 0;padding-left:1.1em}.soft,.note{color:var(--soft)}.note{font-size:.86em;line-height:1.3}
dl{display:grid;grid-template-columns:max-content 1fr;gap:.05em 1em;margin:.3em 0}dt{color:var(--soft)}dd{margin:0}
.facts{grid-template-columns:max-content 1fr max-content 1fr}.two{columns:2;column-gap:8mm}.two section{padding-bottom:.4em}.two dl{grid-template-columns:fit-content(40%) 1fr}.two h3:first-child{margin-top:0}
.wide{overflow-x:auto}table{border-collapse:collapse;width:100%;margin:.3em 0}caption{text-align:left;color:var(--soft);font-size:.86em;padding-bottom:.2em}
th,td{text-align:left;padding:.22em .7em .22em 0;border-bottom:1px solid var(--rule);vertical-align:top}thead th{color:var(--soft);font-weight:400;font-size:.86em}tbody th{font-weight:400}
.figure{text-align:right;white-space:nowrap}.figure+:not(.figure){padding-left:.8em}.verdict,.whole{white-space:nowrap}.work th:first-child{white-space:nowrap}.work td:nth-child(n+3){min-width:38mm}.good{color:var(--accent)}.adjust,.undecided{color:var(--warn)}.bad{color:var(--bad);font-weight:700}
.caution{border-left:4px solid var(--warn);padding:.25em .8em;margin:.5em 0}.left{color:var(--left)}.right{color:var(--right)}
.head{display:flex;justify-content:space-between;align-items:flex-end;gap:8mm;border-bottom:2px solid var(--ink);padding-bottom:2mm;margin-bottom:3mm}
.shop{display:flex;align-items:center;gap:4mm}.shop img{max-height:13mm;max-width:45mm}.shop strong{font-size:1.2em}.head .of{text-align:right;flex:none}
.result{font-size:1.16em;font-weight:600;margin:.4em 0}
.changes tbody th{width:34%}tbody.keep tr:not(:last-child)>*{border-bottom:0;padding-bottom:0}.hash{overflow-wrap:anywhere}svg{width:100%;height:auto;display:block}svg text{font-size:11px;fill:var(--soft)}.charts{display:grid;grid-template-columns:repeat(auto-fit,minmax(56mm,1fr));gap:2px 14px}
.photographs{display:grid;grid-template-columns:repeat(3,1fr);gap:3mm 4mm}.photographs figure{margin:0}.photographs img{width:100%;height:auto;max-height:60mm;object-fit:contain;object-position:left top}.photographs figcaption{font-size:.86em;line-height:1.3}
.due{margin-top:.9em}.sign{display:flex;gap:10mm;margin-top:11mm}.sign span{flex:1;border-top:1px solid var(--ink);padding-top:1mm;color:var(--soft);font-size:.86em}
footer{margin-top:1.2em;border-top:1px solid var(--rule);padding-top:.4em;color:var(--soft);font-size:.82em}
@media (prefers-color-scheme:dark){@media screen{:root{--ink:#ece7db;--soft:#a2a9b5;--rule:#343b46;--paper:#15181d;--accent:#5fc9b3;--left:#8db4ea;--right:#ff8d80;--warn:#f0b35c;--bad:#ff8d80}.shop img{background:#fff}}}
@page{margin:9mm 13mm}
@media print{body{padding:0;max-width:none;background:none;font-size:9.6pt}body.customer{font-size:8.8pt;line-height:1.28}.customer td,.customer th{padding-block:.14em}.customer td .note{line-height:1.15}body.technician{font-size:7.8pt;line-height:1.19}.technician td,.technician th{padding-block:.07em}.technician h2{margin-top:.7em}.technician .limits{font-size:7.2pt;line-height:1.16}.limits tbody th{white-space:nowrap}.technician .limits td,.technician .limits th{padding-block:.05em}.wide{overflow:visible}tr,.keep,tbody.keep,figure,.caution,li{break-inside:avoid}h2,h3,caption{break-after:avoid}thead{display:table-header-group}.charts{grid-template-columns:repeat(4,1fr)}*{print-color-adjust:exact;-webkit-print-color-adjust:exact}}
`;
