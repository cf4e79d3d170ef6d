import { describe, expect, it } from 'vitest';
import type { WorkItem } from '../../src/contract/index.ts';
import { groupWork } from '../../web/src/day/group-work.ts';

let made = 0;
/** A closing made without naming its coat closes the one made last. */
let lastCoat = '';
function item(stage: string, part: Partial<WorkItem> = {}): WorkItem {
  made += 1;
  return {
    id: `item-${made}`,
    closes: null,
    stage,
    title: `${stage} ${made}`,
    startMs: made * 60_000,
    endMs: (made + 1) * 60_000,
    earlyMs: made * 60_000,
    lateMs: made * 60_000,
    people: 2,
    quantity: null,
    product: null,
    coats: null,
    wait: null,
    clock: null,
    rainAfter: null,
    lastSafeStartMs: null,
    holdPoints: [],
    cautions: [],
    ifRain: '',
    noReturn: false,
    oneGo: false,
    ...part,
  };
}
const coat = (part: Partial<WorkItem> = {}): WorkItem => {
  const made = item('field', {
    clock: {
      touchDryMs: null,
      touchDryEarlyMs: null,
      touchDryLateMs: null,
      usableUntilMs: null,
      closeWhileWet: true,
    },
    ...part,
  });
  lastCoat = made.id;
  return made;
};
const close = (of?: WorkItem) => item('field', { closes: of?.id ?? lastCoat });

describe('the order of work as lines', () => {
  it('folds coat and close pairs of one stage into one line, every item kept', () => {
    const items = [item('set-out'), coat(), close(), coat(), close(), item('check')];
    const lines = groupWork(items);
    expect(lines.map((line) => line.kind)).toEqual(['one', 'sections', 'one']);
    expect(lines.map((line) => line.number)).toEqual([1, 2, 3]);
    const kept = lines.flatMap((line) => (line.kind === 'one' ? [line.item] : line.items));
    expect(kept).toEqual(items);
  });

  it('gives each coat the closing that names it, also where the later one is closed first', () => {
    const [a, b] = [coat(), coat()];
    const [closeB, closeA] = [close(b), close(a)];
    const [line] = groupWork([a, b, closeB, closeA]);
    if (line?.kind !== 'sections') throw new Error('expected sections');
    expect(line.sections).toEqual([
      { coat: a, close: closeA },
      { coat: b, close: closeB },
    ]);
  });

  it('keeps a lone pair and other stages as single lines', () => {
    const lines = groupWork([coat(), close(), item('details'), item('details')]);
    expect(lines.map((line) => line.kind)).toEqual(['one', 'one', 'one', 'one']);
  });

  it('does not fold over another stage in between', () => {
    const lines = groupWork([coat(), close(), item('details'), coat(), close()]);
    expect(lines).toHaveLength(5);
  });

  it('names one point of no return; later ones only say that they cannot be undone', () => {
    const lines = groupWork([
      item('open-up', { noReturn: true }),
      item('set-out'),
      item('perimeter', { noReturn: true }),
    ]);
    expect(lines.map((line) => line.noReturn)).toEqual(['first', 'no', 'again']);
  });

  it('points back to the line above where the words for rain are the same', () => {
    const lines = groupWork([
      item('a', { ifRain: 'stop' }),
      item('b', { ifRain: 'stop' }),
      item('c', { ifRain: 'stop' }),
      item('d', { ifRain: 'seal' }),
    ]);
    expect(lines.map((line) => line.ifRainAsFor)).toEqual([null, 1, 1, null]);
  });
});
