// Draws the shapes with WebGL 2: lit faces, dark edges, the chosen part tinted. Draws only when something changed.

const LIT = `#version 300 es
in vec3 place; in vec2 share;
uniform mat4 see; uniform vec3 low, span, shift;
out vec3 normal;
void main() {
  vec3 n = vec3(share, 1.0 - abs(share.x) - abs(share.y));
  if (n.z < 0.0) n.xy = (1.0 - abs(n.yx)) * vec2(n.x >= 0.0 ? 1.0 : -1.0, n.y >= 0.0 ? 1.0 : -1.0);
  normal = normalize(n);
  gl_Position = see * vec4(low + span * place + shift, 1.0);
}`;
const SHADE = `#version 300 es
precision highp float;
in vec3 normal;
uniform mat3 turn; uniform vec3 colour; uniform float mode;
out vec4 pixel;
void main() {
  if (mode > 0.5) { pixel = vec4(colour, 1.0); return; }
  vec3 n = normalize(turn * normalize(normal));
  if (!gl_FrontFacing) n = -n;
  float light = 0.20, gleam = 0.0;
  vec4 lamps[3] = vec4[3](vec4(-0.7, 1.2, 0.8, 0.55), vec4(1.2, 0.5, 0.7, 0.36), vec4(0.0, -0.1, 1.0, 0.52));
  for (int i = 0; i < 3; i++) {
    vec3 to = normalize(lamps[i].xyz);
    light += 0.86 * lamps[i].w * max(dot(n, to), 0.0);
    gleam += lamps[i].w * pow(max(dot(n, normalize(to + vec3(0.0, 0.0, 1.0))), 0.0), 40.0);
  }
  float rim = smoothstep(0.0, 0.22, n.z);
  pixel = vec4((colour * light + 0.10 * gleam) * mix(0.55, 1.0, rim), 1.0);
}`;
const INK = [0.13, 0.15, 0.17];
const TINT = [0.28, 0.68, 0.58];

