/** The look of a printed sheet: ink on paper, one accent, figures in columns; fits A4 and Letter. */
export const style = `
:root{--ink:#1b2330;--soft:#5d6675;--rule:#d8d2c3;--paper:#fffdf8;--accent:#0f6b5c;--left:#1d3c66;--right:#b4261f;--warn:#9a5b00;--bad:#b4261f}
*{box-sizing:border-box}
body{margin:0 auto;max-width:190mm;padding:8mm;background:var(--paper);color:var(--ink);font:15px/1.45 "Atkinson Hyperlegible Next",system-ui,sans-serif;font-variant-numeric:tabular-nums}
h1{font-size:27px;margin:0}h2{font-size:19px;margin:26px 0 8px;border-bottom:1px solid var(--rule);padding-bottom:4px}h3{font-size:15px;margin:16px 0 4px}
p{margin:4px 0}.soft,.note{color:var(--soft)}.note{font-size:13px}
dl{display:grid;grid-template-columns:max-content 1fr;gap:2px 16px;margin:8px 0}dt{color:var(--soft)}dd{margin:0;overflow-wrap:anywhere}
.wide{overflow-x:auto}table{border-collapse:collapse;width:100%;margin:6px 0}caption{text-align:left;color:var(--soft);font-size:13px;padding-bottom:4px}
th,td{text-align:left;padding:4px 10px 4px 0;border-bottom:1px solid var(--rule);vertical-align:top}thead th{color:var(--soft);font-weight:400;font-size:13px}tbody th{font-weight:400}
.figure{text-align:right;white-space:nowrap}.figure+:not(.figure){padding-left:12px}.good{color:var(--accent)}.adjust{color:var(--warn)}.bad{color:var(--bad);font-weight:700}
.caution{border-left:4px solid var(--warn);padding:6px 12px;margin:10px 0}.left{color:var(--left)}.right{color:var(--right)}
svg{width:100%;height:auto;display:block}svg text{font-size:11px;fill:var(--soft)}.charts{display:grid;grid-template-columns:repeat(auto-fit,minmax(76mm,1fr));gap:4px 18px}
.sign{display:flex;gap:24px;margin-top:30px}.sign span{flex:1;border-top:1px solid var(--ink);padding-top:4px;color:var(--soft);font-size:13px}
footer{margin-top:26px;border-top:1px solid var(--rule);padding-top:8px;color:var(--soft);font-size:12px}
@media (prefers-color-scheme:dark){@media screen{:root{--ink:#ece7db;--soft:#a2a9b5;--rule:#343b46;--paper:#15181d;--accent:#5fc9b3;--left:#8db4ea;--right:#ff8d80;--warn:#f0b35c;--bad:#ff8d80}}}
@page{margin:14mm}
@media print{body{padding:0;max-width:none;font-size:10.5pt;background:none}tr,.keep,figure,.caution{break-inside:avoid}h2,h3{break-after:avoid}thead{display:table-header-group}*{print-color-adjust:exact;-webkit-print-color-adjust:exact}}
`;
