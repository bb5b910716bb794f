// Pages are whole without this script. It adds days from today, readouts on figures, larger charts and search.
// Words of the journal only ever become text nodes.
(() => {
  "use strict";
  const page = document.body.dataset;
  const make = (tag, text, attributes = {}) => {
    const element = document.createElement(tag);
    if (text) element.textContent = text;
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
    return element;
  };
  const load = (address, integrity) => new Promise((done, fail) => {
    const script = make("script");
    if (integrity) {
      script.integrity = integrity;
      script.crossOrigin = "anonymous";
    }
    script.onload = done;
    script.onerror = fail;
    script.src = address;
    document.head.append(script);
  });

  // Days from the reader's own day.
  const today = Date.UTC(new Date().getFullYear(), new Date().getMonth(), new Date().getDate());
  const away = (days) => { // Intl.RelativeTimeFormat says the same, but a phone needs a quarter of a second to load it
    const near = { "-1": "yesterday", 0: "today", 1: "tomorrow" }[days];
    if (near) return near;
    const words = Math.abs(days) < 60 ? Math.abs(days) + " days" : Math.round(Math.abs(days) / 30.44) + " months";
    return days < 0 ? words + " ago" : "in " + words;
  };
  const daysTo = (time) => Math.round((Date.parse(time.dateTime) - today) / 864e5);
  const made = document.querySelector(".foot time");
  if (made && daysTo(made) < -14) { // what an old page expects is no news from today
    document.querySelector(".head")?.prepend(make("p", "Made " + away(daysTo(made)) + ", for " + made.textContent, { class: "stale" }));
  } else {
    for (const time of document.querySelectorAll("time[data-from-today]")) time.nextElementSibling.textContent = away(daysTo(time));
  }

  // Readouts: the nearest mark, else the nearest row of the table, at the pointer or by the arrow keys.
  const readout = (plot) => {
    const box = plot.querySelector(".fig");
    const rows = [...plot.querySelectorAll("tbody tr")].map((row) => ({ x: Number(row.dataset.x), cells: [...row.cells].map((c) => c.textContent) }));
    const heads = [...plot.querySelectorAll("thead th")].map((th) => th.textContent);
    const note = make("p", "", { class: "readout", "aria-live": "polite" });
    note.hidden = true;
    box.append(note);
    const laned = heads[0] === "Row";

    const show = (svg, lines, at) => {
      note.replaceChildren(...lines.filter(Boolean).map((line) => make("span", line)));
      note.hidden = lines.length === 0;
      if (note.hidden) return;
      const room = box.clientWidth;
      note.style.left = Math.max(0, Math.min(room - note.offsetWidth, at - note.offsetWidth / 2)) + "px";
    };
    const ofItem = (item) => [item.getAttribute("aria-label")];
    const ofRow = (row) => [row.cells[0], ...row.cells.slice(1).map((cell, i) => cell && heads[i + 1] + ": " + cell)];

    for (const svg of box.querySelectorAll("svg")) {
      const items = [...svg.querySelectorAll(".fig-item")];
      for (const item of items) {
        const title = item.querySelector("title");
        if (!title) continue;
        item.setAttribute("aria-label", title.textContent);
        title.remove();
      }
      const set = svg.dataset;
      const scale = () => svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
      const middle = (item) => {
        const b = item.getBBox();
        return (b.x + b.width / 2) * scale();
      };
      let here = -1;
      const mark = (n) => {
        items.forEach((item, i) => item.classList.toggle("fig-here", i === n));
        here = n;
      };
      const hide = () => {
        mark(-1);
        show(svg, [], 0);
      };
      const point = (event) => {
        const item = event.target.closest?.(".fig-item");
        if (item) {
          mark(items.indexOf(item));
          show(svg, ofItem(item), middle(item));
          return;
        }
        mark(-1);
        if (laned || rows.length === 0) return show(svg, [], 0);
        const place = (event.clientX - svg.getBoundingClientRect().left) / scale();
        const x = Number(set.from) + (place - set.left) / (set.right - set.left) * (set.to - set.from);
        const row = rows.reduce((best, r) => Math.abs(r.x - x) < Math.abs(best.x - x) ? r : best);
        show(svg, ofRow(row), (Number(set.left) + (row.x - set.from) / (set.to - set.from) * (set.right - set.left)) * scale());
      };
      svg.addEventListener("pointermove", point);
      svg.addEventListener("pointerdown", point);
      svg.addEventListener("pointerleave", (event) => event.pointerType === "mouse" && hide());
      let shown;
      svg.addEventListener("click", (event) => { // by touch the first tap shows, the second follows
        if (event.pointerType !== "touch") return;
        const item = event.target.closest(".fig-item");
        if (item && item !== shown) event.preventDefault();
        shown = item;
      });
      svg.addEventListener("blur", hide);
      let at = -1;
      svg.addEventListener("keydown", (event) => {
        const steps = items.length || rows.length;
        const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: steps - 1 }[event.key];
        if (event.key === "Escape") hide();
        if (event.key === "Enter" && here >= 0 && items[here].href) location.href = items[here].getAttribute("href");
        if (to === undefined || steps === 0) return;
        event.preventDefault();
        at = (to + steps) % steps;
        if (items.length) {
          mark(at);
          show(svg, ofItem(items[at]), middle(items[at]));
        } else {
          const row = rows[at];
          show(svg, ofRow(row), (Number(set.left) + (row.x - set.from) / (set.to - set.from) * (set.right - set.left)) * scale());
        }
      });
    }
  };

  // Larger charts, only when the reader asks: then the chart program is loaded, and not before.
  let options, program;
  window.pleopodCharts = (charts) => { options = charts; };
  const tone = (name) => getComputedStyle(document.documentElement).getPropertyValue("--fig-" + name).trim();
  const lines = (texts) => {
    const list = make("div");
    for (const text of texts.filter(Boolean)) list.append(make("div", text));
    return list;
  };
  const values = (entries, unit) => [entries].flat().filter((e) => e.value && !e.seriesId.startsWith("unseen-")).map((e) => {
    const v = e.value;
    const size = (n) => typeof n === "number" ? String(Math.round(n * 100) / 100) : n;
    if (typeof v[3] === "number") return `${e.seriesName}: ${size(v[2])} – ${size(v[3])} ${unit}`;
    return `${e.seriesName}: ${size(v[1])} ${unit} ${v[2] ?? ""}`;
  });
  const functions = {
    "fn:fan": (own) => (entries) => lines([[entries].flat()[0]?.axisValueLabel, ...values(entries, own.unit)]),
    "fn:lanes": (own) => (entries) => {
      const first = [entries].flat()[0];
      const lane = first?.axisDim === "y" && own.lanes[first.value[1]];
      if (lane) return lines([lane.label, ...lane.spans.slice(-9).map((s) => (s.from === s.to ? s.from : s.from + " – " + s.to) + ": " + s.label)]);
      const day = first && new Date(first.axisValue).toLocaleDateString("sv");
      const held = own.lanes.flatMap((l) => l.spans.filter((s) => s.from <= day && day <= s.to).map((s) => s.label));
      return lines([day, ...held, ...values(entries, own.unit)]);
    },
    "fn:unsigned": () => (value) => String(Math.abs(value)),
  };
  const fill = (value, own) => {
    if (Array.isArray(value)) return value.map((v) => fill(v, own));
    if (value && typeof value === "object") return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, fill(v, own)]));
    if (typeof value !== "string") return value;
    if (functions[value]) return functions[value](own);
    return value.startsWith("tone:") ? tone(value.slice(5)) : value;
  };
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const explore = async (plot, button) => {
    button.disabled = true;
    try {
      program ??= Promise.all([load(page.runtime, page.integrity), load(page.charts)]);
      await program;
    } catch {
      program = undefined;
      button.disabled = false;
      button.textContent = "The script of the chart could not be loaded. Online? Try again";
      return;
    }
    const { figure: own, ...rest } = structuredClone(options[plot.dataset.figure]);
    const box = make("div", "", { class: "chart", tabindex: "-1" });
    box.style.height = own.height + "px";
    plot.querySelector(".fig").replaceWith(box);
    button.remove();
    let chart;
    const draw = () => {
      chart?.dispose();
      chart = echarts.init(box, dark.matches ? "dark" : null, { renderer: "svg" });
      chart.setOption({ ...fill(rest, own), backgroundColor: "transparent", animation: !matchMedia("(prefers-reduced-motion: reduce)").matches });
      chart.on("click", (event) => {
        const link = event.data?.link ?? event.value?.[3];
        if (typeof link === "string" && link) location.href = link;
      });
    };
    draw();
    box.focus({ preventScroll: true });
    dark.addEventListener("change", draw);
    new ResizeObserver(() => chart.resize()).observe(box);
    if (own.x === "calendar") {
      const zooms = make("p", "Show ", { class: "zooms" });
      for (const [name, days] of [["a month", 31], ["a season", 92], ["a year", 366], ["all", 0]]) {
        const zoom = make("button", name, { type: "button" });
        zoom.addEventListener("click", () => {
          const [from, to] = chart.getModel().getComponent("xAxis", 0).axis.scale.getExtent();
          const end = days ? Math.min(to, Math.max(from + days * 864e5, today + 30 * 864e5)) : to;
          chart.dispatchAction({ type: "dataZoom", startValue: days ? end - days * 864e5 : from, endValue: end });
        });
        zooms.append(zoom, " ");
      }
      box.before(zooms);
    }
  };
  for (const plot of document.querySelectorAll(".plot")) {
    for (const svg of plot.querySelectorAll(".fig svg")) svg.setAttribute("tabindex", "0");
    let ready;
    const prepare = () => { // at the first touch of a figure, so that a page with many opens at once
      if (!ready) readout(plot);
      ready = true;
    };
    for (const kind of ["pointerover", "focusin"]) plot.addEventListener(kind, prepare);
    const button = plot.querySelector(".explore");
    button.hidden = !page.charts || !plot.querySelector("tbody tr");
    button.addEventListener("click", () => explore(plot, button));
  }

  // Search: the index is loaded when the box opens for the first time.
  const find = document.querySelector(".find");
  let index;
  window.pleopodSearch = (found) => {
    index = found;
    index.words = found.words.split(" ");
    index.places = found.places.split(";");
  };
  // The beginnings of words that keepers spell in two ways, and how each may be spelt.
  const spellings = [["moult", "molt"], ["colour", "color"], ["berry", "berried"]];
  const waysOf = (word) => [word, ...spellings.flatMap(([a, b]) => word.startsWith(a) ? word.replace(a, b) : word.startsWith(b) ? word.replace(b, a) : [])];
  const pagesWith = (written) => {
    const pages = new Map(), starts = waysOf(written);
    index.words.forEach((word, i) => {
      const start = starts.find((one) => word.startsWith(one));
      if (!start) return;
      let n = -1;
      for (const gap of index.places[i].split(",")) {
        n += parseInt(gap, 36);
        pages.set(n, (pages.get(n) ?? 0) + (word === start ? 2 : 1));
      }
    });
    return pages;
  };
  const matches = (text) => {
    const words = text.toLowerCase().match(/[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}]|[\p{L}\p{N}\p{M}]+/gu) ?? [];
    if (words.length === 0) return [];
    const each = words.map(pagesWith);
    return [...each[0].keys()].filter((n) => each.every((m) => m.has(n)))
      .map((n) => {
        const titled = words.filter((w) => index.docs[n][1].toLowerCase().includes(w)).length;
        return { n, rank: titled * 10 + each.reduce((sum, m) => sum + m.get(n), 0) };
      })
      .sort((a, b) => b.rank - a.rank || a.n - b.n).slice(0, 50).map((hit) => index.docs[hit.n]);
  };
  if (find && window.HTMLDialogElement) {
    const box = make("dialog", "", { class: "search", "aria-label": "Search" });
    const form = make("form", "", { method: "dialog" });
    const label = make("label", "Search in titles, text, tanks and broods", { for: "search-words" });
    const input = make("input", "", { id: "search-words", type: "search", autocomplete: "off" });
    const close = make("button", "Close", { type: "button" });
    const count = make("p", "", { role: "status" });
    const list = make("ol");
    form.append(label, input, close);
    box.append(form, count, list);
    document.body.append(box);
    const search = () => {
      const hits = index ? matches(input.value) : [];
      count.textContent = !input.value.trim() ? "" : hits.length === 0 ? "Nothing found" : hits.length === 1 ? "1 page" : hits.length + " pages";
      list.replaceChildren(...hits.map(([path, title, day, about]) => {
        const item = make("li");
        const link = make("a", title, { href: page.root + path });
        item.append(link, make("span", " " + [day, about].filter(Boolean).join(" · ")));
        return item;
      }));
    };
    const open = async () => {
      box.showModal();
      input.focus();
      if (index) return;
      try {
        await load(page.search);
        search();
      } catch {
        count.textContent = "The search index could not be loaded.";
      }
    };
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      list.querySelector("a")?.click();
    });
    input.addEventListener("input", search);
    close.addEventListener("click", () => box.close());
    find.hidden = false;
    find.addEventListener("click", open);
    addEventListener("keydown", (event) => {
      if (event.key === "/" && !/^(INPUT|TEXTAREA|SELECT)$/.test(document.activeElement.tagName) && !box.open) {
        event.preventDefault();
        open();
      }
    });
  }
})();
