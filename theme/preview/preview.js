// Keeps a page of the preview fresh: told by the server, never asking. Texts of the journal only ever become text nodes.
(() => {
  const place = "pleopod-scroll:" + location.pathname;
  const kept = sessionStorage.getItem(place);
  if (kept !== null) {
    sessionStorage.removeItem(place);
    addEventListener("load", () => scrollTo(0, Number(kept)));
  }

  // The address of this script ends in the version of the page.
  const events = new EventSource("/-/events" + new URL(document.currentScript.src).search);
  events.onmessage = (event) => {
    const told = JSON.parse(event.data);
    const used = (told.files ?? []).filter(isUsed);
    if (used.some((name) => !name.endsWith(".css"))) reload();
    else {
      used.forEach(freshStyle);
      show(told);
    }
  };
  // Whether this page is made of a file. The index of the search may be older than the page.
  function isUsed(name) {
    const page = decodeURIComponent(location.pathname).slice(1) || "index.html";
    return name === page || name !== "search.js" && performance.getEntriesByType("resource").some((loaded) => pathOf(loaded.name) === name);
  }
  function pathOf(address) {
    return decodeURIComponent(new URL(address).pathname).slice(1);
  }
  // A browser opens only six connections to one host: a page that is put away gives its own back.
  addEventListener("pagehide", () => events.close());
  addEventListener("pageshow", (event) => { if (event.persisted) location.reload(); });

  function reload() {
    sessionStorage.setItem(place, String(scrollY));
    location.reload();
  }

  // The old style stays until the new one is there, so that nothing jumps.
  function freshStyle(name) {
    for (const link of document.querySelectorAll('link[rel="stylesheet"]')) {
      if (pathOf(link.href) !== name) continue;
      const fresh = link.cloneNode();
      fresh.href = "/" + name + "?" + Date.now();
      fresh.onload = () => link.remove();
      link.after(fresh);
    }
  }

  function show(told) {
    document.querySelector(".preview-note")?.remove();
    const mistakes = told.mistakes ?? [];
    if (mistakes.length === 0 && !told.note) return;
    const box = element("section", "preview-note");
    box.setAttribute("role", "status");
    if (told.note) box.append(element("p", "", told.note));
    if (mistakes.length > 0) {
      box.append(element("h2", "", mistakes.length === 1 ? "One thing to mend" : mistakes.length + " things to mend"));
      box.append(element("p", "", "This page shows the journal as it was before."));
    }
    for (const mistake of mistakes) {
      box.append(element("p", "preview-where", mistake.where), element("p", "", mistake.message));
      if (mistake.line) box.append(element("pre", "", mistake.line));
      if (mistake.hint) box.append(element("p", "", mistake.hint));
    }
    document.body.prepend(box);
  }

  function element(name, style, text) {
    const made = document.createElement(name);
    if (style) made.className = style;
    if (text) made.textContent = text;
    return made;
  }
})();
