"use strict";
// Redraws a lane as the reader moves its capacitance: S(C) = (p + qC)/(r + sC), C in picofarad.
(() => {
  const PERFECT_MATCH = 1e-9;
  // What is left of the difference of two equal losses.
  const ROUNDING = 1e-12;
  const SVG = "http://www.w3.org/2000/svg";

  const length = (p, q, c) => Math.hypot(p[0] + q[0] * c, p[1] + q[1] * c);
  const magnitude = ([pr, pi, qr, qi, rr, ri, sr, si], c) =>
    length([pr, pi], [qr, qi], c) / length([rr, ri], [sr, si], c);
  const decibels = (ratio) => (ratio > 0 && ratio < Infinity ? -20 * Math.log10(ratio) + 0 : null);
  const returnLoss = (reflection) => (reflection < PERFECT_MATCH ? null : decibels(reflection));
  const finite = (value) => (Number.isFinite(value) ? value : null);

  // The figures at Nyquist, as the results name them.
  function figures(at, c) {
    const [s11, s21, s22, h] = [at.s11, at.s21, at.s22, at.transfer].map((s) => magnitude(s, c));
    return {
      insertion_loss_db: decibels(s21),
      added_loss_db: decibels(s21 / at.absent_s21),
      return_loss_db: returnLoss(s11),
      return_loss_inner_db: returnLoss(s22),
      reflection: s11 < PERFECT_MATCH ? 0 : s11,
      nyquist_amplitude: finite(h),
      eye_penalty: finite(1 - h / at.absent_transfer),
    };
  }

  // At least four digits, and as many as it takes to stand on the right side of `bound`; what holds may stand on it.
  function shown(value, unit, bound = null, holds = true) {
    if (Math.abs(value) < ROUNDING) return `0 ${unit}`.trim();
    const factor = unit === "%" ? 100 : 1;
    let text = "";
    for (let digits = 4; digits <= 15; digits += 1) {
      text = String(Number((value * factor).toPrecision(digits)));
      const side = Math.sign(Number((Number(text) / factor).toPrecision(15)) - bound);
      if (bound === null || side === Math.sign(value - bound) || (side === 0 && holds)) break;
    }
    return `${text} ${unit}`.trim();
  }

  // A loss over the width of a panel, `x` the share of the slider's end; where there is none, nothing is drawn.
  function curvePath({ over_r, y: [low, high], down }, x, width, height) {
    let path = "";
    over_r.forEach(([ten, p, qr, qi, sr, si], step) => {
      const loss = decibels(10 ** ten * length([p, 0], [qr, qi], x) / (length([1e4, 0], [sr, si], x) / 1e4));
      if (loss === null) return;
      const share = (loss - low) / (high - low);
      const y = Math.min(Math.max(down ? share : 1 - share, -9), 9) * height;
      path += `${path ? "L" : "M"}${(step / (over_r.length - 1) * width).toFixed(1)} ${y.toFixed(1)}`;
    });
    return path;
  }

  const drawn = (name, attributes) => {
    const shape = document.createElementNS(SVG, name);
    Object.entries(attributes).forEach(([key, value]) => shape.setAttribute(key, String(value)));
    return shape;
  };

  // A curve cut at the edges of a panel, and its name beside the upper right corner of the picture's first.
  function place(svg, panel, highest) {
    const first = !svg.querySelector(".live-window");
    const scale = svg.viewBox.baseVal.width / svg.getAttribute("width");
    const [left, top, right, bottom] = panel.area.map((edge) => edge * scale);
    const [width, height] = [right - left, bottom - top];
    const window = drawn("svg", { class: "live-window", x: left, y: top, width, height });
    const stroke = { class: "live-curve", "stroke-width": 2.6 * scale, "stroke-dasharray": `0 ${4.4 * scale}` };
    const path = drawn("path", stroke);
    window.append(path);
    const aside = drawn("g", { class: "live-window" });
    const y = top - 8 * scale;
    const name = drawn("text", { x: right + 43 * scale, y, "font-size": 11 * scale });
    aside.append(drawn("path", { ...stroke, d: `M${right + 14 * scale} ${y - 4 * scale}h${24 * scale}` }), name);
    svg.append(window);
    if (first) svg.append(aside);
    return (c) => {
      const x = ((c * 1e-12 - panel.x[0]) / (panel.x[1] - panel.x[0])) * width;
      path.setAttribute("d", panel.over_r ? curvePath(panel, c / highest, width, height) : `M${x.toFixed(1)} 0V${height}`);
      name.textContent = `tried ${shown(c, "pF")}`;
    };
  }

  function start(section) {
    const bench = section.querySelector(".live");
    const lane = JSON.parse(bench.querySelector("script").textContent);
    const [box, slider] = ["number", "range"].map((type) => bench.querySelector(`input[type=${type}]`));
    const said = bench.querySelector(".said");
    const pictures = section.querySelectorAll(".bench figure > div > svg");
    const curves = lane.panels.map((panel) => place(pictures[panel.picture], panel, lane.highest_pf));

    function show(c) {
      const now = figures(lane.at_nyquist, c);
      bench.querySelectorAll("data").forEach((cell) => {
        const value = now[cell.dataset.key];
        cell.value = value === null ? "" : String(value);
        cell.textContent = value === null ? cell.dataset.without : shown(value, cell.dataset.unit);
      });
      const broken = [];
      bench.querySelectorAll("tr[data-limit]").forEach((row) => {
        const farad = c * 1e-12;
        const holds = JSON.parse(row.dataset.allows).some(([low, high]) => low <= farad && (high === null || farad <= high));
        if (!holds) broken.push(row.dataset.limit);
        row.querySelector(".state").textContent = holds ? "holds" : "breaks";
        row.classList.toggle("broken", !holds);
        const figure = row.dataset.figure;
        if (!figure) return;
        const cell = bench.querySelector(`data[data-key=${figure}]`);
        row.querySelector(".value").textContent = now[figure] === null
          ? cell.dataset.without
          : shown(now[figure], cell.dataset.unit, Number(row.dataset.bound), holds);
      });
      const { worst } = said.dataset;
      const at = `${worst ? "As stated, at" : "At"} ${shown(c, "pF")}`;
      const beside = worst ? `; worst case within the tolerances: ${worst}.` : ".";
      said.textContent = broken.length === 0 ? `${at} every limit holds${beside}` : `${at}: breaks ${broken.join(", ")}${beside}`;
      said.classList.toggle("broken", broken.length > 0);
      curves.forEach((draw) => draw(c));
    }

    slider.max = String(lane.highest_pf);
    slider.addEventListener("input", () => {
      box.value = String(Number(slider.valueAsNumber.toPrecision(4)));
      box.removeAttribute("aria-invalid");
      show(box.valueAsNumber);
    });
    box.addEventListener("input", () => {
      const c = box.valueAsNumber;
      if (c >= 0 && c < Infinity) {
        slider.value = String(c);
        box.removeAttribute("aria-invalid");
        show(c);
      } else {
        box.setAttribute("aria-invalid", "true");
        said.textContent = "Give a capacitance of 0 pF or more.";
        said.classList.add("broken");
      }
    });
    box.value = String(Number(lane.start_pf.toPrecision(12)));
    slider.value = box.value;
    bench.hidden = false;
    show(box.valueAsNumber);
  }

  document.querySelectorAll("section.line").forEach((section) => {
    if (section.querySelector(".live")) start(section);
  });
})();
