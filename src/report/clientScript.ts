/** What runs in the reader's browser: traces drawn when a run's part opens, filters, print. Plain JavaScript, no network, no storage. */
export const clientScript = String.raw`(function () {
"use strict";
var root = document.documentElement;
function css(name) { return getComputedStyle(root).getPropertyValue(name).trim(); }

function unpack(packed, count) {
  var text = atob(packed.base64), out = new Array(count), scale = (packed.high - packed.low) / 65534;
  for (var i = 0; i < count; i++) {
    var step = text.charCodeAt(2 * i) | (text.charCodeAt(2 * i + 1) << 8);
    out[i] = step === 65535 ? null : packed.low + step * scale;
  }
  return out;
}

var shadeWords = { preZero: "zero before", postZero: "zero after", steady: "window", static: "standing", freeFall: "free fall" };
var zeroKinds = { preZero: true, postZero: true };
var strong = { contact: true, unloading: true };
function tint(kind) { return zeroKinds[kind] ? css("--shade-zero") : kind === "run" ? "transparent" : css(strong[kind] ? "--shade-strong" : "--shade"); }
function figures(u, ticks) { return ticks.map(function (tick) { return tick === null ? "" : String(Number(tick.toPrecision(6))).replace("-", "\u2212"); }); }

function clipped(u, paint) {
  var c = u.ctx, box = u.bbox;
  c.save(); c.beginPath(); c.rect(box.left, box.top, box.width, box.height); c.clip();
  c.font = 10 * devicePixelRatio + "px system-ui, sans-serif"; c.textAlign = "left";
  paint(c, box, devicePixelRatio);
  c.restore();
}

function backdrop(data) {
  return function (u) {
    clipped(u, function (c, box) {
      data.shades.forEach(function (shade) {
        var a = u.valToPos(shade.from, "x", true);
        c.fillStyle = tint(shade.kind);
        c.fillRect(a, box.top, u.valToPos(shade.to, "x", true) - a, box.height);
      });
    });
  };
}

function tag(c, words, x, y, color) {
  c.fillStyle = css("--sheet"); c.globalAlpha = 0.6; c.fillRect(x - 1, y, c.measureText(words).width + 2, 12 * devicePixelRatio); c.globalAlpha = 1;
  c.fillStyle = color; c.textBaseline = "top"; c.fillText(words, x, y + devicePixelRatio);
}

function marks(data, trace) {
  return function (u) {
    clipped(u, function (c, box, dpr) {
      var busyUntil = -Infinity;
      data.shades.forEach(function (shade) {
        if (shade.kind === "run" || zeroKinds[shade.kind]) return;
        var a = u.valToPos(shade.from, "x", true), b = u.valToPos(shade.to, "x", true), word = shadeWords[shade.kind] || shade.kind, width = c.measureText(word).width;
        if (width > b - a - 6 || a < busyUntil) return;
        tag(c, word, a + 3 * dpr, box.top + dpr, css("--soft")); busyUntil = a + width + 8 * dpr;
      });
      data.events.forEach(function (event) {
        if (event.channel !== null && event.channel !== trace.channel) return;
        var x = u.valToPos(event.at, "x", true), color = css(event.severity === "reject" ? "--repeat" : event.severity === "look" ? "--look" : "--soft");
        c.strokeStyle = color; c.lineWidth = 1.5 * dpr; c.setLineDash([4 * dpr, 3 * dpr]);
        c.beginPath(); c.moveTo(x, box.top); c.lineTo(x, box.top + box.height); c.stroke(); c.setLineDash([]);
        var width = c.measureText(event.label).width;
        tag(c, event.label, x + width + 6 > box.left + box.width ? x - width - 3 * dpr : x + 3 * dpr, box.top + box.height - 14 * dpr, color);
      });
    });
  };
}

function drawRun(details) {
  var place = details.querySelector(".traces"), source = details.querySelector(".tracedata");
  if (!place || !source) return;
  var data = place.drawbarData || (place.drawbarData = JSON.parse(source.textContent));
  data.shades.sort(function (a, b) { return a.from - b.from; });
  undraw(place);
  var width = Math.max(240, place.clientWidth || details.clientWidth - 30), sync = uPlot.sync(details.id), low = Infinity, high = -Infinity;
  var columns = data.traces.map(function (trace) {
    var x = unpack(trace.x, trace.count), y = unpack(trace.y, trace.count);
    if (trace.count) { low = Math.min(low, trace.x.low); high = Math.max(high, trace.x.high); }
    return [x, y];
  });
  // All panes show the same stretch of time, also where a logger started late or stopped early.
  columns.forEach(function (column) {
    if (column[0].length && column[0][0] > low) { column[0].unshift(low); column[1].unshift(null); }
    if (column[0].length && column[0][column[0].length - 1] < high) { column[0].push(high); column[1].push(null); }
  });
  place.appendChild(key(data));
  place.drawbarPlots = data.traces.map(function (trace, index) {
    var pane = document.createElement("div"), title = document.createElement("h5");
    pane.className = "tracepane"; title.textContent = trace.label + " [" + trace.unit + "]";
    pane.appendChild(title); place.appendChild(pane);
    var axis = { values: figures, stroke: css("--soft"), grid: { stroke: css("--line"), width: 1 }, ticks: { stroke: css("--line"), width: 1 }, font: "11px system-ui, sans-serif", labelFont: "11px system-ui, sans-serif" };
    return new uPlot({
      width: width, height: 150,
      scales: { x: { time: false, range: zoom(low, high) } },
      cursor: { sync: { key: sync.key }, y: false },
      legend: { show: false },
      axes: [Object.assign({ label: "time on the run’s clock [s]", labelSize: 16, size: 30 }, axis), Object.assign({ label: trace.unit === "–" ? "" : trace.unit, labelSize: 16, size: 58 }, axis)],
      series: [{}, { stroke: css("--series-" + (index % 6 + 1)), width: 1.2, points: { show: false } }],
      hooks: { drawClear: [backdrop(data)], draw: [marks(data, trace)] }
    }, columns[index], pane);
  });
}

function zoom(low, high) { return function (u, from, to) { return from == null || !(to > from) ? [low, high] : [from, to]; }; }

function key(data) {
  var list = document.createElement("div"), seen = {};
  list.className = "key";
  function add(color, words) { var item = document.createElement("span"), box = document.createElement("i"); box.style.background = color; item.appendChild(box); item.appendChild(document.createTextNode(words)); list.appendChild(item); }
  data.shades.forEach(function (shade) {
    if (shade.kind === "run" || seen[shade.kind]) return;
    seen[shade.kind] = true; add(tint(shade.kind), shadeWords[shade.kind] || shade.kind);
  });
  if (data.events.length) add(css("--look"), "dashed line: a finding");
  var help = document.createElement("span"); help.textContent = "drag to zoom, double click to go back"; list.appendChild(help);
  return list;
}

// Two hundred open parts would be a thousand canvases: only those that come near the screen are drawn, closed ones are freed.
var watcher = new IntersectionObserver(function (entries) {
  entries.forEach(function (entry) { if (entry.isIntersecting) { watcher.unobserve(entry.target); drawRun(entry.target.closest("details.run")); } });
}, { rootMargin: "600px" });
function undraw(place) { (place.drawbarPlots || []).forEach(function (plot) { plot.destroy(); }); place.drawbarPlots = null; place.textContent = ""; }
function redrawOpen() { document.querySelectorAll("details.run[open]").forEach(function (details) { var place = details.querySelector(".traces"); if (place && place.drawbarPlots) drawRun(details); }); }
document.querySelectorAll("details.run").forEach(function (details) {
  var place = details.querySelector(".traces");
  if (!place) return;
  function follow() { if (details.open) watcher.observe(place); else { watcher.unobserve(place); undraw(place); } }
  details.addEventListener("toggle", follow);
  if (details.open) follow();
});
matchMedia("(prefers-color-scheme: dark)").addEventListener("change", redrawOpen);
var widthBefore = innerWidth, waiting = 0;
addEventListener("resize", function () { if (innerWidth === widthBefore) return; widthBefore = innerWidth; clearTimeout(waiting); waiting = setTimeout(redrawOpen, 150); });

function openTarget() {
  var id = decodeURIComponent(location.hash.slice(1)), target = id && document.getElementById(id);
  if (!target) return;
  for (var node = target; node; node = node.parentElement) if (node.tagName === "DETAILS") node.open = true;
  target.scrollIntoView();
}
addEventListener("hashchange", openTarget);
document.addEventListener("click", function (event) {
  var link = event.target.closest && event.target.closest('a[href^="#"]');
  if (link && link.getAttribute("href") === location.hash) { event.preventDefault(); openTarget(); }
});
openTarget();

var only = null;
document.querySelectorAll(".count").forEach(function (button) {
  button.addEventListener("click", function () {
    only = only === button.dataset.verdict ? null : button.dataset.verdict;
    document.querySelectorAll(".count").forEach(function (other) { other.setAttribute("aria-pressed", String(other.dataset.verdict === only)); });
    document.querySelectorAll(".chip").forEach(function (chip) { chip.classList.toggle("dim", only !== null && chip.dataset.verdict !== only); });
    document.querySelectorAll("details.run").forEach(function (run) { run.hidden = only !== null && run.dataset.verdict !== only; });
  });
});

document.querySelectorAll("form.filter").forEach(function (form) {
  var table = document.getElementById(form.dataset.table);
  if (!table) return;
  var rows = Array.prototype.slice.call(table.tBodies[0].rows);
  function apply() {
    var words = form.elements.words.value.toLowerCase().split(/\s+/).filter(Boolean), weight = form.elements.severity.value, shown = 0;
    rows.forEach(function (row) {
      var text = row.textContent.toLowerCase();
      var fits = (weight === "" || row.dataset.severity === weight) && words.every(function (word) { return text.indexOf(word) >= 0; });
      row.hidden = !fits; if (fits) shown++;
    });
    form.querySelector("output").textContent = shown + " of " + rows.length;
  }
  form.addEventListener("input", apply);
  form.addEventListener("submit", function (event) { event.preventDefault(); });
});

document.querySelectorAll("[data-do]").forEach(function (button) {
  button.addEventListener("click", function () {
    if (button.dataset.do === "print") { print(); return; }
    var open = button.dataset.do === "open";
    document.querySelectorAll("details.run").forEach(function (run) { if (!run.hidden) run.open = open; });
  });
});

var reopened = [];
addEventListener("beforeprint", function () {
  reopened = Array.prototype.slice.call(document.querySelectorAll("details.day:not([open]):not(.long), details.run[open] details:not([open])"));
  reopened.forEach(function (details) { details.open = true; });
  root.dataset.paper = "yes";
  document.querySelectorAll("details.run[open]").forEach(drawRun);
});
addEventListener("afterprint", function () { reopened.forEach(function (details) { details.open = false; }); reopened = []; delete root.dataset.paper; redrawOpen(); });
document.documentElement.dataset.ready = "yes";
})();`;
