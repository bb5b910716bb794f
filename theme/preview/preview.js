// Keeps a page of the preview fresh: told by the server, never asking. Texts of the journal only ever become text nodes.
(() => {
  const place = "pleopod-scroll:" + location.pathname;
  const kept = sessionStorage.getItem(place);
  if (kept !== null) {
    sessionStorage.removeItem(place);
    addEventListener("load", () => scrollTo(0, Number(kept)));
  }

  let version = null;
  const events = new EventSource("/-/events");
  events.onmessage = (event) => {
    const told = JSON.parse(event.data);
    // A page that was busy is told only the newest: a gap in the versions shows that something came between.
    const changes = told.kind === "reload" || told.kind === "style";
    const missed = version !== null && told.version !== version + (changes ? 1 : 0);
    version = told.version;
    if (missed || told.kind === "reload" && concerns(told.files)) reload();
    else if (told.kind === "style") freshStyles();
    else if (told.kind !== "reload") show(told);
  };
  // Whether this page, or anything that pages are made of, is among the changed files; none are named when all may be.
  function concerns(files) {
    const page = decodeURIComponent(location.pathname).replace(/^\//, "") || "index.html";
    return !files || files.some((name) => name === page || name !== "search.js" && /\.(js|css|svg|jpg|png)$/.test(name));
  }
  // A browser opens only six connections to one host: a page that is put away gives its own back.
  addEventListener("pagehide", () => events.close());
  addEventListener("pageshow", (event) => { if (event.persisted) location.reload(); });

  function reload() {
    sessionStorage.setItem(place, String(scrollY));
    location.reload();
  }

  function freshStyles() {
    for (const link of document.querySelectorAll('link[rel="stylesheet"]')) {
      const address = new URL(link.href);
      address.searchParams.set("v", version);
      link.href = address.href;
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
