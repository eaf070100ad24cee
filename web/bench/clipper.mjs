// timeClipper puts the question of one drag step to the general clipping library clipper2-wasm: which pairs of outlines
// are nearer to each other than the bridge? It grows both outlines of each pair by half the bridge, with round joins, and
// intersects them; a pair is too near when something is left.
//
// The outlines lie in the library's memory before the clock starts, so that what is timed is its own work and not the way
// there. It is timed twice: growing both outlines for each pair, and growing each different outline once for the step,
// which is the better way to use it.
//
// question: {half: mm, pairs: [[rings, rings], …]}, a ring being an array of [x, y] in mm. Returns times in ms.
import Clipper2Z from "./clipper2z.js";

const decimals = 4; // of a mm: the grid to which drafts are snapped
const arcTolerance = 0.01; // mm between a round join and its chords
const miterLimit = 2; // unused by round joins

export async function timeClipper(question, steps) {
  const lib = await Clipper2Z();
  const { NonZero } = lib.FillRule;
  const outlines = new Map(); // by their text, so that equal outlines are one
  const load = (rings) => {
    const key = JSON.stringify(rings);
    if (!outlines.has(key)) {
      const paths = new lib.PathsD();
      for (const ring of rings) {
        const path = lib.MakePathD(open(ring).flat());
        paths.push_back(path);
        path.delete();
      }
      outlines.set(key, paths);
    }
    return outlines.get(key);
  };
  const pairs = question.pairs.map(([a, b]) => [load(a), load(b)]);

  const grow = (paths) => lib.InflatePathsD(paths, question.half, lib.JoinType.Round, lib.EndType.Polygon,
    miterLimit, decimals, arcTolerance);
  const meets = (a, b) => {
    const common = lib.IntersectD(a, b, NonZero, decimals);
    const some = common.size() > 0;
    common.delete();
    return some;
  };
  const growBothEachTime = () => {
    let near = 0;
    for (const [a, b] of pairs) {
      const ga = grow(a), gb = grow(b);
      if (meets(ga, gb)) near++;
      ga.delete();
      gb.delete();
    }
    return near;
  };
  const growEachOnce = () => {
    const grown = new Map();
    for (const paths of outlines.values()) grown.set(paths, grow(paths));
    let near = 0;
    for (const [a, b] of pairs) if (meets(grown.get(a), grown.get(b))) near++;
    for (const paths of grown.values()) paths.delete();
    return near;
  };

  const each = [], once = [];
  let near = 0;
  for (let i = -warmUp; i < steps; i++) {
    const t0 = performance.now();
    near = growBothEachTime();
    const t1 = performance.now();
    const again = growEachOnce();
    const t2 = performance.now();
    if (near !== again) throw new Error(`the two ways disagree: ${near} and ${again} pairs`);
    if (i < 0) continue;
    each.push(t1 - t0);
    once.push(t2 - t1);
  }
  return { each, once, near, pairs: pairs.length, outlines: outlines.size };
}

// timePanel puts two questions of the whole panel to the library: which outlines are nearer to each other than the bridge, by
// growing each once by half of it and intersecting those whose boxes meet, and what area their union has. The address holds
// {bridge: mm, outlines: [rings, …]}. Outlines lie in the library's memory before the clock starts.
export async function timePanel(address, times) {
  const { bridge, outlines } = await (await fetch(address)).json();
  const lib = await Clipper2Z();
  const { NonZero } = lib.FillRule;
  const shapes = outlines.map((rings) => {
    const paths = new lib.PathsD();
    for (const ring of rings) {
      const path = lib.MakePathD(ring.flat());
      paths.push_back(path);
      path.delete();
    }
    return paths;
  });
  const boxes = outlines.map(([outer]) => outer.reduce(([x0, y0, x1, y1], [x, y]) =>
    [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x), Math.max(y1, y)], [Infinity, Infinity, -Infinity, -Infinity]));
  const all = new lib.PathsD();
  for (const rings of outlines) {
    for (const ring of rings) {
      const path = lib.MakePathD(ring.flat());
      all.push_back(path);
      path.delete();
    }
  }
  const order = boxes.map((_, i) => i).sort((i, j) => boxes[i][0] - boxes[j][0]);
  const ms = [];
  let near = 0, area = 0;
  for (let run = -1; run < times; run++) {
    const begun = performance.now();
    near = 0;
    const grown = shapes.map((paths) => lib.InflatePathsD(paths, bridge / 2, lib.JoinType.Round, lib.EndType.Polygon, miterLimit, decimals, arcTolerance));
    order.forEach((i, at) => {
      for (let k = at + 1; k < order.length; k++) {
        const j = order[k];
        if (boxes[j][0] > boxes[i][2] + bridge) break;
        if (boxes[j][1] > boxes[i][3] + bridge || boxes[i][1] > boxes[j][3] + bridge) continue;
        const common = lib.IntersectD(grown[i], grown[j], NonZero, decimals);
        if (common.size() > 0) near++;
        common.delete();
      }
    });
    for (const paths of grown) paths.delete();
    const union = lib.UnionSelfD(all, NonZero, decimals);
    area = lib.AreaPathsD(union);
    union.delete();
    if (run >= 0) ms.push(performance.now() - begun);
  }
  return { ms, near, area };
}

const warmUp = 5; // steps not counted, while the browser compiles

// open drops the last point of a ring when it repeats the first, as the library wants it.
function open(ring) {
  const [first, last] = [ring[0], ring[ring.length - 1]];
  return first[0] === last[0] && first[1] === last[1] ? ring.slice(0, -1) : ring;
}
