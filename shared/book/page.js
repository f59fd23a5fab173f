// What the page does: the 3-D view's controls, finding numbers, large sheets, opening what is folded for paper.

const $ = (query) => document.querySelector(query);
const $$ = (query) => [...document.querySelectorAll(query)];
const calm = window.matchMedia("(prefers-reduced-motion: reduce)");

function control(viewer, canvas) {
  const { camera, state, shapes } = viewer;
  let motion = 0;

  function go(aim) {
    cancelAnimationFrame(motion);
    const from = { round: camera.round, up: camera.up, half: camera.half, focus: camera.focus };
    const to = { ...from, ...aim };
    const far = ((to.round - from.round + 540) % 360) - 180;
    const begin = performance.now();
    const step = (now) => {
      const share = calm.matches ? 1 : Math.min(1, (now - begin) / 280);
      const s = share * share * (3 - 2 * share);
      camera.round = from.round + far * s;
      camera.up = from.up + (to.up - from.up) * s;
      camera.half = from.half * (to.half / from.half) ** s;
      camera.focus = from.focus.map((v, i) => v + (to.focus[i] - v) * s);
      viewer.draw();
      if (share < 1) motion = requestAnimationFrame(step);
    };
    step(begin);
  }
  // what a view would show, found by standing there for a moment
  function look(name) {
    const kept = { ...camera };
    Object.assign(camera, VIEWS[name]);
    const aim = { ...VIEWS[name], ...viewer.fit() };
    Object.assign(camera, kept, { flat: aim.flat });
    go(aim);
  }
  function refit(animated) {
    cancelAnimationFrame(motion);
    if (animated) go(viewer.fit());
    else Object.assign(camera, viewer.fit());
    viewer.draw();
  }
  function say(text) {
    const all = shapes.filter((_, i) => viewer.here(i)).length;
    $("#said").textContent = text || `${viewer.shown().length} of ${all} parts shown`;
    viewer.draw();
  }
  function sync() {
    for (const box of $$("[data-part]")) {
      const i = Number(box.dataset.part);
      box.checked = !state.hidden.has(i);
      box.disabled = !viewer.here(i);
      box.closest("label").classList.toggle("chosen", i === state.chosen);
    }
    for (const box of $$("[data-group]")) {
      const inner = [...box.closest("li").querySelectorAll("[data-part]")].filter((b) => !b.disabled);
      const on = inner.filter((b) => b.checked).length;
      box.checked = on > 0 && on === inner.length;
      box.indeterminate = on > 0 && on < inner.length;
      box.disabled = inner.length === 0;
    }
  }
  function show(list, on) {
    for (const i of list) {
      if (on) state.hidden.delete(i);
      else state.hidden.add(i);
    }
    if (state.hidden.has(state.chosen)) state.chosen = -1;
    sync();
    say("");
  }
  function choose(i) {
    state.chosen = i === state.chosen ? -1 : i;
    sync();
    say(state.chosen < 0 ? "" : shapes[state.chosen].name);
    const [list, row] = [$(".switches"), $(".switches .chosen")];
    if (row) list.scrollTop = row.offsetTop - list.offsetTop - list.clientHeight / 2;
  }
  const zoom = (factor) => {
    cancelAnimationFrame(motion);
    camera.half = Math.max(2, Math.min(4000, camera.half * factor));
    viewer.draw();
  };

  for (const box of $$("[data-part]")) {
    box.addEventListener("change", () => show([Number(box.dataset.part)], box.checked));
  }
  for (const box of $$("[data-group]")) {
    box.addEventListener("change", () => {
      const inner = [...box.closest("li").querySelectorAll("[data-part]")];
      show(inner.map((b) => Number(b.dataset.part)), box.checked);
    });
  }
  for (const b of $$("[data-all]")) {
    b.addEventListener("click", () => show(shapes.map((_, i) => i), b.dataset.all === "show"));
  }
  for (const b of $$("[data-zoom]")) b.addEventListener("click", () => zoom(b.dataset.zoom === "in" ? 1 / 1.25 : 1.25));
  for (const b of $$("[data-view]")) {
    b.addEventListener("click", () => (b.dataset.view === "reset" ? reset() : look(b.dataset.view)));
  }
  for (const b of $$("[name=stage]")) {
    b.addEventListener("change", () => {
      state.stage = b.value;
      state.chosen = -1;
      sync();
      refit(true);
      say("");
    });
  }
  const slider = $("#apart");
  slider.addEventListener("input", () => {
    state.apart = slider.value / 100;
    refit(false);
  });
  function reset() {
    slider.value = 0;
    state.apart = 0;
    state.stage = "finished";
    $$("[name=stage]").forEach((b) => { b.checked = b.value === "finished"; });
    state.hidden.clear();
    state.chosen = -1;
    sync();
    say("");
    look("three-quarter");
  }

  const keys = {
    ArrowLeft: (s) => (s ? camera.move(-0.04, 0) : camera.turn(-5, 0)),
    ArrowRight: (s) => (s ? camera.move(0.04, 0) : camera.turn(5, 0)),
    ArrowUp: (s) => (s ? camera.move(0, -0.04) : camera.turn(0, -5)),
    ArrowDown: (s) => (s ? camera.move(0, 0.04) : camera.turn(0, 5)),
    "+": () => zoom(1 / 1.15), "=": () => zoom(1 / 1.15), "-": () => zoom(1.15),
    0: reset, Home: reset,
    Delete: () => state.chosen >= 0 && show([state.chosen], false),
    Escape: () => state.chosen >= 0 && choose(state.chosen),
  };
  Object.keys(VIEWS).forEach((name, i) => { keys[i + 1] = () => look(name); });
  canvas.addEventListener("keydown", (e) => {
    if (e.ctrlKey || e.metaKey || e.altKey || !keys[e.key]) return;
    if (e.key.startsWith("Arrow")) cancelAnimationFrame(motion);
    keys[e.key](e.shiftKey);
    viewer.draw();
    e.preventDefault();
  });

  const down = new Map();
  let moved = 0;
  canvas.addEventListener("pointerdown", (e) => {
    canvas.setPointerCapture(e.pointerId);
    if (down.size === 0) moved = 0;
    down.set(e.pointerId, e);
  });
  canvas.addEventListener("pointermove", (e) => {
    const last = down.get(e.pointerId);
    if (!last) return;
    cancelAnimationFrame(motion);
    const size = canvas.clientHeight;
    const [dx, dy] = [e.clientX - last.clientX, e.clientY - last.clientY];
    moved += Math.abs(dx) + Math.abs(dy);
    if (down.size === 2) {
      const other = [...down.values()].find((p) => p.pointerId !== e.pointerId);
      const gap = (p) => Math.max(8, Math.hypot(p.clientX - other.clientX, p.clientY - other.clientY));
      zoom(gap(last) / gap(e));
      camera.move(dx / size / 2, dy / size / 2);
    } else if (e.shiftKey || e.buttons & 2 || e.buttons & 4) camera.move(dx / size, dy / size);
    else if (moved > 4) camera.turn(-0.4 * dx, 0.4 * dy);
    down.set(e.pointerId, e);
    viewer.draw();
  });
  canvas.addEventListener("pointerup", (e) => {
    if (down.size === 1 && moved <= 4 && e.button === 0) {
      const at = canvas.getBoundingClientRect();
      const found = viewer.pick(e.clientX - at.left, e.clientY - at.top);
      if (found >= 0) choose(found);
      else if (state.chosen >= 0) choose(state.chosen);
    }
    down.delete(e.pointerId);
  });
  canvas.addEventListener("pointercancel", (e) => down.delete(e.pointerId));
  canvas.addEventListener("contextmenu", (e) => e.preventDefault());
  // the wheel belongs to the page until the view has been clicked
  canvas.addEventListener("wheel", (e) => {
    if (document.activeElement !== canvas && !e.ctrlKey) return;
    zoom(Math.exp(Math.max(-1, Math.min(1, e.deltaY / 300))));
    e.preventDefault();
  }, { passive: false });

  reset();
  Object.assign(camera, VIEWS["three-quarter"]);
  refit(false);
}

