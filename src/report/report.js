// The what-if control: looks results up in the table of the page; nothing is computed but pixels
// and the shares of a border. The wishes are also in the address, so that they can be kept.
(function () {
  "use strict";
  var box = document.getElementById("what-if");
  var data = JSON.parse(document.getElementById("what-if-data").textContent);
  var names = ["coverage", "confidence", "grow", "ppi", "border"];
  var fields = {};
  names.forEach(function (name) { fields[name] = document.getElementById("wish-" + name); });

  // In the language of the page; values go into the places of {}, or of {0}, {1}.
  function say(text) {
    var values = Array.prototype.slice.call(arguments, 1), next = 0;
    return data.words[text].replace(/\{(\d*)\}/g, function (all, place) {
      return values[place === "" ? next++ : Number(place)];
    });
  }
  function put(id, text) { document.getElementById("result-" + id).textContent = text; }
  function plain(value, decimals) { return String(Number(value.toFixed(decimals))); }
  function mm(value) {
    var size = Math.abs(value);
    if (size > 0 && size < 0.0005) return say("under 0.001 mm");
    return size.toFixed(size > 0 && size < 0.005 ? 3 : 2) + " mm";
  }
  function mmUp(value) { return (Math.ceil(value * 100 - 1e-6) / 100).toFixed(2) + " mm"; }
  function px(value, ppi) { return plain(Math.abs(value) * ppi / 25.4, 1) + " px"; }
  function pxUp(value, ppi) { return Math.ceil(value * ppi / 25.4 - 1e-9); }
  function shares(off, border) {
    var wide = Math.round(Math.min(100, 50 * (1 + off / border)));
    return wide + "/" + (100 - wide);
  }
  function move(value, ppi, more, less) {
    if (value === 0) return say("not at all");
    return mm(value) + " (" + px(value, ppi) + ") " + (value > 0 ? more : less);
  }
  function turn(mrad) {
    if (mrad === 0) return say("not at all");
    var degrees = Math.abs(mrad) * 0.18 / Math.PI;
    return say(mrad > 0 ? "{} degrees clockwise" : "{} degrees anticlockwise", degrees.toFixed(3));
  }
  function find(list, wanted) {
    return list.filter(function (item) {
      return Object.keys(wanted).every(function (key) { return item[key] === wanted[key]; });
    })[0];
  }

  function update() {
    var ppi = Number(fields.ppi.value);
    var border = Number(fields.border.value);
    var wish = { group: find(data.ppi, { ppi: ppi }).group, grow: fields.grow.value,
      coverage: Number(fields.coverage.value), confidence: Number(fields.confidence.value) };
    var found = find(data.cases, wish);
    var shift = data.shifts[wish.group];
    put("across", move(shift.dx_mm, ppi, say("to the right"), say("to the left")));
    put("along", move(shift.dy_mm, ppi, say("down"), say("up")));
    put("turn", turn(shift.rotation_mrad));
    var x = pxUp(found.x_mm, ppi), y = pxUp(found.y_mm, ppi);
    put("x", mmUp(found.x_mm) + " (" + x + " px)");
    put("y", mmUp(found.y_mm) + " (" + y + " px)");
    put("total", say("{} px in width, {} px in height", 2 * x, 2 * y));
    if (border > 0) {
      put("typical", say("{} ({} off)", shares(found.typical_off_mm, border),
        mm(found.typical_off_mm)));
      put("worst", say("{} or better (up to {} off)", shares(found.worst_off_mm, border),
        mm(found.worst_off_mm)));
    } else {
      put("typical", say("enter a border of more than 0 mm"));
      put("worst", say("enter a border of more than 0 mm"));
    }
  }

  function remember() {
    var parts = names.map(function (name) { return name + "=" + encodeURIComponent(fields[name].value); });
    try { history.replaceState(null, "", "#what-if&" + parts.join("&")); } catch (e) { /* not allowed here */ }
  }

  function recall() {
    location.hash.slice(1).split("&").forEach(function (part) {
      var at = part.indexOf("=");
      var field = fields[part.slice(0, at)];
      if (!field) return;
      var value = decodeURIComponent(part.slice(at + 1));
      if (!field.options) { field.value = value; return; }
      Array.prototype.forEach.call(field.options, function (option) {  // what is no choice is ignored
        if (option.value === value || Number(option.value) === Number(value)) field.value = option.value;
      });
    });
  }

  box.hidden = false;
  var table = document.getElementById("what-if-table");
  table.open = false;
  window.addEventListener("beforeprint", function () { table.open = true; });
  window.addEventListener("afterprint", function () { table.open = false; });
  recall();
  update();
  names.forEach(function (name) {
    fields[name].addEventListener("input", function () { update(); remember(); });
  });
  window.addEventListener("hashchange", function () { recall(); update(); });
})();
