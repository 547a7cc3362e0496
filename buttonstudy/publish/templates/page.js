"use strict";
/* Sorts tables and enlarges figures. Pages are whole without it. */
(() => {
  const plain = new Intl.Collator(document.documentElement.lang, { numeric: true });
  const number = (text) => {
    const found = text.replace(/,(?=\d{3})/g, "").match(/^[^\d–-]{0,6}(-?\d+(?:\.\d+)?)/);
    return found ? Number(found[1]) : NaN;
  };
  const text = (row, place) => row.cells[place].textContent.trim();
  const compare = (place) => (one, other) => {
    const [a, b] = [text(one, place), text(other, place)];
    const [x, y] = [number(a), number(b)];
    if (Number.isNaN(x) !== Number.isNaN(y)) return Number.isNaN(x) ? 1 : -1;
    return x - y || plain.compare(a, b);
  };
  const next = { none: "ascending", ascending: "descending", descending: "none" };

  for (const table of document.querySelectorAll("table")) {
    const body = table.tBodies[0];
    const heads = [...(table.tHead?.rows[0]?.cells ?? [])];
    if (!body || body.rows.length < 3) continue;
    const first = [...body.rows];
    heads.forEach((head, place) => {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "sort";
      button.append(...head.childNodes);
      head.append(button);
      head.setAttribute("aria-sort", "none");
      button.addEventListener("click", () => {
        const order = next[head.getAttribute("aria-sort")];
        heads.forEach((each) => each.setAttribute("aria-sort", "none"));
        head.setAttribute("aria-sort", order);
        const rows = order === "none" ? first : [...first].sort(compare(place));
        if (order === "descending") rows.reverse();
        body.append(...rows);
      });
    });
  }

  for (const image of document.querySelectorAll(".figure-box img")) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "enlarge";
    button.textContent = "Enlarge";
    const name = image.closest("figure").querySelector("figcaption b").textContent;
    button.setAttribute("aria-label", `Enlarge ${name.replace(/\.$/, "").toLowerCase()}`);
    image.parentElement.after(button);
    button.addEventListener("click", () => {
      const dialog = document.createElement("dialog");
      const close = document.createElement("button");
      const box = document.createElement("div");
      const copy = image.cloneNode();
      dialog.className = "enlarged";
      dialog.setAttribute("aria-label", name);
      close.type = "button";
      close.textContent = "Close";
      close.addEventListener("click", () => dialog.close());
      box.tabIndex = 0;
      box.append(copy);
      copy.removeAttribute("width");
      copy.removeAttribute("height");
      dialog.append(close, box);
      dialog.addEventListener("close", () => dialog.remove());
      document.body.append(dialog);
      dialog.showModal();
    });
  }
})();
