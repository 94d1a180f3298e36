/** Colours of the page; the same names in light, dark and print. Series colours keep apart for colour-blind readers and in grey. */
const light = `
  --paper:#fbfaf7; --sheet:#ffffff; --ink:#1c252c; --soft:#55626c; --faint:#98a2a8; --line:#dedcd4; --wash:#f1efe9; --link:#17547c;
  --go:#1f6b52; --go-bg:#e3efe9; --look:#8a5a00; --look-bg:#f8ecd2; --repeat:#a6261c; --repeat-bg:#f9e0dc; --excluded:#5d666c; --excluded-bg:#e9e9e6; --unread:#5b3d93; --unread-bg:#ebe4f5;
  --series-1:#1d5c94; --series-2:#bf5b12; --series-3:#0f7f73; --series-4:#93316f; --series-5:#6c6a12; --series-6:#4a5560;
  --shade:#1d5c942b; --shade-strong:#1d5c9452; --shade-zero:#8b8f7c2e; color-scheme:light;`;
const dark = `
  --paper:#14191d; --sheet:#1a2126; --ink:#e6e9ea; --soft:#a9b4ba; --faint:#74818a; --line:#323c43; --wash:#212a30; --link:#8cc4ec;
  --go:#7fd0ae; --go-bg:#173229; --look:#efc062; --look-bg:#3a2d12; --repeat:#ff9a8c; --repeat-bg:#461d19; --excluded:#b4bcc1; --excluded-bg:#2b3338; --unread:#c7aef2; --unread-bg:#302447;
  --series-1:#7ab8ea; --series-2:#f0a05c; --series-3:#55cdbc; --series-4:#e58cc2; --series-5:#d0cb62; --series-6:#b6c1c9;
  --shade:#7ab8ea2e; --shade-strong:#7ab8ea52; --shade-zero:#b9b08a26; color-scheme:dark;`;

