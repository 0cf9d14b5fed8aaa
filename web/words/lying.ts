/** Every word of what the watch page tells below its figures: side view, dial, strip, and the offer to move the mark. */
export const lyingWords = {
  coming: 'Loading more of the watch…',

  offer: {
    region: 'Offer to move the mark',
    title: (moved: string, spread: string, towards: string) =>
      `The anchor has probably dug in ${moved} (${spread}) to ${towards} of its mark.`,
    means:
      'With the mark moved there, distance and circle are measured from where the anchor lies, and what it moves from then on is found earlier. Nothing on board moves.',
    accept: 'Move the mark there',
    notNow: 'Not now',
  },

  fromTrack: {
    title: 'From the track that she has swept',
    means:
      'For a mark that was forgotten: hawse fits the anchor to the arc of her track, with the radius that the cable allows.',
    find: 'Find it from the track',
    found: (spread: string) => `Found and set; known to ${spread}.`,
    foundPlain: 'Found and set.',
  },

  side: {
    title: 'From the side',
    drawing: (veered: string, depth: string, distance: string) =>
      `Side view to scale: ${veered} of cable in ${depth} of water, the roller ${distance} from the anchor.`,
    distance: (distance: string) => `now ${distance}`,
    cable: (veered: string) => `cable ${veered}`,
    supposed: (veered: string) => `cable ${veered}?`,
    low: (depth: string) => `low ${depth}`,
    now: (depth: string) => `depth ${depth}`,
    keel: (depth: string) => `${depth} under the keel`,
    keelLow: (depth: string) => `${depth} under the keel at low water`,
    aground: (depth: string) => `${depth} too little under the keel`,
    onBottom: (length: string) => `${length} on the bottom`,
    reach: (reach: string, spread: string) =>
      `Band: where the cable holds her in this wind, ${reach} (${spread}).`,
    dashed: (time: string) => `Dashed: low water at ${time}.`,
    noTide: 'The tide is not known.',
    isSupposed: 'The length of cable is supposed from how she lies: nobody has told it.',
    beyond: (excess: string) => `The fix is ${excess} farther than this cable reaches; drawn straight.`,
    missing: {
      mark: 'No side view: there is no mark.',
      weighing: 'No side view while the cable comes in.',
      veered: 'No side view: the cable veered is not told.',
      depth: 'No side view: the depth below the surface is not known now.',
      place: 'No side view: where she lies is not known now.',
      tooFar: (excess: string) =>
        `No side view: she lies ${excess} farther from the mark than this cable reaches. Look at the plan.`,
      cable: 'No side view: the cable as told does not reach the bottom.',
    },
  },

  dial: {
    title: 'Wind and bow in the last hour',
    how: 'Time runs from the middle to the rim. Thick: where the wind came from. Dotted: where the bow pointed.',
    drawing: 'Dial of the last hour, north up.',
    wind: 'Wind',
    from: (least: string, most: string) => `from ${least} to ${most}`,
    speeds: (least: string, most: string) => `${least} to ${most}`,
    noWind: 'not heard',
    bow: 'Bow',
    swings: (angle: string, about: string) => `swings ${angle} about ${about}`,
    noBow: 'not known',
    stream: 'Stream',
    sets: (drift: string, set: string) => `${drift} setting ${set}`,
    noStream: 'not known',
    lies: {
      wind: 'She lies to the wind.',
      stream: 'She lies to the stream.',
      both: 'She lies to wind and stream.',
    },
    apart: (angle: string) => `They push ${angle} apart.`,
  },

  strip: {
    title: 'The last hours',
    waiting: 'Filled once a minute while the anchor is watched.',
    distance: 'From the mark; soft: reach',
    moved: 'Chance that it moved',
    wind: 'Wind, least to most',
    circle: 'circle',
    summary: (hours: string, farthest: string, at: string) =>
      `Last ${hours}: farthest ${farthest} from the mark at ${at}`,
    chance: (percent: string) => `chance that the anchor moved at most ${percent}`,
    winds: (least: string, most: string) => `wind ${least} to ${most}`,
  },
};
