(function () {
  "use strict";
  function number(cell) {
    const text = cell.textContent.trim().replace(/\u2212/g, "-").replace(/\s*\u00d7\s*10/, "e");
    const superscripts = "\u2070\u00b9\u00b2\u00b3\u2074\u2075\u2076\u2077\u2078\u2079";
    const plain = text.replace(/\u207b/g, "-").replace(/[\u2070\u00b9\u00b2\u00b3\u2074-\u2079]/g, c => superscripts.indexOf(c));
    const value = parseFloat(plain.replace(/^[<>]\s*/, "").replace("\u221e", "Infinity"));
    return Number.isNaN(value) ? null : value;
  }
  function compare(a, b) {
    const x = number(a), y = number(b);
    if (x !== null && y !== null) {
      return x - y;
    }
    if (x !== null || y !== null) {
      return x === null ? 1 : -1;
    }
    return a.textContent.trim().localeCompare(b.textContent.trim(), "en", {numeric: true});
  }
  function sort(table, column, heading) {
    const up = heading.getAttribute("aria-sort") !== "ascending";
    table.querySelectorAll("th[aria-sort]").forEach(h => h.removeAttribute("aria-sort"));
    heading.setAttribute("aria-sort", up ? "ascending" : "descending");
    const body = table.tBodies[0];
    const rows = Array.from(body.rows);
    rows.sort((a, b) => (up ? 1 : -1) * compare(cellAt(a, column), cellAt(b, column)));
    rows.forEach(row => body.appendChild(row));
  }
  function cellAt(row, column) {
    let at = 0;
    for (const cell of row.cells) {
      at += cell.colSpan;
      if (at > column) {
        return cell;
      }
    }
    return row.cells[row.cells.length - 1];
  }
  function headings(table) {
    const found = [];
    const taken = [];
    Array.from(table.tHead.rows).forEach((row, y) => {
      let x = 0;
      for (const cell of row.cells) {
        while (taken[y] && taken[y][x]) {
          x += 1;
        }
        for (let dy = 0; dy < cell.rowSpan; dy += 1) {
          taken[y + dy] = taken[y + dy] || [];
          for (let dx = 0; dx < cell.colSpan; dx += 1) {
            taken[y + dy][x + dx] = true;
          }
        }
        if (cell.tagName === "TH" && cell.colSpan === 1) {
          found.push({cell: cell, column: x});
        }
        x += cell.colSpan;
      }
    });
    return found;
  }
  function reveal() {
    const target = document.getElementById(location.hash.slice(1));
    let closed = false;
    for (let e = target; e; e = e.parentElement) {
      if (e.tagName === "DETAILS" && !e.open) {
        e.open = true;
        closed = true;
      }
    }
    if (closed) {
      target.scrollIntoView();
    }
  }
  window.addEventListener("hashchange", reveal);
  reveal();
  document.querySelectorAll("table.sortable").forEach(table => {
    if (table.tBodies[0].rows.length < 3) {
      return;
    }
    headings(table).forEach(({cell, column}) => {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "sort";
      while (cell.firstChild) {
        button.appendChild(cell.firstChild);
      }
      button.title = "Sort by this column";
      cell.appendChild(button);
      button.addEventListener("click", () => sort(table, column, cell));
    });
  });
  document.querySelectorAll("figure").forEach(figure => {
    const svg = figure.querySelector("svg");
    const marks = Array.from(svg.querySelectorAll("title"))
      .filter(title => !title.id && title.nextElementSibling);
    if (marks.length === 0) {
      return;
    }
    const button = document.createElement("button");
    button.type = "button";
    button.className = "label-points";
    button.textContent = "Name the points";
    button.setAttribute("aria-pressed", "false");
    let layer = null;
    button.addEventListener("click", () => {
      if (layer) {
        layer.remove();
        layer = null;
      } else {
        layer = labels(svg, marks);
      }
      button.setAttribute("aria-pressed", layer ? "true" : "false");
    });
    figure.appendChild(button);
  });
  function labels(svg, marks) {
    const space = "http://www.w3.org/2000/svg";
    const layer = document.createElementNS(space, "g");
    layer.setAttribute("class", "point-labels");
    svg.appendChild(layer);
    const toDrawing = svg.getScreenCTM().inverse();
    const placed = [];
    marks.forEach(mark => {
      const box = mark.nextElementSibling.getBoundingClientRect();
      const corner = svg.createSVGPoint();
      corner.x = box.right;
      corner.y = box.top;
      const at = corner.matrixTransform(toDrawing);
      const text = document.createElementNS(space, "text");
      text.textContent = mark.textContent;
      text.setAttribute("font-size", "10");
      const width = 6 * text.textContent.length;
      let x = Math.min(at.x + 2, svg.viewBox.baseVal.width - width);
      let y = at.y;
      while (placed.some(p => Math.abs(p.y - y) < 10 && x < p.x + p.width && p.x < x + width)) {
        y -= 10;
      }
      placed.push({x: x, y: y, width: width});
      text.setAttribute("x", String(x));
      text.setAttribute("y", String(y));
      layer.appendChild(text);
    });
    return layer;
  }
})();
