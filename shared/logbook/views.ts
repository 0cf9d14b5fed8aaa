import type { Known } from '../quantities/estimate.ts';
import type { Quantity, VesselView } from '../vessel/view.ts';

/**
 * Many views of the boat in a third of the room that objects take: two a second of a night are kept. What comes out is what went in, to
 * the last bit (tests/shared/logbook/heard.test.ts).
 */
export interface Views {
  /** Keeps a view; returns its number, from 0. */
  keep(view: VesselView): number;
  /** The view anew: whoever gets it may keep parts of it. */
  view(index: number): VesselView;
  count(): number;
}

/** Where a member begins in its row of numbers; what is absent is NaN. The compiler misses a member of the view that has no place. */
const NUMBER = {
  at: 0,
  clockOffset: 1,
  variation: 2,
  positionSigma: 3,
  positionDoubt: 4,
  antenna: 5,
  roller: 8,
  heading: 12,
  sog: 15,
  cog: 17,
  windApparent: 19,
  windGround: 22,
  depth: 25,
  waterSpeed: 29,
  stream: 32,
  waterTemperature: 35,
  ages: 37,
  sources: 45,
} as const satisfies Record<keyof VesselView, number>;
const NUMBERS = NUMBER.sources;
/** The same in its row of words, which are kept by their number; 0: absent. */
const WORD = {
  positionDoubt: 0,
  antenna: 1,
  roller: 2,
  heading: 3,
  sog: 5,
  cog: 6,
  windApparent: 7,
  windGround: 8,
  depth: 9,
  waterSpeed: 10,
  stream: 11,
  waterTemperature: 12,
  sources: 13,
} as const satisfies { [K in keyof VesselView]?: number };
/** In the order in which a view tells them. */
const QUANTITIES: readonly Quantity[] = [
  'heading',
  'position',
  'motion',
  'wind',
  'depth',
  'water-speed',
  'stream',
  'water-temperature',
];
const WORDS = WORD.sources + 1;
/** Rows made room for at a time. */
const ROWS = 4096;

export function createViews(): Views {
  const numbers: Float64Array[] = [];
  const words: Uint32Array[] = [];
  const vocabulary: (string | undefined)[] = [undefined];
  const known = new Map<string | undefined, number>([[undefined, 0]]);
  /** Who served what: hardly ever another than a moment ago. */
  const serving: VesselView['sources'][] = [];
  const servingKnown = new Map<string, number>();
  let count = 0;

  function servingOf(sources: VesselView['sources']): number {
    const text = JSON.stringify(sources);
    let number = servingKnown.get(text);
    if (number === undefined) {
      number = serving.push(sources) - 1;
      servingKnown.set(text, number);
    }
    return number;
  }

  function numberOf(word: string | undefined): number {
    let number = known.get(word);
    if (number === undefined) {
      number = vocabulary.push(word) - 1;
      known.set(word, number);
    }
    return number;
  }

  function keep(view: VesselView): number {
    const row = count % ROWS;
    if (row === 0) {
      numbers.push(new Float64Array(ROWS * NUMBERS).fill(Number.NaN));
      words.push(new Uint32Array(ROWS * WORDS));
    }
    const n = numbers.at(-1)!.subarray(row * NUMBERS, (row + 1) * NUMBERS);
    const w = words.at(-1)!.subarray(row * WORDS, (row + 1) * WORDS);
    const put = (from: number, values: readonly (number | undefined)[]) => {
      for (let i = 0; i < values.length; i++) n[from + i] = values[i] ?? Number.NaN;
    };
    const putKnown = <K extends keyof typeof WORD & keyof typeof NUMBER>(
      member: K,
      one: Known<unknown> | undefined,
      ...values: (number | undefined)[]
    ) => {
      if (!one) return;
      put(NUMBER[member], [one.at, ...values]);
      w[WORD[member]] = numberOf(one.source);
    };
    const { at, clockOffset, variation, positionSigma, positionDoubt, antenna, roller, heading, sog, cog } =
      view;
    const { windApparent, windGround, depth, waterSpeed, stream, waterTemperature, ages, sources } = view;
    put(NUMBER.at, [at, clockOffset, variation, positionSigma, positionDoubt?.since]);
    w[WORD.positionDoubt] = numberOf(positionDoubt?.reason);
    putKnown('antenna', antenna, antenna?.value.lat, antenna?.value.lon);
    putKnown('roller', roller, roller?.value.lat, roller?.value.lon, roller?.sigma);
    putKnown('heading', heading, heading?.value, heading?.sigma);
    w[WORD.heading + 1] = numberOf(heading?.from);
    putKnown('sog', sog, sog?.value);
    putKnown('cog', cog, cog?.value);
    putKnown('windApparent', windApparent, windApparent?.value.angle, windApparent?.value.speed);
    putKnown('windGround', windGround, windGround?.value.from, windGround?.value.speed);
    putKnown('depth', depth, depth?.value.measured, depth?.value.surface, depth?.value.keel);
    putKnown('waterSpeed', waterSpeed, waterSpeed?.value.ahead, waterSpeed?.value.athwart);
    putKnown('stream', stream, stream?.value.set, stream?.value.drift);
    putKnown('waterTemperature', waterTemperature, waterTemperature?.value);
    put(
      NUMBER.ages,
      QUANTITIES.map((quantity) => ages[quantity]),
    );
    w[WORD.sources] = servingOf(sources);
    return count++;
  }

  function view(index: number): VesselView {
    const chunk = Math.floor(index / ROWS);
    const row = index % ROWS;
    const sources = serving[words[chunk]![row * WORDS + WORD.sources]!]!;
    return unpack(numbers[chunk]!, row * NUMBERS, words[chunk]!, row * WORDS, vocabulary, sources);
  }

  return { keep, view, count: () => count };
}