async function openView() {
  const canvas = $("#canvas");
  if (!canvas || !window.DecompressionStream) return;
  const data = JSON.parse($("#shapes").textContent);
  const surfaces = await readSurfaces(data.surfaces, $("#surfaces").textContent);
  const viewer = makeViewer(canvas, data.shapes, surfaces);
  if (!viewer) return;
  $("#no-view").hidden = true;
  $("#viewer").hidden = false;
  $("#view-keys").hidden = false;
  control(viewer, canvas);
  document.documentElement.dataset.view = "ready";
}

function filters() {
  for (const field of $$("[data-filter]")) {
    field.closest(".filter").hidden = false;
    const list = document.getElementById(field.dataset.filter);
    const rows = [...list.querySelectorAll(".check, .number")].map((row) => ({ row, words: row.textContent.toLowerCase() }));
    field.addEventListener("input", () => {
      const asked = field.value.toLowerCase().split(/\s+/).filter(Boolean);
      let left = 0;
      for (const { row, words } of rows) {
        row.hidden = !asked.every((word) => words.includes(word));
        left += row.hidden ? 0 : 1;
      }
      for (const fold of list.querySelectorAll(".fold")) {
        fold.hidden = !fold.querySelector(".number:not([hidden])");
        fold.open = asked.length > 0 && !fold.hidden;
      }
      field.parentElement.querySelector("output").textContent = asked.length ? `${left} of ${rows.length}` : "";
    });
  }
}

function largeSheets() {
  const [dialog, picture] = [$("#large"), $("#large-picture")];
  for (const button of $$(".zoom")) {
    button.addEventListener("click", () => {
      const image = button.querySelector("img");
      picture.src = image.src;
      picture.alt = image.alt;
      $("#large-title").textContent = image.alt;
      dialog.showModal();
    });
  }
}

function openTarget() {
  const target = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (!target) return;
  for (let fold = target.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
  target.scrollIntoView();
}

function unfoldForPaper() {
  let folded = [];
  window.addEventListener("beforeprint", () => {
    folded = $$("details:not([open])");
    folded.forEach((d) => { d.open = true; });
  });
  window.addEventListener("afterprint", () => folded.forEach((d) => { d.open = false; }));
}

filters();
largeSheets();
unfoldForPaper();
window.addEventListener("hashchange", openTarget);
openTarget();
openView().catch((error) => {
  $("#viewer").hidden = true;
  $("#no-view").hidden = false;
  console.warn("3-D view:", error);
});
