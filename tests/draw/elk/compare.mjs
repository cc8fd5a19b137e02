// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Lays the graphs of drawing_graphs out a second time by the layered method of elkjs and compares crossings and bends.
//   node compare.mjs DRAWING_GRAPHS
// Exit code 77 where elkjs is not installed: the test is then skipped.
import { execFileSync } from "node:child_process";
import { bends, crossings } from "./count.mjs";

const most_crossings = 1.0, most_bends = 1.1;  // of elkjs's totals

let Elk;
try {
  Elk = (await import("elkjs/lib/elk.bundled.js")).default;
} catch {
  console.log("SKIPPED: elkjs is not installed; run `npm ci` in tests/draw/elk");
  process.exit(77);
}

/**
 * What every setting shares: the best of what was tried in layering, promotion, alignment, compaction and
 * thoroughness. Lengths are in modules.
 */
const common = {
  "elk.algorithm": "layered",
  "elk.direction": "UP",
  "elk.edgeRouting": "ORTHOGONAL",
  "elk.json.edgeCoords": "ROOT",
  "elk.layered.thoroughness": "100",
  "elk.layered.crossingMinimization.strategy": "LAYER_SWEEP",
  "elk.layered.crossingMinimization.greedySwitch.type": "TWO_SIDED",
  "elk.layered.nodePlacement.favorStraightEdges": "true",
  "elk.layered.compaction.postCompaction.strategy": "EDGE_LENGTH",
  "elk.spacing.nodeNode": "3",
  "elk.spacing.edgeNode": "1",
  "elk.spacing.edgeEdge": "1",
  "elk.layered.spacing.nodeNodeBetweenLayers": "3",
  "elk.layered.spacing.edgeNodeBetweenLayers": "1",
  "elk.layered.spacing.edgeEdgeBetweenLayers": "1",
};

function* settings() {
  for (const placement of ["BRANDES_KOEPF", "NETWORK_SIMPLEX"]) {
    for (const order of ["NONE", "PREFER_NODES"]) {
      for (const source of ["lowest", "first"]) {
        for (const seed of placement === "BRANDES_KOEPF" ? [1, 2] : [1]) {
          yield {
            name: `${placement}, model order ${order}, from the ${source} port, seed ${seed}`,
            source,
            options: {
              ...common,
              "elk.layered.nodePlacement.strategy": placement,
              "elk.layered.considerModelOrder.strategy": order,
              "elk.randomSeed": String(seed),
            },
          };
        }
      }
    }
  }
}

/** A net as edges from one of its ports to each of the others: the lowest in our drawing, or the first of the plan. */
function edges_of(net, source, order) {
  if (net.ports.length < 2) return [];
  const from = source === "lowest" ? net.ports[0] : [...net.ports].sort((a, b) => order.get(a) - order.get(b))[0];
  return net.ports.filter((port) => port !== from)
    .map((port) => ({ id: `${from} ${port}`, sources: [from], targets: [port] }));
}

function graph_of(job, { source, options }) {
  const order = new Map(job.nodes.flatMap((node) => node.ports).map((port, at) => [port.id, at]));
  return {
    id: "root",
    layoutOptions: options,
    children: job.nodes.map((node) => ({
      id: node.id,
      width: node.width,
      height: node.height,
      layoutOptions: { "elk.portConstraints": "FIXED_POS" },
      ports: node.ports.map(({ id, x, y, side }) =>
        ({ id, x, y, width: 0, height: 0, layoutOptions: { "elk.port.side": side } })),
    })),
    edges: job.nets.flatMap((net) => edges_of(net, source, order)),
  };
}

/** The pieces of each net as elkjs has laid them. */
function pieces_of(job, laid) {
  const net_of = new Map(job.nets.flatMap((net, at) => net.ports.map((port) => [port, at])));
  const nets = job.nets.map(() => []);
  for (const edge of laid.edges) {
    for (const { startPoint, bendPoints = [], endPoint } of edge.sections ?? []) {
      const way = [startPoint, ...bendPoints, endPoint];
      for (let i = 0; i + 1 < way.length; ++i)
        nets[net_of.get(edge.sources[0])].push([way[i].x, way[i].y, way[i + 1].x, way[i + 1].y]);
    }
  }
  return nets;
}

const count = (nets) => ({ crossings: crossings(nets), bends: bends(nets) });
const total = (counts) => counts.reduce(
  (sum, { crossings: c, bends: b }) => ({ crossings: sum.crossings + c, bends: sum.bends + b }), { crossings: 0, bends: 0 });

const jobs = JSON.parse(execFileSync(process.argv[2], { maxBuffer: 1 << 28 }));
const undrawn = jobs.flatMap((job) =>
  job.nets.filter((net) => net.ports.length > 1 && net.segments.length === 0).map((net) => `${job.name}: ${net.name}`));
if (undrawn.length > 0) {
  console.log(`BROKEN: lines that are not drawn cannot be compared\n${undrawn.join("\n")}`);
  process.exit(1);
}
const elk = new Elk();
const ours = jobs.map((job) => count(job.nets.map((net) => net.segments)));
const tries = [];
for (const setting of settings()) {
  const counts = [];
  for (const job of jobs) counts.push(count(pieces_of(job, await elk.layout(graph_of(job, setting)))));
  tries.push({ setting, counts, sum: total(counts) });
}
// Its best setting over all jobs, by the sum of what counts against a drawing.
const best = tries.reduce((a, b) => (b.sum.crossings + b.sum.bends < a.sum.crossings + a.sum.bends ? b : a));

const row = (name, a, b) => console.log(
  `${name.padEnd(50)}${String(a.crossings).padStart(7)}${String(b.crossings).padStart(7)}` +
  `${String(a.bends).padStart(10)}${String(b.bends).padStart(7)}`);
console.log(`${"".padEnd(50)}      crossings            bends`);
console.log(`${"job".padEnd(50)}   ours    elk      ours    elk`);
jobs.forEach((job, i) => row(job.name, ours[i], best.counts[i]));
const mine = total(ours);
row("in total", mine, best.sum);
console.log(`elkjs at its best of ${tries.length} settings: ${best.setting.name}`);
const least = (what) => Math.min(...tries.map((t) => t.sum[what]));
console.log(`least of any setting alone: ${least("crossings")} crossings, ${least("bends")} bends`);

const counted = best.sum.bends > 0 && mine.bends > 0;
const held = counted && mine.crossings <= most_crossings * best.sum.crossings && mine.bends <= most_bends * best.sum.bends;
console.log(held ? "held" : "BROKEN: more crossings than elkjs, or more than 1.1 times its bends");
process.exit(held ? 0 : 1);
