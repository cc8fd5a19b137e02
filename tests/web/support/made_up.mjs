// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Made-up answers of studies, well-formed and alike at every call: for what the page makes of them, not for what is true of a
// machine. Invented data about the drilling stand.

/** The same row of numbers between 0 and 1 every time. */
function numbers(seed) {
  let state = seed;
  return () => {
    state = (state * 1103515245 + 12345) % 2147483648;
    return state / 2147483648;
  };
}

const share = (part, of) => {
  const p = part / of;
  const z = 1.96;
  const middle = (p + z * z / (2 * of)) / (1 + z * z / of);
  const half = (z / (1 + z * z / of)) * Math.sqrt((p * (1 - p)) / of + (z * z) / (4 * of * of));
  return { share: p, low: Math.max(0, middle - half), high: Math.min(1, middle + half), text: `${(100 * p).toPrecision(3)} %` };
};

/** name, promised, unit, middle and width of its margins, drivers. */
const promises = [
  ['seated before any clamp moves', 'R1.A.pressure above 100 bar, S1.force above 10 kN, S2.force above 10 kN at least 20.0 ms before K1.position above 1 mm', 's', 0.014, 0.009, [['V2.setting', 0.61, 'gives room'], ['V3.setting', 0.14, 'takes room'], ['oil temperature', 0.09, 'both'], ['M1.mass', 0.05, 'takes room'], ['H12.swelling', 0.03, 'takes room'], ['R1.seal_friction', 0.02, 'takes room']]],
  ['pump line below 225 bar', 'never above 225 bar', 'bar', 9.8, 4.1, [['V3.setting', 0.93, 'takes room'], ['oil viscosity', 0.04, 'takes room']]],
  ['clamps firm while drilling', 'never below 7.50 kN', 'kN', 0.93, 0.21, [['V3.setting', 0.71, 'gives room'], ['K2.bore', 0.22, 'gives room']]],
  ['cover plate is spared', 'never above 2.80 kN', 'kN', 0.36, 0.11, [['V5.setting', 0.88, 'takes room']]],
  ['cover plate is held', 'above 2.00 kN within 3.00 s', 's', 1.34, 0.1, [['P1.flow', 0.55, 'gives room'], ['V5.setting', 0.31, 'both']]],
  ['frame stays against its stops', 'drifts less than 0.0500 mm', 'mm', 0.0229, 0.007, [['V6.leakage', 0.97, 'takes room']]],
  ['every step comes to its end', 'all steps', '', null, null, []],
];

function nearestOf(drivers, broken) {
  if (drivers.length === 0) return null;
  if (drivers.length === 1) return { found: false, inside: false, reach: null, text: 'nothing that was tried out to 3 times the tolerances', changes: [] };
  const changes = drivers.map(([name], i) => ({ name, off: -0.7 / (i + 1), text: `${name} 116 bar (−3.3 %)` }));
  return { found: true, inside: broken > 0, reach: broken > 0 ? 0.72 : 1.6, text: 'as its changes say', changes };
}

function spreadPromise([name, promised, unit, middle, width, drivers], done, random) {
  const values = middle === null ? [] : Array.from({ length: done }, () => middle + width * (random() + random() + random() + random() - 2) * 1.2);
  const sorted = [...values].sort((a, b) => a - b);
  const broken = sorted.filter((value) => value < 0).length;
  const margin = (value) => ({ value, text: `${value.toPrecision(3).replace('-', '−')} ${unit}` });
  const at = (q) => margin(sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))]);
  const counts = Array(24).fill(0);
  const [from, to] = [sorted[0], sorted[sorted.length - 1]];
  for (const value of values) counts[Math.min(23, Math.floor((24 * (value - from)) / (to - from || 1)))] += 1;
  return {
    name, promised, unit, quantity: 'any',
    nominal: { share: 0.1, text: middle === null ? 'held' : `${margin(middle).text} left`, answer: 'held' },
    broken, not_seen: 0, without_number: 0, share_broken: share(broken, done),
    margins: middle === null ? null : { least: at(0), p05: at(0.05), median: at(0.5), p95: at(0.95), most: at(1) },
    histogram: middle === null ? null : { from, to, unit, counts },
    worst: middle === null ? null : { machine: values.indexOf(from), text: `${margin(from).text} left` },
    drivers: drivers.map(([driver, part, more]) => ({ name: driver, share: part, more, text: `${driver} makes ${(100 * part).toFixed(0)} % of the differences` })),
    together: drivers.length > 1 ? 0.04 : drivers.length === 1 ? 0 : null,
    nearest: nearestOf(drivers, broken),
  };
}