export const styles = `
:root{${light}}
@media screen and (prefers-color-scheme:dark){:root{${dark}}}
/* while printing, so that traces too are drawn for white paper */
:root[data-paper]{${light}}
*{box-sizing:border-box}
html{scroll-padding-top:12px;-webkit-text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);font:14px/1.45 system-ui,-apple-system,"Segoe UI","Noto Sans","DejaVu Sans",sans-serif}
a{color:var(--link)}
h1,h2,h3,h4{line-height:1.2;margin:0;font-weight:600;overflow-wrap:anywhere}
h1{font-size:22px} h2{font-size:19px;margin-bottom:12px} h3{font-size:15px;margin:22px 0 8px} h4{font-size:13.5px;margin:18px 0 6px;color:var(--soft)}
p{margin:6px 0;max-width:76ch} small{font-size:12px;color:var(--soft);font-weight:400}
code{font:12px ui-monospace,"DejaVu Sans Mono",monospace;color:var(--soft)} .hash{white-space:nowrap;font-size:11px}
.sr{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.page{display:grid;grid-template-columns:minmax(0,1fr);max-width:1320px;margin:0 auto;padding:0 20px 60px}
header{padding:22px 0 14px;border-bottom:2px solid var(--ink);margin-bottom:18px}
header p{color:var(--soft);max-width:none}
nav{display:flex;gap:2px 14px;overflow-x:auto;padding:6px 0;font-size:13px}
nav a{text-decoration:none;white-space:nowrap;padding:3px 0} nav a:hover{text-decoration:underline}
main{min-width:0}
section{background:var(--sheet);border:1px solid var(--line);border-radius:6px;padding:18px 20px;margin:0 0 16px}
@media (min-width:1160px){.page{grid-template-columns:176px minmax(0,1fr);column-gap:26px}header{grid-column:1/-1}nav{position:sticky;top:12px;align-self:start;flex-direction:column;max-height:calc(100vh - 24px);overflow:auto}}
.act{border-left:6px solid var(--go)} .act.urgent{border-left-color:var(--repeat)} .act.urgent h2{color:var(--repeat)}
.badge{display:inline-block;padding:1px 8px;border-radius:9px;font-size:12px;font-weight:600;white-space:nowrap;background:var(--excluded-bg);color:var(--excluded)}
.badge.v-go,.badge.t-determined{background:var(--go-bg);color:var(--go)} .badge.v-look,.badge.f-look,.badge.t-atLimit{background:var(--look-bg);color:var(--look)}
.badge.v-repeat,.badge.f-reject{background:var(--repeat-bg);color:var(--repeat)} .badge.v-unread{background:var(--unread-bg);color:var(--unread)}
.tally{display:grid;grid-template-columns:repeat(5,minmax(0,1fr));gap:8px;margin-bottom:14px}
.count{font:inherit;text-align:left;border:1px solid var(--line);border-radius:6px;padding:8px 12px;background:var(--excluded-bg);color:var(--excluded);cursor:pointer;display:flex;flex-direction:column}
.count:disabled{opacity:.55;cursor:default} .count[aria-pressed=true]{outline:2px solid currentColor;outline-offset:1px}
.count b{font-size:24px;line-height:1.1} .count span{font-weight:600} .count small{color:inherit;opacity:.9} .count i,.chip i{font-style:normal}
.v-go.count,.chip.v-go{background:var(--go-bg);color:var(--go)} .v-look.count,.chip.v-look{background:var(--look-bg);color:var(--look)}
.v-repeat.count,.chip.v-repeat{background:var(--repeat-bg);color:var(--repeat)} .v-unread.count,.chip.v-unread{background:var(--unread-bg);color:var(--unread)}
.gridrow{display:grid;grid-template-columns:190px minmax(0,1fr);gap:10px;border-top:1px solid var(--line);padding:5px 0}
.gridname{font-size:13px;overflow-wrap:anywhere} .chips{display:flex;flex-wrap:wrap;gap:3px;align-items:flex-start;align-content:flex-start}
.chip{display:inline-flex;gap:4px;text-decoration:none;font-size:11.5px;line-height:1;padding:4px 6px;border-radius:4px;background:var(--excluded-bg);color:var(--excluded);max-width:100%;overflow:hidden;text-overflow:ellipsis;position:relative}
.chip.v-repeat,.chip.v-unread,.chip.v-look{font-weight:700;box-shadow:inset 0 0 0 1.5px currentColor} .chip:hover{text-decoration:underline} .dim{opacity:.18}
.scroll{overflow-x:auto;max-width:100%} .scroll>figure{min-width:640px} table{border-collapse:collapse;font-size:13px;margin:4px 0} caption{text-align:left;font-weight:600;padding-bottom:6px;font-size:13px}
th{text-align:left;font-weight:600;color:var(--soft);font-size:12px;vertical-align:bottom;border-bottom:1.5px solid var(--line);padding:4px 14px 4px 0} tbody th{font-size:13px;color:var(--ink);border-bottom-width:1px}
table.wide{font-size:12px} table.wide td,table.wide th{padding-right:9px} td{padding:5px 14px 5px 0;border-bottom:1px solid var(--line);vertical-align:top} td.r,th.r{text-align:right} td.r{font-variant-numeric:tabular-nums} td.w{min-width:190px;max-width:560px;overflow-wrap:anywhere}
.num{font-variant-numeric:tabular-nums;white-space:nowrap} .nd{font-style:italic;color:var(--look);white-space:nowrap} .none{color:var(--soft);font-style:italic}
td .nd+small,td .nd~small{display:inline-block;max-width:300px;text-align:left;white-space:normal}
.formula{font-family:ui-serif,Georgia,"DejaVu Serif",serif;font-size:14.5px} .symbol{font-family:ui-serif,Georgia,serif;color:var(--soft)}
.fignote,.fitline{font-size:12.5px;color:var(--soft)} .fitline{color:var(--ink)}
.multiples{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,330px),1fr));gap:14px 18px} .multiples.small{grid-template-columns:repeat(auto-fill,minmax(min(100%,250px),1fr))} .multiples.wide{grid-template-columns:repeat(auto-fill,minmax(min(100%,440px),1fr))}
.beside{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,430px),1fr));gap:12px 26px;align-items:start;margin-bottom:8px}
figure{margin:0;min-width:0} figcaption{font-weight:600;font-size:13px;overflow-wrap:anywhere} figure svg{max-width:100%;height:auto;overflow:visible} figure svg text{fill:var(--ink);white-space:pre} figure>svg{display:block}
.legend{list-style:none;margin:2px 0 0;padding:0;display:flex;flex-wrap:wrap;gap:2px 12px;font-size:12px;color:var(--soft)} .legend li{display:inline-flex;align-items:center;gap:5px;overflow-wrap:anywhere}
details.day{border-top:1px solid var(--line);margin-top:12px;padding-top:8px} summary{cursor:pointer} details.day>summary{font-weight:600;color:var(--link)}
details.run{border:1px solid var(--line);border-left:5px solid var(--excluded);border-radius:4px;margin:5px 0;background:var(--sheet)} details.run>summary{padding:6px 10px;overflow-wrap:anywhere} details.run>summary span:last-child{color:var(--soft)}
details.run.v-go{border-left-color:var(--go)} details.run.v-look{border-left-color:var(--look)} details.run.v-repeat{border-left-color:var(--repeat)} details.run.v-unread{border-left-color:var(--unread)}
.runbody{padding:4px 14px 16px;border-top:1px solid var(--line)} .said{background:var(--wash);padding:6px 10px;border-radius:4px;max-width:none} .reasons,.issues{margin:6px 0;padding-left:20px;overflow-wrap:anywhere}
.traces{display:grid;gap:2px} .tracepane{min-width:0} .tracepane h5{margin:6px 0 0;font-size:12.5px;font-weight:600} .key{display:flex;flex-wrap:wrap;gap:2px 16px;font-size:12px;color:var(--soft);margin:0 0 4px}
.key i{display:inline-block;width:14px;height:10px;margin-right:5px;border:1px solid var(--line)}
.budget{list-style:none;margin:0;padding:0;min-width:250px;max-width:340px;font-size:12px} .budget li{position:relative;display:flex;justify-content:space-between;gap:10px;padding:0 0 5px;line-height:1.35} .budget i{position:absolute;inset:auto auto 0 0;height:4px;background:var(--series-1);border-radius:2px} .budget i.shared{background:repeating-linear-gradient(90deg,var(--series-2) 0 4px,transparent 4px 7px)} .budget span,.budget b{position:relative} .budget b{font-weight:500;white-space:nowrap;font-variant-numeric:tabular-nums} .budget .rest{color:var(--soft)}
.filter{display:flex;flex-wrap:wrap;gap:8px 18px;align-items:center;margin-bottom:8px;font-size:13px} .filter input,.filter select,.tools button{font:inherit;color:var(--ink);background:var(--paper);border:1px solid var(--line);border-radius:4px;padding:4px 8px} .filter input{width:min(280px,60vw)} output{color:var(--soft)} .tools{display:flex;flex-wrap:wrap;gap:8px;margin:8px 0}
#cautions{border-left:6px solid var(--look)} #cautions li{margin:4px 0;max-width:90ch}
.u-legend .u-marker{display:none!important}
@media (max-width:640px){body{font-size:14.5px}.page{padding:0 10px 40px}section{padding:14px 12px}.tally{grid-template-columns:repeat(2,minmax(0,1fr))}.gridrow{grid-template-columns:minmax(0,1fr);gap:3px}.chip{padding:6px 7px}
 table.stack,table.stack tbody,table.stack tr,table.stack td{display:block} table.stack thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)} table.stack tr{border-bottom:1px solid var(--line);padding:7px 0} table.stack td,table.stack td.r,table.stack td.w{border:0;padding:1px 0;text-align:left;min-width:0;max-width:none} table.stack td[data-h]::before{content:attr(data-h) ": ";color:var(--soft);font-size:12px} .budget{max-width:none}}
@media print{
 :root{${light}} @page{margin:14mm 12mm}
 body{background:#fff;font-size:10.5pt} .page{display:block;max-width:none;padding:0} nav,.filter,.tools{display:none} section{border:none;padding:0;margin:0 0 18pt;border-radius:0} h2{border-bottom:1.5pt solid var(--ink);padding-bottom:3pt} h2,h3,h4,summary{break-after:avoid} details.long:not([open])>summary::after{content:" (not printed; open it before printing to have it on paper)";font-weight:400;color:var(--soft)}
 #wheels,#soil,#findings,#runs,#method{break-before:page} figure,tr,.gridrow,.tracepane,.tally{break-inside:avoid} thead{display:table-header-group} .scroll{overflow:visible} table{font-size:8.5pt} th,tbody th{font-size:8pt} th,td{padding-right:8px} .num,.nd{white-space:normal} .budget{min-width:0} .hash{white-space:normal;overflow-wrap:anywhere} td.w{min-width:0;max-width:none} a{color:inherit;text-decoration:none} .chip,.badge,.count,.budget i,.key i{print-color-adjust:exact;-webkit-print-color-adjust:exact}
 table.wide,table.wide tbody{display:block} table.wide thead{display:none} table.wide tr{display:grid;grid-template-columns:repeat(auto-fill,minmax(96px,1fr));gap:4px 10px;border-bottom:1px solid var(--line);padding:5px 0} table.wide td{border:0;padding:0;text-align:left;overflow-wrap:anywhere} table.wide td[data-h]::before{content:attr(data-h);display:block;color:var(--soft);font-size:7pt;line-height:1.2}
 details.day:not(.long)::details-content{content-visibility:visible;height:auto} details.run{break-inside:auto} .multiples{grid-template-columns:1fr 1fr} .multiples.small{grid-template-columns:1fr 1fr 1fr} .act{padding-left:10pt!important}
}`;
