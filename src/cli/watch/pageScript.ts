/** What runs in the browser: takes the changed pieces as they come, says the newest verdict, and says when nothing comes any more. */
export const pageScript = String.raw`(function () {
"use strict";
var root = document.documentElement, instance = root.dataset.instance, line = document.getElementById("line"), shelf = document.getElementById("cards"), lastN = Number(root.dataset.n);
function elementOf(markup) { var holder = document.createElement("template"); holder.innerHTML = markup; return holder.content.firstElementChild; }
function cardOf(run) { return [].find.call(shelf.children, function (card) { return card.dataset.run === run; }); }
function take(news) {
  if (news.instance !== instance) { location.reload(); return; }
  Object.keys(news.parts).forEach(function (id) { document.getElementById(id).innerHTML = news.parts[id]; });
  Object.keys(news.cards).forEach(function (run) {
    var card = elementOf(news.cards[run]), old = cardOf(run);
    card.dataset.run = run;
    if (old) { var open = old.querySelector("details[open]"), more = card.querySelector("details"); if (open && more) more.open = true; old.replaceWith(card); } else shelf.append(card);
  });
  [].slice.call(shelf.children).forEach(function (card) { if (news.order.indexOf(card.dataset.run) < 0) card.remove(); });
  news.order.forEach(function (run, place) { var card = cardOf(run); if (shelf.children[place] !== card) shelf.insertBefore(card, shelf.children[place] || null); });
  document.title = news.title;
  if (news.n > lastN) {
    lastN = news.n;
    document.getElementById("spoken").textContent = news.spoken;
    document.querySelector("#latest .latest").classList.add("fresh");
  }
  root.dataset.ready = "yes";
}
function connect() {
  var source = new EventSource("events");
  source.onopen = function () { line.textContent = "live"; line.className = "line"; };
  source.onmessage = function (event) { take(JSON.parse(event.data)); };
  source.onerror = function () {
    if (line.className !== "line lost") { line.textContent = "Connection lost: this page is as of " + new Date().toTimeString().slice(0, 8) + ". Is drawbar watch still running?"; line.className = "line lost"; }
    if (source.readyState === 2) setTimeout(connect, 3000);
  };
}
connect();
})();`;
