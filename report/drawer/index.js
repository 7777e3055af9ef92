(() => {
  const table = document.querySelector("table");
  const body = table.tBodies[0];
  const heads = [...table.tHead.rows[0].cells].filter((th) => th.dataset.key);
  const words = new Intl.Collator(document.documentElement.lang, { numeric: true });

  const value = (row, key) => row.getAttribute("data-" + key);
  const compare = (key) => (a, b) =>
    key === "lens" ? words.compare(value(a, key), value(b, key)) : value(a, key) - value(b, key);

  const sort = (th) => {
    const first = th.dataset.first || "ascending";
    const other = first === "ascending" ? "descending" : "ascending";
    const way = th.getAttribute("aria-sort") === first ? other : first;
    const sign = way === "ascending" ? 1 : -1;
    const by = compare(th.dataset.key);
    body.append(...[...body.rows].sort((a, b) => sign * by(a, b)));
    heads.forEach((h) => h.setAttribute("aria-sort", h === th ? way : "none"));
    document.getElementById("sorted").textContent = "Sorted by " + th.textContent.toLowerCase() + ", " + way + ".";
  };

  heads.forEach((th) => {
    const button = document.createElement("button");
    button.type = "button";
    button.append(...th.childNodes);
    button.addEventListener("click", () => sort(th));
    th.append(button);
  });
})();