/** Is there a number? */
const is = (value: number): boolean => !Number.isNaN(value);

/** Written out member by member, like `view` in vessel/look.ts, since it is asked twice for each second of a night. */
function unpack(
  n: Float64Array,
  at0: number,
  w: Uint32Array,
  word0: number,
  vocabulary: readonly (string | undefined)[],
  sources: VesselView['sources'],
): VesselView {
  const at = n[at0 + NUMBER.at]!;
  // All members at once, in the order of a view: one that is added later costs as much as three that are there. Undefined is absent.
  const seen = {
    at,
    ages: {
      heading: undefined,
      position: undefined,
      motion: undefined,
      wind: undefined,
      depth: undefined,
      'water-speed': undefined,
      stream: undefined,
      'water-temperature': undefined,
    },
    sources,
    clockOffset: undefined,
    variation: undefined,
    heading: undefined,
    positionDoubt: undefined,
    positionSigma: undefined,
    antenna: undefined,
    roller: undefined,
    sog: undefined,
    cog: undefined,
    windApparent: undefined,
    windGround: undefined,
    depth: undefined,
    waterSpeed: undefined,
    stream: undefined,
    waterTemperature: undefined,
  } as unknown as VesselView;
  const number = (place: number) => n[at0 + place]!;
  const word = (place: number) => vocabulary[w[word0 + place]!]!;
  const known = <T>(value: T, from: number, source: string): Known<T> => ({
    value,
    at: from,
    age: at - from,
    source,
  });
  const offset = number(NUMBER.clockOffset);
  if (is(offset)) seen.clockOffset = offset;
  const variation = number(NUMBER.variation);
  if (is(variation)) seen.variation = variation;
  const headingAt = number(NUMBER.heading);
  if (is(headingAt))
    seen.heading = {
      value: number(NUMBER.heading + 1),
      at: headingAt,
      age: at - headingAt,
      source: word(WORD.heading),
      sigma: number(NUMBER.heading + 2),
      from: word(WORD.heading + 1) as NonNullable<VesselView['heading']>['from'],
    };
  const doubt = number(NUMBER.positionDoubt);
  if (is(doubt)) seen.positionDoubt = { reason: word(WORD.positionDoubt), since: doubt };
  const sigma = number(NUMBER.positionSigma);
  if (is(sigma)) seen.positionSigma = sigma;
  const antennaAt = number(NUMBER.antenna);
  if (is(antennaAt)) {
    const place = { lat: number(NUMBER.antenna + 1), lon: number(NUMBER.antenna + 2) };
    seen.antenna = known(place, antennaAt, word(WORD.antenna));
  }
  const rollerAt = number(NUMBER.roller);
  if (is(rollerAt))
    seen.roller = {
      value: { lat: number(NUMBER.roller + 1), lon: number(NUMBER.roller + 2) },
      at: rollerAt,
      age: at - rollerAt,
      source: word(WORD.roller),
      sigma: number(NUMBER.roller + 3),
    };
  const sogAt = number(NUMBER.sog);
  if (is(sogAt)) seen.sog = known(number(NUMBER.sog + 1), sogAt, word(WORD.sog));
  const cogAt = number(NUMBER.cog);
  if (is(cogAt)) seen.cog = known(number(NUMBER.cog + 1), cogAt, word(WORD.cog));
  const apparentAt = number(NUMBER.windApparent);
  if (is(apparentAt)) {
    const wind = { angle: number(NUMBER.windApparent + 1), speed: number(NUMBER.windApparent + 2) };
    seen.windApparent = known(wind, apparentAt, word(WORD.windApparent));
  }
  const groundAt = number(NUMBER.windGround);
  if (is(groundAt)) {
    const wind = { from: number(NUMBER.windGround + 1), speed: number(NUMBER.windGround + 2) };
    seen.windGround = known(wind, groundAt, word(WORD.windGround));
  }
  const depthAt = number(NUMBER.depth);
  if (is(depthAt)) {
    const depth: NonNullable<VesselView['depth']>['value'] = { measured: number(NUMBER.depth + 1) };
    const surface = number(NUMBER.depth + 2);
    const keel = number(NUMBER.depth + 3);
    if (is(surface)) depth.surface = surface;
    if (is(keel)) depth.keel = keel;
    seen.depth = known(depth, depthAt, word(WORD.depth));
  }
  const waterAt = number(NUMBER.waterSpeed);
  if (is(waterAt)) {
    const ahead = number(NUMBER.waterSpeed + 1);
    const athwart = number(NUMBER.waterSpeed + 2);
    seen.waterSpeed = known(is(athwart) ? { ahead, athwart } : { ahead }, waterAt, word(WORD.waterSpeed));
  }
  const streamAt = number(NUMBER.stream);
  if (is(streamAt)) {
    const stream = { set: number(NUMBER.stream + 1), drift: number(NUMBER.stream + 2) };
    seen.stream = known(stream, streamAt, word(WORD.stream));
  }
  const temperatureAt = number(NUMBER.waterTemperature);
  if (is(temperatureAt))
    seen.waterTemperature = known(
      number(NUMBER.waterTemperature + 1),
      temperatureAt,
      word(WORD.waterTemperature),
    );
  const { ages } = seen;
  const age = (place: number, quantity: Quantity) => {
    const seconds = number(NUMBER.ages + place);
    if (is(seconds)) ages[quantity] = seconds;
  };
  age(0, 'heading');
  age(1, 'position');
  age(2, 'motion');
  age(3, 'wind');
  age(4, 'depth');
  age(5, 'water-speed');
  age(6, 'stream');
  age(7, 'water-temperature');
  return seen;
}