const tolerances = [
  ['oil temperature', '40.0 °C', '10.0 °C', '55.0 °C', 'the job'], ['oil viscosity', '46.0 mm²/s', '41.4 mm²/s', '50.6 mm²/s', 'usual'],
  ['V2.setting', '120 bar', '114 bar', '126 bar', 'its kind'], ['V3.setting', '210 bar', '204 bar', '216 bar', 'its kind'],
  ['P1.flow', '4.00 L/min', '3.60 L/min', '4.08 L/min', 'its list'], ['M1.mass', '450 kg', '405 kg', '495 kg', 'the job'],
];

export function spreadOf(done, wanted) {
  const random = numbers(20261126);
  const rows = promises.map((promise) => spreadPromise(promise, done, random));
  const broken = Math.max(...rows.map((row) => row.broken));
  const [worst] = [...rows].sort((a, b) => b.broken - a.broken);
  return {
    kind: 'spread', title: 'Drilling stand for bogie frames', wanted, done, kept: done - broken, broken, not_proven: 0,
    answer: share(done - broken, done), shape: '6 values, each anywhere within its tolerance, all alike likely, none with another; oil 10.0 °C … 55.0 °C',
    inputs: tolerances.map(([name, stated, low, high, from]) => ({ name, stated, low, high, from })),
    worst: broken > 0 ? { machine: worst.worst.machine, promise: worst.name, text: worst.worst.text } : null,
    promises: rows,
  };
}

/** part, fault, severity, by, text, breaks. */
const faults = [
  ['V2', 'spring relaxed', 'can hurt someone', 'nothing', 'no gauge reads the pressure behind V2', ['seated before any clamp moves'], 'setting 120 bar → 114 … 72 bar'],
  ['V3', 'stuck shut', 'can damage', 'gauge', 'G1 reads 312 bar, 97 bar more than it should', ['pump line below 225 bar', 'no part above its rated pressure'], 'setting 210 bar → 700 bar'],
  ['V6', 'leaking seat', 'can hurt someone', 'motion', 'R1 sinks by 0.4 mm while it drills', ['frame stays against its stops', 'clamps firm while drilling', 'cover plate is held', 'rams come home'], 'leakage 0.5 → 40 cm³/min'],
  ['', 'tank line blocked', 'can hurt someone', 'gauge', 'G2 reads 180 bar at rest', ['rams come home', 'clamps up before the next frame'], 'a tank line of 0.5 mm bore'],
  ['P1', 'worn', 'works badly', 'motion', 'the clamps come down 1.1 s late', ['clamped in time'], 'flow 4 L/min → 3.2 … 1.6 L/min'],
  ['G1', 'sticks at what it read last', 'nothing breaks', 'nothing', '', [], 'the pointer stands'],
  ['K1', 'rod bent', 'not proven', 'nothing', '', [], 'friction 50 N → 500 … 2,000 N'],
];

