'use strict';
// Draws the charts whose data stand in the script element "charts". Everything that comes from a box file is put into the page as
// text, never as HTML. What went wrong, and how much was drawn, stands in data attributes of the root element.
(function () {
  const root = document.documentElement;
  const problems = [];

  function report(text) {
    problems.push(text);
    root.dataset.problems = problems.join(' | ').slice(0, 2000);
  }
  addEventListener('error', e => report(e.message || 'something did not load'));
  document.addEventListener('securitypolicyviolation', e => report('blocked: ' + e.violatedDirective + ' ' + e.blockedURI));

  // Looks. A box beyond the fourth repeats the look of an earlier one.
  const looks = 4;
  const dashes = ['solid', [7, 4], [2, 3], [11, 3, 2, 3]];
  const planeDashes = { planeY: [1.5, 3], planeZ: [8, 3, 1.5, 3] };
  const paperWidth = { bars: 318, torque: 660, shaft: 660, face: 318, growth: 318, gearing: 660, sweep: 660 };
  const textSize = 12, rowHeight = 16, sign = 12, tallestOnScreen = 128, tallestOnPaper = 54;

  let charts = [], speed = 0, onPaper = false, colours = {}, family = 'sans-serif';

  function readColours() {
    const style = getComputedStyle(root);
    const get = name => style.getPropertyValue('--' + name).trim();
    colours = { box: [], fill: [] };
    for (const name of ['ink', 'muted', 'rule', 'fine', 'sheet', 'steel', 'plate', 'mark0', 'mark1', 'plate-ink']) colours[name] = get(name);
    for (let i = 0; i < looks; i++) {
      colours.box.push(get('box' + i));
      colours.fill.push(get('fill' + i));
    }
    family = getComputedStyle(document.body).fontFamily;
  }
  const own = box => colours.box[box % looks];

  const pen = document.createElement('canvas').getContext('2d');
  function widthOf(text, bold) {
    pen.font = (bold ? '600 ' : '') + textSize + 'px ' + family;
    return pen.measureText(text).width;
  }
  function fit(text, room, bold) {
    if (widthOf(text, bold) <= room) return text;
    const letters = Array.from(text);
    while (letters.length > 1 && widthOf(letters.join('') + '…', bold) > room) letters.pop();
    return letters.join('') + '…';
  }
  const plain = v => String(+v.toPrecision(10)).replace('-', '−');
  const figure = v => v === null || v === undefined ? 'n/a' : String(+v.toPrecision(3)).replace('-', '−');

  function element(tag, text) {
    const e = document.createElement(tag);
    if (text !== undefined) e.textContent = text;
    return e;
  }

  // place gives each label the first row in which it overlaps no other; labels are {x, text}, x the wanted middle in px.
  function place(labels, left, right) {
    const ends = [];
    labels.sort((a, b) => a.x - b.x);
    for (const l of labels) {
      l.text = fit(l.text, Math.min(190, (right - left) * 0.6), l.bold);
      const half = widthOf(l.text, l.bold) / 2;
      l.at = Math.max(left + half, Math.min(right - half, l.x));
      l.row = 0;
      while (ends[l.row] !== undefined && ends[l.row] > l.at - half - 8) l.row++;
      ends[l.row] = l.at + half;
    }
    return ends.length;
  }

  // still keeps shapes from changing their look under the pointer.
  function still(shapes) {
    for (const s of shapes) s.emphasisDisabled = true;
    return shapes;
  }

  function styleAxes(option) {
    for (const key of ['xAxis', 'yAxis']) {
      for (const axis of option[key]) {
        axis.axisLabel = Object.assign({ color: colours.muted, fontSize: textSize, hideOverlap: true }, axis.axisLabel || {});
        if (axis.type === 'value') axis.axisLabel.formatter = plain;
        axis.nameTextStyle = { color: colours.muted, fontSize: textSize };
        axis.axisLine = { show: true, onZero: false, lineStyle: { color: colours.rule } };
        axis.axisTick = { show: false };
        axis.splitLine = { show: axis.type === 'value', lineStyle: { color: colours.fine } };
      }
    }
    option.textStyle = { fontFamily: family, color: colours.ink };
    option.backgroundColor = 'transparent';
    Object.assign(option.tooltip, {
      confine: true, backgroundColor: colours.sheet, borderColor: colours.rule, padding: 10,
      textStyle: { color: colours.ink, fontSize: 13 }, transitionDuration: 0,
      axisPointer: { type: 'line', lineStyle: { color: colours.muted, type: 'solid' } }
    });
  }

  // everySecond writes the marks of an axis, or where they stand too close only those at even multiples of its step, zero among them.
  const everySecond = (axis, close) => v => close && Math.round(v / axis.interval) % 2 ? '' : plain(v);

  function tip() {
    const e = element('div');
    e.className = 'tip';
    return e;
  }

  // Bars.

  function bars(c, option, width) {
    const narrow = width < 400, left = narrow ? 86 : 116, right = narrow ? 92 : 150;
    const kinds = option.yAxis[0].data.length;
    option.grid = { left, right, top: 4, bottom: 42 };
    option.yAxis[0].axisLabel = { interval: 0, width: left - 14, overflow: 'break', color: colours.ink, lineHeight: 14, fontSize: narrow ? 11 : textSize };
    option.yAxis[0].axisLine = { show: false };
    option.xAxis[0].axisLabel = { formatter: everySecond(option.xAxis[0], narrow) };
    const span = option.xAxis[0], inner = width - left - right;
    const at = v => left + inner * (v - span.min) / (span.max - span.min);
    const reserve = at(Math.max(...option.series[0].markLine.data.map(d => d.xAxis)));
    option.series.forEach((s, i) => {
      const meta = c.series[i], look = meta.box % looks, solid = look % 2 === 0;
      s.itemStyle = {
        color: solid ? own(meta.box) : colours.fill[look], borderColor: own(meta.box), borderWidth: 1.4,
        borderType: look === 3 ? 'dashed' : 'solid'
      };
      if (look === 2) s.itemStyle.decal = { symbol: 'rect', color: colours.sheet, dashArrayX: [1, 0], dashArrayY: [2, 4], rotation: -Math.PI / 4 };
      s.emphasis = { disabled: true };
      s.data = meta.bars.map(b => {
        // The words start behind the bar, and behind the dashed line when they would be written across it.
        const end = at(Math.max(0, b.value));
        const start = end < reserve && end > reserve - 90 ? reserve : end;
        const room = width - 4 - start - 6;
        return {
          value: b.value,
          label: { show: true, position: 'right', distance: 5 + start - end, fontSize: textSize, color: b.none ? colours.muted : colours.ink, fontWeight: b.first ? 600 : 400, formatter: () => fit(b.text, room, b.first) }
        };
      });
      if (s.markLine) {
        Object.assign(s.markLine, { silent: true, animation: false, label: { show: false }, emphasis: { disabled: true } });
        s.markLine.data.forEach((d, k) => { d.lineStyle = { color: colours.ink, width: k ? 1.2 : 1.4, type: k ? [5, 4] : 'solid' }; });
      }
    });
    option.tooltip.axisPointer = { type: 'shadow', shadowStyle: { color: colours.rule, opacity: 0.35 } };
    option.tooltip.formatter = params => {
      const e = tip();
      e.append(element('b', option.yAxis[0].data[params[0].dataIndex]));
      for (const meta of c.series) {
        for (const line of meta.bars[params[0].dataIndex].tip) e.append(element('p', line));
      }
      return e;
    };
    return 46 + kinds * Math.max(34, 14 + 16 * c.series.length);
  }

  // Margin against torque.

  function torque(c, option, width) {
    const height = Math.round(Math.max(320, Math.min(460, width * 0.5)));
    const named = c.series.length && option.series.some(s => s.markLine && s.markLine.data.some(d => d.name !== 'zero' && d.name !== 'asked'));
    const left = 62, right = 20, top = named ? 40 : 26, bottom = 46;
    option.grid = { left, right, top, bottom };
    const x = option.xAxis[0];
    const px = v => left + (width - left - right) * (v - x.min) / (x.max - x.min);
    option.series.forEach((s, i) => {
      const meta = c.series[i];
      if (meta.role === 'cross') {
        const up = meta.box % 2 === 0 ? -1 : 1;
        const labels = (meta.cross || []).map(k => ({ x: px(k.x), text: k.name, bold: k.first, value: k.x }));
        place(labels, left + 2, width - right);
        s.renderItem = (params, api) => ({ type: 'group', children: still(labels.flatMap(l => crossing(l, api.coord([l.value, 0]), up, own(meta.box)))) });
        s.silent = true;
        s.z = 5;
        if (s.markLine) {
          Object.assign(s.markLine, { silent: true, animation: false, emphasis: { disabled: true } });
          const asked = s.markLine.data.filter(d => d.name !== 'zero').length;
          s.markLine.label = { show: asked === 1 || named, position: 'end', color: colours.ink, fontSize: textSize, formatter: p => p.name === 'asked' ? 'asked ' + figure(p.value) + ' ' + c.xUnit : p.name === 'zero' ? '' : p.name };
          // Marks with words of their own stand in rows, so that near ones don't cover each other.
          if (named) s.markLine.data.filter(d => d.name !== 'zero').forEach((d, n) => { d.label = { distance: 4 + 14 * (n % 2) }; });
          for (const d of s.markLine.data) d.lineStyle = { color: colours.ink, width: 1.3, type: d.name === 'zero' ? 'solid' : [2, 3] };
        }
        return;
      }
      const first = meta.role === 'first';
      s.lineStyle = { color: own(meta.box), width: first ? 3 : 1.3, type: dashes[meta.box % looks] };
      s.itemStyle = { color: own(meta.box) };
      s.z = first ? 4 : 3;
      s.emphasis = { disabled: true };
    });
    option.tooltip.formatter = params => {
      const e = tip(), lines = params.filter(p => p.seriesType === 'line');
      if (!lines.length) return '';
      e.append(element('b', figure(lines[0].value[0]) + ' ' + c.xUnit));
      const t = element('table');
      for (const p of lines) {
        const v = p.value[p.encode.y[0]], row = element('tr');
        row.append(element('td', p.seriesName), element('td', v === null ? 'n/a' : (v >= 0 ? '+' : '') + v.toFixed(Math.abs(v) < 10 ? 1 : 0).replace('-', '−') + ' %'));
        t.append(row);
      }
      e.append(t);
      return e;
    };
    return height;
  }

  function crossing(l, at, up, colour) {
    const y = at[1] + up * (22 + l.row * rowHeight);
    return [
      { type: 'polyline', shape: { points: [[at[0], at[1]], [l.at, y - up * 8]] }, style: { stroke: colour, lineWidth: 1, fill: 'none' } },
      { type: 'circle', shape: { cx: at[0], cy: at[1], r: l.bold ? 5 : 3.6 }, style: { fill: up < 0 ? colour : colours.sheet, stroke: colour, lineWidth: 1.6 } },
      { type: 'rect', shape: { x: l.at - widthOf(l.text, l.bold) / 2 - 3, y: y - 8, width: widthOf(l.text, l.bold) + 6, height: 16, r: 3 }, style: { fill: colours.sheet, opacity: 0.85 } },
      { type: 'text', style: { text: l.text, x: l.at, y, align: 'center', verticalAlign: 'middle', fill: colour, font: (l.bold ? '600 ' : '') + textSize + 'px ' + family } }
    ];
  }

  // Shafts.

  function shaft(c, option, width) {
    const narrow = width < 520;
    const left = narrow ? 52 : 62, right = 14, panelHeight = onPaper ? 54 : narrow ? 92 : 112;
    const tallest = onPaper ? tallestOnPaper : tallestOnScreen;
    const view = c.views[speed], x = option.xAxis[0];
    // Both directions have one scale. A stout shaft would fill the screen at full width, so it gets a narrower chart.
    const stoutest = Math.max(...c.views.flatMap(v => v.parts).flatMap(parts => (parts || []).filter(q => q.k === 'section').map(q => q.r)));
    const full = (width - left - right) / (x.max - x.min);
    const scale = Math.min(full, Math.max(tallest / (1.1 * stoutest), (onPaper ? 0.28 : 0.45) * full));
    const inner = scale * (x.max - x.min), end = left + inner;
    const px = v => left + (v - x.min) * scale;
    const outlines = c.panels.filter(p => p.box >= 0).length;
    const many = c.boxes.length > 1;
    option.grid = [];
    option.title = [];
    let top = 4, drawn = [];
    c.panels.forEach((p, g) => {
      option.xAxis[g].axisLabel = { show: g === c.panels.length - 1, formatter: everySecond(option.xAxis[g], scale * option.xAxis[g].interval < 36) };
      option.xAxis[g].axisPointer = { label: { show: false } };
      const text = p.unit ? p.title + ', ' + p.unit : p.title;
      const heading = p.unit || many;
      if (heading) {
        option.title.push({ text: fit(text, width - 20, true), left: p.unit ? left : 0, top, padding: 0, textStyle: { fontSize: textSize + 0.5, fontWeight: 600, fontFamily: family, color: p.box >= 0 ? own(p.box) : colours.ink } });
        top += 19;
      }
      let height = panelHeight;
      if (p.box >= 0) {
        // Rows of labels are counted over all speeds, so that nothing jumps when the speed changes.
        const rows = { gear: 0, bearing: 0 };
        let labels;
        c.views.forEach((v, k) => {
          const parts = v.parts[p.box] || [];
          const here = {};
          for (const kind of ['gear', 'bearing']) {
            here[kind] = parts.filter(q => q.k === kind && q.n).map(q => ({ x: px(q.b === undefined ? q.a : (q.a + q.b) / 2), text: q.n, part: q }));
            rows[kind] = Math.max(rows[kind], place(here[kind], left, Math.max(end, left + 200)));
          }
          if (k === speed) labels = here;
        });
        const half = Math.min(p.half * scale + 2, Math.max(tallest, 1.15 * stoutest * scale));
        top += rows.gear * rowHeight + 6;
        height = 2 * half;
        option.yAxis[g].min = -half / scale;
        option.yAxis[g].max = half / scale;
        option.yAxis[g].show = false;
        option.xAxis[g].show = false;
        drawn.push({ g, box: p.box, half, parts: view.parts[p.box] || [], labels });
        option.grid.push({ left, width: inner, top, height });
        top += height + rows.bearing * rowHeight + 18;
      } else {
        option.yAxis[g].axisLabel = { showMinLabel: true, showMaxLabel: true };
        option.grid.push({ left, width: inner, top: top + 3, height });
        top += height + 19;
      }
    });
    option.dataset = view.tables.map(t => ({ source: t, sourceHeader: false }));
    option.series.forEach((s, i) => {
      const meta = c.series[i];
      s.emphasis = { disabled: true };
      if (meta.role === 'outline') {
        const d = drawn.find(o => o.box === meta.box);
        s.renderItem = (params, api) => ({ type: 'group', children: still(drawShaft(d, api, scale)) });
        s.silent = true;
        return;
      }
      const plane = planeDashes[meta.role];
      s.lineStyle = { color: own(meta.box), width: plane ? 1.2 : 2.2, type: plane || dashes[meta.box % looks] };
      s.itemStyle = { color: own(meta.box) };
      s.z = plane ? 2 : 3;
    });
    for (let g = outlines; g < c.panels.length; g++) {
      const s = option.series.find(q => q.type === 'line' && q.yAxisIndex === g || g === 0 && !q.yAxisIndex);
      if (s) s.markLine = { silent: true, symbol: 'none', animation: false, label: { show: false }, data: [{ yAxis: 0 }], lineStyle: { color: colours.muted, width: 1, type: 'solid' } };
    }
    option.axisPointer.lineStyle = { color: colours.muted };
    option.tooltip.formatter = params => {
      const list = Array.isArray(params) ? params : [params];
      return list.length ? shaftTip(c, view, list[0].axisValue) : '';
    };
    say(c, view);
    return top + 34;
  }

  function shaftTip(c, view, x) {
    const e = tip(), t = element('table'), head = element('tr');
    head.append(element('th', ''));
    const near = [];
    view.tables.forEach((rows, b) => {
      if (!rows.length) return;
      let best = rows[0];
      for (const r of rows) if (Math.abs(r[0] - x) < Math.abs(best[0] - x)) best = r;
      near.push(best);
      head.append(element('th', c.boxes[b]));
    });
    if (!near.length) return '';
    if (c.boxes.length > 1) t.append(head);
    const curves = c.panels.filter(p => p.box < 0);
    const lines = [['at x, ' + c.xUnit, 0]].concat(curves.map((p, k) => [p.title + ', ' + p.unit, 3 + k]));
    for (const [name, column] of lines) {
      const row = element('tr');
      row.append(element('th', name));
      for (const r of near) row.append(element('td', figure(r[column])));
      t.append(row);
    }
    e.append(t);
    return e;
  }

  // drawShaft is the cut through one shaft: idle gears behind, the cut faces of the sections, the gears that carry load over them,
  // bearings, the centre line, names.
  function drawShaft(d, api, scale) {
    const out = [], x = v => api.coord([v, 0])[0], mid = api.coord([0, 0])[1];
    const line = (points, style) => out.push({ type: 'polyline', shape: { points }, style: Object.assign({ fill: 'none', stroke: colours.ink, lineWidth: 1 }, style) });
    const box = (x0, y0, w, h, style) => out.push({ type: 'rect', shape: { x: x0, y: y0, width: w, height: h }, style });
    const sections = d.parts.filter(p => p.k === 'section'), gears = d.parts.filter(p => p.k === 'gear');
    const boreAt = v => scale * Math.max(0, ...sections.filter(p => p.a <= v && v <= p.b).map(p => p.i || 0));
    const colour = own(d.box), tint = colours.fill[d.box % looks];

    function gear(p) {
      const a = x(p.a), w = x(p.b) - a, r = Math.min(p.r * scale, d.half), cut = p.r * scale > d.half + 0.5, i = boreAt((p.a + p.b) / 2);
      const edge = { stroke: p.on ? colour : colours.rule, lineWidth: p.on ? 1.8 : 1 };
      for (const [top, bottom, rim] of [[mid - r, mid - i, mid - r], [mid + i, mid + r, mid + r]]) {
        box(a, top, w, bottom - top, { fill: p.on ? tint : colours.fine, opacity: p.on ? 0.72 : 0.5 });
        line([[a, top], [a, bottom]], edge);
        line([[a + w, top], [a + w, bottom]], edge);
        line([[a, rim], [a + w, rim]], Object.assign({ lineDash: cut ? [3, 3] : undefined }, edge));
      }
    }

    gears.filter(p => !p.on).forEach(gear);
    for (const p of sections) {
      const a = x(p.a), w = x(p.b) - a, r = p.r * scale, i = (p.i || 0) * scale;
      box(a, mid - r, w, r - i, { fill: colours.steel });
      box(a, mid + i, w, r - i, { fill: colours.steel });
      for (const y of i > 0 ? [r, i, -i, -r] : [r, -r]) line([[a, mid + y], [a + w, mid + y]], {});
      for (const e of [a, a + w]) {
        line([[e, mid - r], [e, mid - i]], {});
        line([[e, mid + i], [e, mid + r]], {});
      }
    }
    gears.filter(p => p.on).forEach(gear);
    for (const p of d.parts.filter(q => q.k === 'bearing')) {
      const a = x(p.a), r = p.r * scale, h = sign / 2;
      for (const y of [mid - r - h, mid + r + h]) {
        box(a - h, y - h, sign, sign, { fill: colours.sheet, stroke: colours.ink, lineWidth: 1.2 });
        line([[a - h, y - h], [a + h, y + h]], {});
        line([[a - h, y + h], [a + h, y - h]], {});
      }
    }
    const from = x(Math.min(...sections.map(p => p.a))), to = x(Math.max(...sections.map(p => p.b)));
    line([[from - 14, mid], [to + 14, mid]], { stroke: colours.muted, lineDash: [14, 3, 3, 3] });
    if (!d.labels) return out;
    for (const [kind, up] of [['gear', -1], ['bearing', 1]]) {
      for (const l of d.labels[kind]) {
        const y = mid + up * (d.half + 10 + l.row * rowHeight);
        const from = kind === 'gear' ? Math.min(l.part.r * scale, d.half) : l.part.r * scale + sign;
        const ink = kind === 'gear' ? colour : colours.muted;
        line([[l.x, mid + up * from], [l.x, y - up * 8]], { stroke: ink, lineWidth: 0.8, lineDash: [2, 2] });
        out.push({ type: 'text', style: { text: l.text, x: l.at, y, align: 'center', verticalAlign: 'middle', fill: ink, font: textSize + 'px ' + family } });
      }
    }
    return out;
  }

  function say(c, view) {
    const e = document.getElementById(c.id), figure = e.parentElement;
    e.setAttribute('aria-label', view.alt + ' ' + view.note.replaceAll('\n', ' '));
    const caption = figure.querySelector('figcaption');
    if (caption.textContent !== view.note) caption.textContent = view.note;
    const title = figure.querySelector('.title');
    if (title) title.textContent = view.title;
    figure.querySelector('.speed').textContent = ' in ' + c.speeds[speed];
  }

  // Load along the face.

  const tallestFlank = 124;

  function face(c, option, width) {
    const view = c.views[speed];
    if (view.empty) {
      option.series = [];
      return 40;
    }
    const narrow = width < 400, left = narrow ? 48 : 58, right = 16, inner = width - left - right;
    const scale = inner / (view.x.high - view.x.low), many = c.boxes.length > 1;
    const flanks = view.flanks.map((f, b) => f && Object.assign({ box: b }, f)).filter(Boolean);
    // Drawn to scale; where that would be too tall, all flanks are made lower alike.
    const lower = Math.min(1, tallestFlank / Math.max(1, ...flanks.map(f => scale * (f.h || 0))));
    option.grid = [{ left, width: inner, top: 27, height: onPaper ? 90 : 140 }];
    option.title = [{ text: 'line load, ' + c.yUnit, left, top: 2, padding: 0, textStyle: { fontSize: textSize + 0.5, fontWeight: 600, fontFamily: family, color: colours.ink } }];
    let top = (onPaper ? 117 : 167) + 12;
    const last = flanks.length ? flanks[flanks.length - 1].box : -1;
    option.xAxis.forEach((a, g) => {
      const f = view.flanks[g - 1];
      Object.assign(a, { min: view.x.low, max: view.x.high, interval: view.x.step });
      a.axisLabel = { show: g - 1 === last, formatter: everySecond(a, scale * a.interval < 36) };
      a.axisPointer = { label: { show: false } };
      if (g === 0) return;
      option.yAxis[g].show = false;
      if (!f) {
        a.show = false;
        option.grid.push({ left, width: inner, top: 0, height: 0 });
        return;
      }
      const height = f.h ? f.h * scale * lower : 40, text = narrow || onPaper ? f.short : f.text;
      option.title.push({ text: fit((many ? c.boxes[g - 1] + ': ' : '') + text, width - left, true), left, top, padding: 0, textStyle: { fontSize: textSize, fontWeight: 600, fontFamily: family, color: many ? own(g - 1) : colours.ink } });
      a.axisLine = { show: false };
      a.splitLine = { show: false };
      if (g - 1 === last) a.name = '◂ left   ' + a.name + '   right ▸';
      else a.name = '';
      option.grid.push({ left, width: inner, top: top + 19, height });
      top += height + 33;
    });
    Object.assign(option.yAxis[0], { min: view.y.low, max: view.y.high, interval: view.y.step });
    option.series.forEach((s, i) => {
      const meta = c.series[i], f = view.flanks[meta.box], rows = view.tables[meta.box];
      s.emphasis = { disabled: true };
      if (meta.role === 'flank') {
        s.silent = true;
        s.renderItem = (params, api) => ({ type: 'group', children: f ? still(drawFlank(f, rows, view.y.high, params.coordSys, v => api.coord([v, 0])[0])) : [] });
        return;
      }
      const load = meta.role === 'load', ends = rows.length ? [rows[0][0], rows[rows.length - 1][0]] : [];
      s.data = load ? rows : ends.map(x => [x, f.mean]);
      s.lineStyle = { color: own(meta.box), width: load ? 2.4 : 1.1, type: load ? dashes[meta.box % looks] : [4, 3] };
      s.itemStyle = { color: own(meta.box) };
      s.z = load ? 3 : 2;
      if (load && rows.length) {
        const peak = rows.reduce((a, b) => b[1] > a[1] ? b : a);
        s.markPoint = { silent: true, animation: false, symbol: 'circle', symbolSize: 9, label: { show: false }, itemStyle: { color: meta.box % 2 ? colours.sheet : own(meta.box), borderColor: own(meta.box), borderWidth: 2 }, data: [{ coord: peak }] };
      }
    });
    option.axisPointer.lineStyle = { color: colours.muted };
    option.tooltip.formatter = params => {
      const list = Array.isArray(params) ? params : [params];
      return list.length ? faceTip(c, view, list[0].axisValue) : '';
    };
    say(c, view);
    return top + 34;
  }

  function faceTip(c, view, x) {
    const e = tip(), t = element('table');
    view.tables.forEach((rows, b) => {
      if (!rows.length) return;
      const near = rows.reduce((best, r) => Math.abs(r[0] - x) < Math.abs(best[0] - x) ? r : best), row = element('tr');
      row.append(element('th', c.boxes[b]), element('td', 'at ' + figure(near[0]) + ' ' + c.xUnit), element('td', figure(near[1]) + ' ' + c.yUnit), element('td', figure(near[1] / view.flanks[b].mean) + ' × mean'));
      t.append(row);
    });
    if (!t.children.length) return '';
    e.append(t);
    return e;
  }

  // shade is the colour of a load, as a part of the highest mark of the chart.
  function shade(part) {
    const at = (hex, k) => parseInt(hex.slice(1 + 2 * k, 3 + 2 * k), 16);
    return 'rgb(' + [0, 1, 2].map(k => Math.round(at(colours.mark0, k) + part * (at(colours.mark1, k) - at(colours.mark0, k)))).join(',') + ')';
  }

  // drawFlank is the flank of a tooth: a bare plate, shaded where it carries.
  function drawFlank(f, rows, most, frame, x) {
    const out = [], from = x(rows[0][0]), to = x(rows[rows.length - 1][0]), y = frame.y, height = frame.height;
    const active = f.h ? height * f.active / f.h : height, upper = f.down ? y + height - active : y;
    const text = (words, px, py, align, fill) => out.push({ type: 'text', style: { text: words, x: px, y: py, align, verticalAlign: 'middle', fill, font: textSize + 'px ' + family } });
    out.push({ type: 'rect', shape: { x: from, y, width: to - from, height }, style: { fill: colours.plate } });
    for (let i = 0; i < rows.length;) {
      if (!(rows[i][1] > 0)) {
        i++;
        continue;
      }
      let j = i;
      while (j + 1 < rows.length && rows[j + 1][1] > 0) j++;
      // The edge of contact lies between the last station that carries and the next one.
      const a = Math.max(0, i - 1), b = Math.min(rows.length - 1, j + 1), start = x(rows[a][0]), wide = x(rows[b][0]) - start;
      const stops = rows.slice(a, b + 1).map(r => ({ offset: (x(r[0]) - start) / wide, color: shade(Math.min(1, r[1] / most)) }));
      out.push({ type: 'rect', shape: { x: start, y: upper, width: wide, height: active }, style: { fill: { type: 'linear', x: 0, y: 0, x2: 1, y2: 0, colorStops: stops, global: false } } });
      for (const [edge, end] of [[start, a === 0 && rows[0][1] > 0], [start + wide, b === rows.length - 1 && rows[b][1] > 0]]) {
        if (!end) out.push({ type: 'polyline', shape: { points: [[edge, upper], [edge, upper + active]] }, style: { stroke: colours['plate-ink'], lineWidth: 1, lineDash: [3, 2], fill: 'none' } });
      }
      if (start - from > 36) text('bare', (from + start) / 2, upper + active / 2, 'center', colours['plate-ink']);
      if (to - start - wide > 36) text('bare', (to + start + wide) / 2, upper + active / 2, 'center', colours['plate-ink']);
      i = j + 1;
    }
    if (f.h) out.push({ type: 'polyline', shape: { points: [[from, f.down ? upper : y + active], [to, f.down ? upper : y + active]] }, style: { stroke: colours['plate-ink'], lineWidth: 0.8, lineDash: [4, 3], opacity: 0.6, fill: 'none' } });
    out.push({ type: 'rect', shape: { x: from, y, width: to - from, height }, style: { fill: 'none', stroke: colours.ink, lineWidth: 1.2 } });
    if (f.h && height > 30) {
      text(f.down ? 'root' : 'tip', from - 6, y + 7, 'right', colours.muted);
      text(f.down ? 'tip' : 'root', from - 6, y + height - 7, 'right', colours.muted);
    }
    return out;
  }

  // Load along the face at other torques.

  function growth(c, option, width) {
    const view = c.views[speed];
    if (view.empty) {
      option.series = [];
      return 40;
    }
    const narrow = width < 400, left = narrow ? 48 : 58, inner = width - left - 16;
    const titles = ['peak over mean (K_Hβ)', 'load acts, ' + c.yUnit + ' off the middle (+ right)'], ranges = [view.y, view.z];
    const height = onPaper ? 62 : 96;
    option.grid = [];
    option.title = [];
    let top = 2;
    titles.forEach((text, g) => {
      option.title.push({ text: fit(text, inner, true), left, top, padding: 0, textStyle: { fontSize: textSize + 0.5, fontWeight: 600, fontFamily: family, color: colours.ink } });
      option.grid.push({ left, width: inner, top: top + 25, height });
      top += height + 44;
      Object.assign(option.xAxis[g], { min: view.x.low, max: view.x.high, interval: view.x.step });
      option.xAxis[g].axisLabel = { show: g === 1, formatter: everySecond(option.xAxis[g], inner * view.x.step / (view.x.high - view.x.low) < 36) };
      option.xAxis[g].axisPointer = { label: { show: false } };
      Object.assign(option.yAxis[g], { min: ranges[g].low, max: ranges[g].high, interval: ranges[g].step });
    });
    option.series.forEach((s, i) => {
      const meta = c.series[i], g = meta.role === 'place' ? 1 : 0, hollow = meta.box % 2;
      s.emphasis = { disabled: true };
      s.data = view.tables[meta.box].map(r => [r[0], r[1 + g]]);
      s.showSymbol = true;
      s.symbol = 'circle';
      s.symbolSize = 6;
      s.lineStyle = { color: own(meta.box), width: 2.2, type: dashes[meta.box % looks] };
      s.itemStyle = { color: hollow ? colours.sheet : own(meta.box), borderColor: own(meta.box), borderWidth: 1.6 };
      if (meta.box) return;
      const lines = c.asked.map(x => ({ xAxis: x, lineStyle: { color: colours.muted, width: 1.2, type: [2, 3] } }));
      if (g) lines.push({ yAxis: 0, lineStyle: { color: colours.muted, width: 1, type: 'solid' } });
      s.markLine = { silent: true, symbol: 'none', animation: false, label: { show: false }, data: lines };
    });
    option.axisPointer.lineStyle = { color: colours.muted };
    option.tooltip.formatter = params => {
      const list = Array.isArray(params) ? params : [params];
      return list.length ? growthTip(c, view, list[0].axisValue) : '';
    };
    say(c, view);
    return top + 34;
  }

  function growthTip(c, view, x) {
    const e = tip(), t = element('table');
    view.tables.forEach((rows, b) => {
      if (!rows.length) return;
      const near = rows.reduce((best, r) => Math.abs(r[0] - x) < Math.abs(best[0] - x) ? r : best), row = element('tr');
      const where = near[2] === null ? 'n/a' : figure(Math.abs(near[2])) + ' ' + c.yUnit + (near[2] > 0 ? ' right' : near[2] < 0 ? ' left' : '');
      row.append(element('th', c.boxes[b]), element('td', 'at ' + figure(near[0]) + ' ' + c.xUnit), element('td', figure(near[1]) + ' × mean'), element('td', where));
      t.append(row);
    });
    if (!t.children.length) return '';
    e.append(t);
    return e;
  }

  // Engine speed and pull against the speed over ground.

  function gearing(c, option, width) {
    const narrow = width < 520, left = narrow ? 52 : 62, right = 16, inner = width - left - right, x = option.xAxis[0];
    const heights = onPaper ? [170, 90] : narrow ? [230, 110] : [320, 150];
    const px = v => left + inner * (v - x.min) / (x.max - x.min);
    const labels = c.series.map(meta => (meta.cross || []).map(k => ({ x: px(k.x), text: k.name, value: k.x })));
    const rows = labels.map(l => place(l, left, left + inner)), above = Math.max(0, ...rows.filter((r, i) => c.series[i].box % 2 === 0));
    option.grid = [];
    option.title = [];
    let top = 2;
    c.panels.forEach((p, g) => {
      option.title.push({ text: fit(p.title + ', ' + p.unit, inner, true), left, top, padding: 0, textStyle: { fontSize: textSize + 0.5, fontWeight: 600, fontFamily: family, color: colours.ink } });
      top += 21 + (g ? 4 : 12 + above * rowHeight);
      option.grid.push({ left, width: inner, top, height: heights[g] });
      top += heights[g] + 18;
      option.xAxis[g].axisLabel = { show: g === 1, formatter: everySecond(option.xAxis[g], inner * x.interval / (x.max - x.min) < 36) };
      option.xAxis[g].axisPointer = { label: { show: false } };
    });
    const most = option.yAxis[0].max;
    option.series.forEach((s, i) => {
      const meta = c.series[i], colour = own(meta.box);
      s.emphasis = { disabled: true };
      if (meta.role === 'tops') {
        const up = meta.box % 2 === 0 ? -1 : 1, top = c.tops[meta.box];
        s.silent = true;
        s.z = 6;
        s.renderItem = (params, api) => ({ type: 'group', children: still(labels[i].flatMap(l => crossing(l, api.coord([l.value, Math.min(top, most)]), up, colour))) });
        return;
      }
      const heavy = meta.role === 'run' || meta.role === 'pull';
      s.lineStyle = { color: colour, width: heavy ? 2.6 : meta.role === 'hold' ? 1.6 : 1, type: meta.role === 'hold' ? [5, 4] : dashes[meta.box % looks], opacity: meta.role === 'gear' ? 0.75 : 1 };
      s.itemStyle = { color: colour };
      s.z = heavy ? 4 : 3;
    });
    option.axisPointer.lineStyle = { color: colours.muted };
    option.tooltip.formatter = params => {
      const list = Array.isArray(params) ? params : [params];
      return list.length ? gearingTip(c, option, list[0].axisValue) : '';
    };
    return top + 30;
  }

  function gearingTip(c, option, x) {
    const e = tip(), t = element('table');
    e.append(element('b', figure(x) + ' ' + c.xUnit));
    option.series.forEach((s, i) => {
      const meta = c.series[i];
      if (meta.role !== 'gear' && meta.role !== 'pull' && meta.role !== 'hold') return;
      const row = element('tr'), end = s.data[s.data.length - 1];
      if (x > end[0]) return;
      // A speed of the box is a straight line; pull and hold are steps.
      const v = meta.role === 'gear' ? x / end[0] * end[1] : s.data.find(r => r[0] >= x)[1];
      const name = (c.boxes.length > 1 ? c.boxes[meta.box] + ', ' : '') + (meta.role === 'gear' ? s.name : meta.role === 'pull' ? 'pulls' : 'tyres hold');
      row.append(element('td', name), element('td', (meta.role === 'gear' ? String(Math.round(v)) : figure(v)) + ' ' + (meta.role === 'gear' ? c.yUnit : c.panels[1].unit)));
      t.append(row);
    });
    e.append(t);
    return e;
  }

  // Allowable torque over a range.

  function sweep(c, option, width) {
    const height = Math.round(Math.max(320, Math.min(440, width * 0.45)));
    const left = 62, right = width < 500 ? 46 : 92, top = 34, bottom = 46;
    option.grid = { left, right, top, bottom };
    // Lines that end together share a label.
    const rows = option.dataset.source, room = 14 * (option.yAxis[0].max - option.yAxis[0].min) / (height - top - bottom), ends = [];
    c.series.forEach((meta, i) => {
      const row = rows.findLast(r => r[i + 1] !== null);
      if (meta.role === 'least' || !row) return;
      const near = ends.find(k => k.at === row[0] && Math.abs(k.value - row[i + 1]) < room);
      if (near) near.names.push(option.series[i].name);
      else ends.push({ i, at: row[0], value: row[i + 1], names: [option.series[i].name] });
    });
    option.series.forEach((s, i) => {
      const meta = c.series[i], least = meta.role === 'least';
      s.emphasis = { disabled: true };
      s.connectNulls = false;
      s.showSymbol = least;
      s.symbol = 'circle';
      s.symbolSize = 4;
      s.lineStyle = { color: least ? colours.ink : own(meta.box), width: least ? 3 : 1.4, type: least ? 'solid' : dashes[meta.box % looks] };
      s.itemStyle = { color: least ? colours.ink : own(meta.box) };
      s.z = least ? 3 : 4;
      if (!least) {
        const end = ends.find(k => k.i === i);
        if (end) s.endLabel = { show: true, formatter: () => fit(end.names.join(', '), right - 10), color: end.names.length > 1 ? colours.ink : own(meta.box), fontSize: textSize, distance: 5 };
        return;
      }
      s.markArea = {
        silent: true, animation: false, label: { show: true, position: 'insideTop', color: colours.ink, fontSize: textSize, fontWeight: 600 },
        data: (c.stretches || []).map((k, n) => [{ name: k.letter, xAxis: k.from, itemStyle: { color: n % 2 ? colours.rule : colours.fine, opacity: 0.35 } }, { xAxis: k.to }])
      };
      s.markLine = {
        silent: true, animation: false, symbol: 'none',
        data: (c.marks || []).map(m => ({ name: m.name, yAxis: m.at, label: { position: 'insideStartTop' } })).concat((c.uprights || []).map((m, n) => ({ name: m.name, xAxis: m.at, label: { position: 'end', distance: 4 + 13 * (n % 2) } }))),
        label: { show: true, color: colours.ink, fontSize: textSize, formatter: p => p.name }, lineStyle: { color: colours.ink, width: 1.2, type: [2, 3] }
      };
    });
    option.tooltip.formatter = params => {
      const e = tip(), list = params.filter(p => p.seriesType === 'line');
      if (!list.length) return '';
      e.append(element('b', figure(list[0].value[0]) + ' ' + c.xUnit));
      const t = element('table');
      for (const p of list) {
        const row = element('tr');
        row.append(element('td', p.seriesName), element('td', figure(p.value[p.encode.y[0]]) + ' ' + c.yUnit));
        t.append(row);
      }
      e.append(t);
      return e;
    };
    return height;
  }

  // Drawing.

  const makers = { bars, torque, shaft, face, growth, gearing, sweep };

  function draw(c) {
    const e = document.getElementById(c.id);
    try {
      // What is hidden has no width; it is drawn again when it comes to be seen.
      if (c.kind === 'face' || c.kind === 'growth') e.parentElement.toggleAttribute('data-empty', !!c.views[speed].empty);
      const width = onPaper ? paperWidth[c.kind] : e.clientWidth || 480;
      const option = structuredClone(c.option);
      styleAxes(option);
      const maker = makers[c.kind];
      const axesBefore = option.xAxis.concat(option.yAxis).map(a => a.axisLabel);
      const height = maker(c, option, width);
      option.xAxis.concat(option.yAxis).forEach((a, i) => { a.axisLabel = Object.assign({}, axesBefore[i], a.axisLabel); });
      e.style.height = height + 'px';
      if (!c.drawn) c.drawn = echarts.init(e, null, { renderer: 'svg', width, height });
      else c.drawn.resize({ width, height });
      c.drawn.setOption(option, true);
      c.width = width;
    } catch (err) {
      report(c.id + ': ' + err.message);
      e.className = 'chart failed';
      e.textContent = 'This chart could not be drawn (' + err.message + '). Its numbers are in the tables below.';
    }
  }

  function drawAll() {
    readColours();
    charts.forEach(draw);
    measure();
  }

  function measure() {
    const page = document.scrollingElement;
    root.dataset.charts = charts.length;
    root.dataset.drawn = charts.filter(c => document.getElementById(c.id).querySelector('svg')).length;
    root.dataset.width = innerWidth;
    root.dataset.overflow = page.scrollWidth > innerWidth ? page.scrollWidth - innerWidth : 'none';
  }

  function choose(k) {
    speed = k;
    root.dataset.speed = k;
    showRows();
    charts.filter(c => c.views).forEach(draw);
    measure();
  }

  // showRows shows the figures of the speed chosen that need no drawing here.
  function showRows() {
    for (const e of document.querySelectorAll('[data-rows]')) e.classList.toggle('on', e.dataset.rows.split(' ').includes(String(speed)));
  }

  function paper(on) {
    if (on === onPaper) return;
    onPaper = on;
    root.classList.toggle('paper', on);
    // Paper gets the numbers of the speed that is shown, and of those that are open; all of them would fill a folder.
    const shown = document.querySelectorAll('details.speed')[speed];
    if (shown && on && !shown.open) {
      shown.dataset.closed = '';
      shown.open = true;
    } else if (shown && !on && shown.dataset.closed !== undefined) {
      shown.open = false;
      delete shown.dataset.closed;
    }
    drawAll();
  }

  function start() {
    charts = JSON.parse(document.getElementById('charts').textContent);
    const radios = Array.from(document.querySelectorAll('input[name=speed]'));
    // The address may name the speed to show: #speed=3 is the third.
    const wanted = /^#speed=(\d+)$/.exec(location.hash);
    const named = wanted && radios[wanted[1] - 1];
    if (named) named.checked = true;
    const checked = radios.find(r => r.checked);
    speed = checked ? +checked.value : 0;
    root.dataset.speed = speed;
    for (const r of radios) r.addEventListener('change', () => choose(+r.value));
    const speeds = radios.map(r => r.nextElementSibling.textContent);
    for (const c of charts) c.speeds = speeds;
    showRows();
    root.classList.add('ready');
    drawAll();

    let waiting = false;
    addEventListener('resize', () => {
      if (waiting || onPaper) return;
      waiting = true;
      requestAnimationFrame(() => {
        waiting = false;
        if (onPaper) return;
        for (const c of charts) if (document.getElementById(c.id).clientWidth !== c.width && document.getElementById(c.id).clientWidth) draw(c);
        measure();
      });
    });
    matchMedia('(prefers-color-scheme: dark)').addEventListener('change', drawAll);
    addEventListener('beforeprint', () => paper(true));
    addEventListener('afterprint', () => paper(false));
  }
  addEventListener('DOMContentLoaded', start);
})();
