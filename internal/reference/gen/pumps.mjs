// Operating points of pumps, found by EPANET's engine (npm package epanet-js).
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { require, writeTable } from './common.mjs';

const { Project, Workspace, NodeType, LinkType, LinkProperty, NodeProperty, FlowUnits, HeadLossType, Option } = require('epanet-js');

const workspace = new Workspace();
await workspace.loadModule?.();

// solve builds reservoir – pumps – throttle valve – reservoir and returns what the engine finds.
function solve({ arrangement, pumps, speed, staticHead, lossCoefficient, suctionHead = 0 }) {
  const model = new Project(workspace);
  model.init('report.txt', 'out.bin', FlowUnits.LPS, HeadLossType.DW);
  const reservoir = (name, head) => {
    model.addNode(name, NodeType.Reservoir);
    model.setNodeValue(model.getNodeIndex(name), NodeProperty.Elevation, head);
  };
  reservoir('from', suctionHead);
  reservoir('to', staticHead);
  ['a', 'b'].slice(0, { none: 0, series: 2 }[arrangement] ?? 1).forEach((name) => model.addNode(name, NodeType.Junction));
  const last = arrangement === 'series' ? 'b' : 'a';
  pumps.forEach(([flow, head], i) => {
    const curve = `curve${i}`;
    model.addCurve(curve);
    model.setCurve(model.getCurveIndex(curve), [flow], [head]);
    const [from, to] = arrangement === 'series' ? [['from', 'a'], ['a', 'b']][i] : ['from', 'a'];
    const link = model.addLink(`pump${i}`, LinkType.Pump, from, to);
    model.setLinkValue(link, LinkProperty.PumpHCurve, model.getCurveIndex(curve));
    model.setLinkValue(link, LinkProperty.InitSetting, speed);
  });
  const valve = model.addLink('valve', LinkType.TCV, pumps.length ? last : 'from', 'to');
  model.setLinkValue(valve, LinkProperty.Diameter, 100);
  model.setLinkValue(valve, LinkProperty.InitSetting, lossCoefficient);
  model.setOption(Option.Trials, 200);
  model.setOption(Option.Accuracy, 1e-5);
  model.setOption(Option.HeadError, 1e-9);
  model.setOption(Option.GlobalEffic, 75);
  model.openH();
  model.initH(0);
  model.runH();
  const of = (name, property) => model.getLinkValue(model.getLinkIndex(name), property);
  const found = {
    flow: of('valve', LinkProperty.Flow),
    head: pumps.length ? model.getNodeValue(model.getNodeIndex(last), NodeProperty.Head) - suctionHead : 0,
    flows: pumps.map((_, i) => of(`pump${i}`, LinkProperty.Flow)),
    power: pumps.reduce((sum, _, i) => sum + of(`pump${i}`, LinkProperty.Energy), 0),
  };
  model.closeH();
  model.close();
  return found;
}

// resistance finds what the engine makes of a loss coefficient, in m/(l/s)², from a known head over the valve alone.
function resistance(lossCoefficient) {
  const model = solve({ arrangement: 'none', pumps: [], speed: 1, staticHead: 0, suctionHead: 20, lossCoefficient });
  return 20 / model.flow ** 2;
}

const manifest = join(dirname(require.resolve('epanet-js')), '..', 'package.json');
const version = `epanet-js ${JSON.parse(readFileSync(manifest)).version}, EPANET ${workspace.version}, Node ${process.versions.node}`;
const columns = {
  arrangement: 'text', speed: '1', q1_l_s: 'l/s', h1_m: 'm', q2_l_s: 'l/s', h2_m: 'm', static_m: 'm', resistance: 'm/(l/s)²',
  flow_l_s: 'l/s', head_m: 'm', flow1_l_s: 'l/s', flow2_l_s: 'l/s', power_kW: 'kW',
};
const rows = [];
for (const [arrangement, pumps] of [
  ['one', [[5, 12]]],
  ['one', [[0.8, 4]]],
  ['parallel', [[5, 12], [5, 12]]],
  ['parallel', [[5, 12], [3, 10]]],
  ['parallel', [[5, 12], [4, 6]]],
  ['series', [[5, 12], [5, 12]]],
  ['series', [[5, 12], [6, 7]]],
]) {
  for (const speed of [1, 0.8, 0.55]) {
    for (const staticHead of [0, 3]) {
      for (const lossCoefficient of [20, 200, 3000]) {
        const found = solve({ arrangement, pumps, speed, staticHead, lossCoefficient });
        const [second = [0, 0]] = pumps.slice(1);
        rows.push([arrangement, speed, ...pumps[0], ...second, staticHead, resistance(lossCoefficient),
          found.flow, found.head, found.flows[0], found.flows[1] ?? 0, found.power]);
      }
    }
  }
}
writeTable({
  law: 'operating point of pumps on a static head and a quadratic resistance',
  source: 'EPANET hydraulic engine: curve through (0, 4/3·h) and (q, h), affinity laws by the speed setting, throttle valve as resistance',
  version,
  units: Object.values(columns),
  tolerance: 'the engine stops its iteration within 1e-5 of the flow, and computes power with a water weight rounded to 62.4 lbf/ft³',
  notes: ['power is at 75 % efficiency, by a water weight that the engine rounds to 62.4 lbf/ft³ and a horsepower of 0.7457 kW'],
  columns: Object.keys(columns),
  rows,
});