export function faultsOf(count = faults.length) {
  const list = Array.from({ length: count }, (_, i) => {
    const [part, fault, severity, by, text, breaks, change] = faults[i % faults.length];
    const found = breaks.map((name) => ({ name, text: 'missed by 3.20 bar at 2.31 s in "clamp"' }));
    return {
      number: i + 1, name: part ? `${part} ${fault}` : fault, part, fault, change, severity,
      sentence: `This is what a fitter finds when there is “${fault}” after years of work, and nobody has looked.`, source: 'common practice',
      sizes: [
        { size: 'slight', change: change.split(' … ')[0], outcome: severity === 'can hurt someone' ? 'broken' : 'held', breaks: severity === 'can hurt someone' ? found.slice(0, 1) : [], ended: '' },
        { size: 'grave', change, outcome: severity === 'not proven' ? 'not proven' : breaks.length ? 'broken' : 'held', breaks: found, ended: severity === 'not proven' ? 'the pressure at K1.A changes faster than can be followed' : '' },
      ],
      breaks_from: breaks.length ? (severity === 'can hurt someone' ? 'slight: setting 114 bar' : 'grave') : null,
      shown: { by, when: by === 'gauge' ? 'before it breaks' : '', text },
      protects: severity === 'can damage' ? ['V4 opens at 230 bar'] : [],
      left_pressed: severity === 'can hurt someone' ? ['K1.A 94 bar', 'K2.A 94 bar'] : [],
    };
  });
  return { kind: 'faults', title: 'Drilling stand for bogie frames', wanted: count, done: count, faults: list, pairs: [], not_applicable: [{ name: 'V4 spring broken', reason: 'its setting is given by points' }] };
}

/**
 * Stands in for the server's part about studies in one page. `told(kind)` says what it tells; what the page wishes is kept in
 * the list that is returned.
 */
export async function standIn(page, told) {
  const wishes = [];
  let number = 0;
  await page.route(/\/api\/job\/[^/]+\/study(\/stop)?(\?|$)/, async (route) => {
    const request = route.request();
    const url = new URL(request.url());
    if (request.method() === 'POST') {
      wishes.push({ what: url.pathname.endsWith('/stop') ? 'stop' : 'begin', ...request.postDataJSON() });
      return route.fulfill({ json: {} });
    }
    const usual = { running: false, waits: false, runs_this_text: true, share: 0, left: null, trouble: '', of_this_text: true, answer: null };
    const said = { ...usual, ...told(url.searchParams.get('kind'), wishes) };
    return route.fulfill({ json: { ...said, number: said.answer ? ++number : 0 } });
  });
  return wishes;
}

/** What readings say of the drilling stand: made up, on the list of what can be read that the server gives. */
export async function standInForReadings(page) {
  const group = (suspects, share, more = {}) => ({ suspects, share, sentence: 'The valve opens before the pressure is there.', why: '', against: [], is_sound: false, ...more });
  await page.route(/\/api\/job\/[^/]+\/readings(\?|$)/, async (route) => {
    const response = await route.fetch();
    const said = await response.json();
    if (route.request().method() === 'GET') {
      const watches = said.watches.map((watch) => ({ ...watch, band: watch.comes ? `${watch.sound} … ${watch.sound}` : null }));
      return route.fulfill({ json: { ...said, ready: true, watches } });
    }
    const { readings } = route.request().postDataJSON();
    const wrong = new Set(said.complaints.map(({ key }) => key));
    const marks = readings.filter(({ key }) => !wrong.has(key)).map(({ key, text }) => ({ key, mark: text === 'none' ? 'missing' : 'below' }));
    const answer = {
      ask_first: ['Oil level: between the marks with all actuators home?'],
      groups: [
        group(['V3 spring relaxed: setting 152 bar', 'V3 set too low: setting 150 bar'], 0.62, { why: 'G1 152 bar, with this 152 bar, sound 205 bar' }),
        group(['P1 worn: flow 8.00 L/min'], 0.31, { against: ['G1: 152 bar, with this and the other readings 190 bar'] }),
        group(['nothing wrong', 'V6 leaks'], 0.002, { is_sound: true }),
        group(['oil too thin'], 0.001),
      ],
      next: [{ key: readings[0]?.key ?? '', name: 'the first of them once more', shows: ['about 152 bar: V3 spring relaxed'] }],
    };
    return route.fulfill({ json: { ...said, ready: true, marks, answer } });
  });
}
