/** What the live page adds to the report's styles: verdicts that can be read from across the rig. */
export const pageStyles = `
.s-go{--of:var(--go);--of-bg:var(--go-bg)} .s-look{--of:var(--look);--of-bg:var(--look-bg)} .s-repeat{--of:var(--repeat);--of-bg:var(--repeat-bg)} .s-unread{--of:var(--unread);--of-bg:var(--unread-bg)}
.s-excluded{--of:var(--excluded);--of-bg:var(--excluded-bg)} .s-files,.s-others{--of:var(--soft);--of-bg:var(--wash)}
.live{max-width:1500px;margin:0 auto;padding:0 20px 60px} .live header{display:flex;flex-wrap:wrap;gap:4px 20px;align-items:center;justify-content:space-between;padding:12px 0 8px;margin-bottom:12px}
.line{padding:4px 10px;border-radius:4px;background:var(--wash);color:var(--soft);font-weight:600} .line.lost{background:var(--repeat-bg);color:var(--repeat)}
.latest{background:var(--of-bg);color:var(--of);border-left:14px solid var(--of);border-radius:6px;padding:14px 22px;margin-bottom:14px} .latest p{max-width:none;margin:2px 0;font-size:clamp(16px,1.6vw,24px);overflow-wrap:anywhere} .latest p.big{font-size:clamp(40px,8.5vw,128px);line-height:1.05;font-weight:500}
.asked::first-letter{text-transform:uppercase} .latest .chip{font-size:15px;padding:6px 9px}
.chip[class*=s-]{background:var(--sheet);color:var(--of)}
@keyframes arrive{from{box-shadow:0 0 0 14px var(--of)}to{box-shadow:0 0 0 0 transparent}} @media (prefers-reduced-motion:no-preference){.latest.fresh{animation:arrive 1.6s ease-out}}
.actrow{display:flex;flex-wrap:wrap;gap:4px 18px;align-items:baseline;background:var(--of-bg);color:var(--of);border-radius:6px;padding:8px 16px;margin-bottom:8px} .actrow h2{margin:0;font-size:20px} .actrow p{margin:0;max-width:none;font-size:20px;font-weight:700} .actrow a{color:inherit;display:inline-block;padding:2px 4px}
.columns{display:grid;grid-template-columns:minmax(0,1fr);gap:16px;margin-top:16px} @media (min-width:1000px){.columns{grid-template-columns:minmax(0,1fr) 380px}}
#cards{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,370px),1fr));gap:12px;align-content:start;align-items:start}
.card{background:var(--sheet);border:1px solid var(--line);border-top:7px solid var(--of);border-radius:6px;padding:10px 16px 12px;min-width:0;overflow-wrap:anywhere;scroll-margin-top:12px}
.card h3{margin:0;font-size:27px;display:flex;flex-wrap:wrap;gap:0 10px;align-items:baseline} .card .word,.card .sign{color:var(--of);font-weight:700} .card .what{color:var(--soft);margin:2px 0} .card .asks{color:var(--soft);font-size:12.5px;margin:4px 0}
.why,.waits{margin:6px 0;padding-left:18px} .card>.why li:first-child{font-weight:600} .waits{color:var(--soft)}
.card dl{margin:8px 0} .card dl>div{border-top:1px solid var(--line);padding:5px 0;display:grid;grid-template-columns:minmax(0,1fr) auto;gap:0 12px} .card dt{color:var(--soft)} .card dd{margin:0;text-align:right} .card dd .num{font-size:17px;font-weight:600} .card dd .nd{white-space:normal}
.card dd.open,.card dd.beside-repeats{grid-column:1/-1;text-align:left;font-size:12.5px;color:var(--soft)} .beside-repeats svg{display:block;width:100%;max-width:400px;height:22px}
.beside-repeats .band{fill:var(--shade)} .beside-repeats .rule{stroke:var(--line)} .beside-repeats circle{fill:var(--soft)} .beside-repeats .own{stroke:var(--series-2);stroke-width:3}
.apart{color:var(--look);background:var(--look-bg);padding:1px 6px;border-radius:4px}
.nextrun{font-size:17px;padding:8px 12px;background:var(--wash);border-radius:4px} .nextrun b{display:block;font-size:26px} .nextrun .apart{display:inline-block;font-size:13px} .queue{margin:0;padding:0;list-style:none;max-height:70vh;overflow:auto} .queue li{border-top:1px solid var(--line);padding:5px 0}
@media (max-width:999px){.columns aside{order:-1}.columns aside section{margin:0}.queue{max-height:180px}}
@media (max-width:640px){.live{padding:0 10px 40px}.latest{padding:10px 14px;border-left-width:8px}}
`;