function makeViewer(canvas, shapes, surfaces) {
  const gl = canvas.getContext("webgl2", { antialias: true, alpha: true });
  if (!gl) return null;
  const camera = makeCamera();
  const state = { apart: 0, stage: "finished", hidden: new Set(), chosen: -1 };
  const stages = [...new Set(shapes.flatMap((s) => Object.keys(s.stages)))];
  let [program, where, drawn, waiting] = [null, null, [], false];

  function compile() {
    program = gl.createProgram();
    for (const [kind, text] of [[gl.VERTEX_SHADER, LIT], [gl.FRAGMENT_SHADER, SHADE]]) {
      const shader = gl.createShader(kind);
      gl.shaderSource(shader, text);
      gl.compileShader(shader);
      gl.attachShader(program, shader);
    }
    gl.bindAttribLocation(program, 0, "place");
    gl.bindAttribLocation(program, 1, "share");
    gl.linkProgram(program);
    if (!gl.getProgramParameter(program, gl.LINK_STATUS)) throw new Error(gl.getProgramInfoLog(program) || "no shader");
    where = Object.fromEntries(["see", "low", "span", "shift", "turn", "colour", "mode"].map(
      (name) => [name, gl.getUniformLocation(program, name)]));
    drawn = surfaces.map((s) => {
      const fill = (target, data) => {
        gl.bindBuffer(target, gl.createBuffer());
        gl.bufferData(target, data, gl.STATIC_DRAW);
      };
      const array = (indices) => {
        const made = gl.createVertexArray();
        gl.bindVertexArray(made);
        fill(gl.ARRAY_BUFFER, s.place);
        gl.enableVertexAttribArray(0);
        gl.vertexAttribPointer(0, 3, gl.UNSIGNED_SHORT, true, 0, 0);
        fill(gl.ARRAY_BUFFER, s.normal);
        gl.enableVertexAttribArray(1);
        gl.vertexAttribPointer(1, 2, gl.BYTE, true, 0, 0);
        fill(gl.ELEMENT_ARRAY_BUFFER, indices);
        return made;
      };
      return { faces: array(s.triangles), lines: array(s.edges) };
    });
    gl.bindVertexArray(null);
  }

  const surfaceOf = (i) => shapes[i].stages[state.stage];
  const shiftOf = (i) => shapes[i].away.map((v) => v * state.apart);
  const here = (i) => surfaceOf(i) !== undefined;
  const shown = () => shapes.map((_, i) => i).filter((i) => here(i) && !state.hidden.has(i));
  const boxes = (list) => list.map((i) => {
    const [{ low, span }, shift] = [surfaces[surfaceOf(i)], shiftOf(i)];
    return { low: low.map((v, k) => v + shift[k]), high: low.map((v, k) => v + span[k] + shift[k]) };
  });
  const aspect = () => canvas.clientWidth / Math.max(1, canvas.clientHeight);

  function paint(picking) {
    const parts = shown();
    // as deep as the farthest corner from the focus, so that nothing is cut off
    let deep = 1;
    for (const { low, high } of boxes(parts)) {
      deep = Math.max(deep, Math.hypot(...camera.focus.map((f, k) => Math.max(f - low[k], high[k] - f))));
    }
    const { right, up, back } = camera.axes();
    gl.viewport(0, 0, canvas.width, canvas.height);
    gl.enable(gl.DEPTH_TEST);
    gl.depthFunc(gl.LEQUAL);
    gl.clearColor(0, 0, 0, 0);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    gl.useProgram(program);
    gl.uniformMatrix4fv(where.see, false, camera.matrix(aspect(), deep));
    gl.uniformMatrix3fv(where.turn, false, [0, 1, 2].flatMap((k) => [right[k], up[k], back[k]]));
    for (const i of parts) {
      const n = surfaceOf(i);
      const { low, span, triangles, edges } = surfaces[n];
      gl.uniform3fv(where.low, low);
      gl.uniform3fv(where.span, span);
      gl.uniform3fv(where.shift, shiftOf(i));
      gl.uniform1f(where.mode, picking ? 1 : 0);
      const tint = i === state.chosen ? 0.55 : 0;
      const plain = shapes[i].colours[state.stage].map((c, k) => c * (1 - tint) + TINT[k] * tint);
      gl.uniform3fv(where.colour, picking ? [((i + 1) & 255) / 255, ((i + 1) >> 8) / 255, 0] : plain);
      gl.enable(gl.POLYGON_OFFSET_FILL);
      gl.polygonOffset(1, 1);
      gl.bindVertexArray(drawn[n].faces);
      gl.drawElements(gl.TRIANGLES, triangles.length, gl.UNSIGNED_INT, 0);
      gl.disable(gl.POLYGON_OFFSET_FILL);
      if (picking) continue;
      gl.uniform1f(where.mode, 1);
      gl.uniform3fv(where.colour, INK);
      gl.bindVertexArray(drawn[n].lines);
      gl.drawElements(gl.LINES, edges.length, gl.UNSIGNED_INT, 0);
    }
    gl.bindVertexArray(null);
  }

  function draw() {
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => {
      waiting = false;
      if (gl.isContextLost()) return;
      const scale = 2; // on a plain screen four pixels make one: edge lines come out fine and even
      const [w, h] = [Math.round(canvas.clientWidth * scale), Math.round(canvas.clientHeight * scale)];
      if (canvas.width !== w || canvas.height !== h) [canvas.width, canvas.height] = [w, h];
      if (w && h) paint(false);
    });
  }

  // which part is seen at a place of the canvas [CSS pixels]; -1 for none
  function pick(x, y) {
    const [w, h] = [canvas.width, canvas.height];
    const target = gl.createFramebuffer();
    const stores = [[gl.COLOR_ATTACHMENT0, gl.RGBA8], [gl.DEPTH_ATTACHMENT, gl.DEPTH_COMPONENT24]].map(([point, kind]) => {
      const store = gl.createRenderbuffer();
      gl.bindRenderbuffer(gl.RENDERBUFFER, store);
      gl.renderbufferStorage(gl.RENDERBUFFER, kind, w, h);
      gl.bindFramebuffer(gl.FRAMEBUFFER, target);
      gl.framebufferRenderbuffer(gl.FRAMEBUFFER, point, gl.RENDERBUFFER, store);
      return store;
    });
    paint(true);
    const pixel = new Uint8Array(4);
    const scale = w / canvas.clientWidth;
    gl.readPixels(Math.round(x * scale), h - 1 - Math.round(y * scale), 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel);
    gl.bindFramebuffer(gl.FRAMEBUFFER, null);
    gl.deleteFramebuffer(target);
    stores.forEach((s) => gl.deleteRenderbuffer(s));
    draw();
    return pixel[0] + 256 * pixel[1] - 1;
  }

  function start() {
    compile();
    draw();
  }
  canvas.addEventListener("webglcontextlost", (e) => e.preventDefault());
  canvas.addEventListener("webglcontextrestored", start);
  new ResizeObserver(draw).observe(canvas);
  start();
  const fit = () => camera.fit(boxes(shapes.map((_, i) => i).filter(here)), aspect());
  return { camera, state, stages, draw, pick, fit, here, shown, shapes };
}
