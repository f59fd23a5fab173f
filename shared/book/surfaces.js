// Unpacks what packing.py packed: deflate, then byte planes of differences, back to corners, normals and triangles.

async function readSurfaces(heads, base64) {
  const packed = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate"));
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  let at = 0;

  function column(count, width, differences) {
    const out = new Uint32Array(count);
    for (let plane = 0; plane < width; plane += 1) {
      for (let i = 0; i < count; i += 1) out[i] |= bytes[at + i] << (8 * plane);
      at += count;
    }
    if (differences) {
      const mask = 2 ** (8 * width) - 1;
      for (let i = 1; i < count; i += 1) out[i] = (out[i] + out[i - 1]) & mask;
    }
    return out;
  }

  function corners(first, away, stride, into) {
    const mask = 2 ** 24 - 1;
    first.forEach((a, i) => {
      into[i * stride] = a;
      away.forEach((far, j) => { into[i * stride + j + 1] = (a + far[i]) & mask; });
    });
    return into;
  }

  return heads.map((head) => {
    const { corners: n, triangles: m, edges: k } = head;
    const place = new Uint16Array(3 * n);
    for (let axis = 0; axis < 3; axis += 1) column(n, 2, true).forEach((v, i) => { place[3 * i + axis] = v; });
    const normal = new Int8Array(2 * n);
    for (let axis = 0; axis < 2; axis += 1) column(n, 1, true).forEach((v, i) => { normal[2 * i + axis] = v; });
    const triangles = corners(column(m, 3, true), [column(m, 3, false), column(m, 3, false)], 3, new Uint32Array(3 * m));
    const edges = corners(column(k, 3, true), [column(k, 3, false)], 2, new Uint32Array(2 * k));
    return { low: head.low, span: head.span, place, normal, triangles, edges };
  });
}
