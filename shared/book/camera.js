// Where the viewer stands: turned about the upright, looking at a point. Lengths mm, angles in degrees outside.

const RAD = Math.PI / 180;
const OPENING = 16 * RAD; // angle of view; a flat view has none
const VIEWS = {
  "three-quarter": { round: 128.66, up: 27.4, flat: false },
  side: { round: -90, up: 0, flat: true },
  front: { round: 180, up: 0, flat: true },
  top: { round: -90, up: 90, flat: true },
  sole: { round: 132, up: -39, flat: false },
};

function makeCamera() {
  const camera = { ...VIEWS["three-quarter"], focus: [0, 0, 0], half: 100 };

  // right, up and back of the picture, as directions in the model
  camera.axes = () => {
    const [a, e] = [camera.round * RAD, camera.up * RAD];
    const right = [-Math.sin(a), Math.cos(a), 0];
    const back = [Math.cos(e) * Math.cos(a), Math.cos(e) * Math.sin(a), Math.sin(e)];
    const up = [-Math.sin(e) * Math.cos(a), -Math.sin(e) * Math.sin(a), Math.cos(e)];
    return { right, up, back };
  };

  // column-major matrix from the model to the picture; `deep` is the radius of all there is to see
  camera.matrix = (aspect, deep) => {
    const { right, up, back } = camera.axes();
    const far = camera.half / Math.tan(OPENING / 2);
    const k = camera.flat ? 0 : 1;
    const reach = Math.max(deep, 1);
    const near = Math.max(far - reach, far / 50);
    const end = far + reach;
    const rows = [
      right.map((v) => (v * far) / (camera.half * aspect)),
      up.map((v) => (v * far) / camera.half),
      back.map((v) => (k ? (-v * (end + near)) / (end - near) : (-v * far) / reach)),
      back.map((v) => -v * k),
    ];
    const put = rows.map((r) => -(r[0] * camera.focus[0] + r[1] * camera.focus[1] + r[2] * camera.focus[2]));
    put[2] += k ? ((end + near) * far - 2 * end * near) / (end - near) : 0;
    put[3] += far;
    const out = new Float32Array(16);
    rows.forEach((r, i) => { out[i] = r[0]; out[4 + i] = r[1]; out[8 + i] = r[2]; out[12 + i] = put[i]; });
    return out;
  };

  // focus and half height that hold some boxes; with perspective the near side looks larger, so it is found in rounds
  camera.fit = (boxes, aspect) => {
    const { right, up, back } = camera.axes();
    const dot = (a, p) => a[0] * p[0] + a[1] * p[1] + a[2] * p[2];
    const points = boxes.flatMap(({ low, high }) => [0, 1, 2, 3, 4, 5, 6, 7].map((n) => {
      const p = [0, 1, 2].map((i) => (n & (1 << i) ? high[i] : low[i]));
      return [dot(right, p), dot(up, p), dot(back, p)];
    }));
    const reach = (list, i) => [Math.min(...list.map((p) => p[i])), Math.max(...list.map((p) => p[i]))];
    const mid = [0, 1, 2].map((i) => (reach(points, i)[0] + reach(points, i)[1]) / 2);
    const slope = Math.tan(OPENING / 2);
    const [wide, high] = [0, 1].map((i) => (reach(points, i)[1] - reach(points, i)[0]) / 2);
    let half = Math.max(high, wide / aspect, 1);
    for (let round = 0; round < 8 && !camera.flat; round += 1) {
      const off = points.map((p) => p.map((v, i) => v - mid[i]));
      const far = Math.max(...off.map((p) => p[2] + Math.max(Math.abs(p[1]), Math.abs(p[0]) / aspect) / slope));
      const seen = off.map((p) => [(p[0] * far) / (far - p[2]), (p[1] * far) / (far - p[2])]);
      for (const i of [0, 1]) mid[i] += (reach(seen, i)[0] + reach(seen, i)[1]) / 2;
      half = Math.max(far * slope, 1);
    }
    const focus = [0, 1, 2].map((i) => right[i] * mid[0] + up[i] * mid[1] + back[i] * mid[2]);
    return { focus, half: half * 1.06 };
  };

  camera.move = (dx, dy) => {
    const { right, up } = camera.axes();
    camera.focus = camera.focus.map((v, i) => v - 2 * camera.half * (right[i] * dx - up[i] * dy));
  };
  camera.turn = (round, up) => {
    camera.flat = false;
    camera.round = ((camera.round + round + 540) % 360) - 180;
    camera.up = Math.max(-90, Math.min(90, camera.up + up));
  };
  return camera;
}
