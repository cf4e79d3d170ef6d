import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { issueSentences, roofDrawingSchema } from '../../src/contract/index.ts';
import { measureRoof, outlineRoof, type Point } from '../../src/roof/index.ts';

/** A drawn roof at the door: every fault is a sentence at its place, and nothing written there can throw. */

const square = { kind: 'rectangle', lengthM: 10, widthM: 8 };
const edges = {
  low: { kind: 'gutter' },
  right: { kind: 'verge' },
  high: { kind: 'abutment' },
  left: { kind: 'verge' },
};
const main = { id: 'a', name: 'Main roof', shape: square, edges };
const round = (id: string, at: Point, sizeM = 0.1) => ({
  id,
  kind: 'pipe',
  at,
  sizeM: [sizeM, sizeM],
});
const polygon = (points: readonly Point[], count = points.length) => ({
  ...main,
  shape: { kind: 'polygon', points },
  edges: Array.from({ length: count }, () => ({ kind: 'gutter' })),
});

function read(...areas: readonly unknown[]) {
  const parsed = roofDrawingSchema.safeParse({ areas });
  if (!parsed.success)
    return {
      roof: null,
      issues: issueSentences(parsed.error, { areas }).map((i) => ({
        ...i,
        level: 'refuse',
        at: null,
      })),
    };
  return outlineRoof(parsed.data, 'roof');
}

const refused = (...areas: readonly unknown[]) => {
  const { roof, issues } = read(...areas);
  expect(roof).toBeNull();
  return issues.filter((issue) => issue.level === 'refuse');
};

describe('a sound drawing', () => {
  it('is taken as it is, with the usual heights where none are given', () => {
    const { roof, issues } = read(main);
    expect(issues).toEqual([]);
    expect(roof?.areas[0]?.edges.map((e) => [e.kind, e.upstandMm])).toEqual([
      ['gutter', 0],
      ['verge', 0],
      ['abutment', 150],
      ['verge', 0],
    ]);
  });

  it('keeps each edge with its line when the points are written clockwise', () => {
    const points: Point[] = [
      [0, 0],
      [0, 8],
      [10, 8],
      [10, 0],
    ];
    const kinds = ['verge', 'abutment', 'kerb', 'gutter'];
    const { roof } = read({
      ...main,
      shape: { kind: 'polygon', points },
      edges: kinds.map((kind) => ({ kind })),
    });
    const area = roof!.areas[0]!;
    const at = (kind: string): Point => {
      const i = area.edges.findIndex((e) => e.kind === kind);
      const [a, b] = [area.points[i]!, area.points[(i + 1) % 4]!];
      return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    };
    expect(at('verge')).toEqual([0, 4]);
    expect(at('abutment')).toEqual([5, 8]);
    expect(at('kerb')).toEqual([10, 4]);
    expect(at('gutter')).toEqual([5, 0]);
    expect(measureRoof(roof!).planM2).toBe(80);
  });
});

describe('a fault is named in a sentence, at its place', () => {
  it('an outline that crosses itself', () => {
    const found = refused(
      polygon([
        [0, 0],
        [4, 4],
        [4, 0],
        [0, 4],
      ]),
    );
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ path: 'roof.areas.0.shape', at: [2, 2] });
    expect(found[0]?.message).toBe(
      'Edges 1 and 3 of Main roof cross or touch at (2, 2); an outline may not meet itself.',
    );
  });

  it('an outline that touches itself in a corner', () => {
    const found = refused(
      polygon([
        [0, 0],
        [8, 0],
        [8, 4],
        [4, 0],
        [0, 4],
      ]),
    );
    expect(found[0]).toMatchObject({ at: [4, 0] });
  });

  it('an edge without length, such as a first point repeated at the end', () => {
    const found = refused(
      polygon([
        [0, 0],
        [4, 0],
        [4, 4],
        [0, 0],
      ]),
    );
    expect(found.map((i) => i.message)).toEqual([
      'Edge 4 of Main roof is 0 m long at (0, 0); 1 mm or more is needed. The first point is not repeated at the end.',
    ]);
    expect(refused({ ...main, shape: { ...square, lengthM: 0 } })[0]).toMatchObject({
      path: 'roof.areas.0.shape.lengthM',
      message: 'lengthM of Main roof at (0, 0) is 0 m; it must be more than 0.',
    });
  });

  it('an outline that folds back on itself or encloses nothing', () => {
    expect(
      refused(
        polygon([
          [0, 0],
          [5, 0],
          [2, 0],
          [2, 3],
        ]),
      )[0]?.message,
    ).toContain('fold back');
    expect(
      refused(
        polygon([
          [0, 0],
          [5, 0],
          [10, 0],
        ]),
      ).length,
    ).toBeGreaterThan(0);
    expect(
      refused(
        polygon([
          [0, 0],
          [0.1, 0],
          [0, 0.1],
        ]),
      )[0]?.message,
    ).toContain('encloses 0.005 m2');
    expect(
      refused(
        polygon([
          [0, 0],
          [1, 1],
        ]),
      )[0]?.message,
    ).toContain('has 2 points');
  });

  it('an edge without a type, of a list and by side', () => {
    const points: Point[] = [
      [0, 0],
      [4, 0],
      [4, 4],
      [0, 4],
    ];
    expect(refused(polygon(points, 3))[0]).toMatchObject({
      path: 'roof.areas.0.edges.3',
      at: [0, 2],
      message:
        'Edge 4 of Main roof (4 m long, middle at (0, 2)) has no type; it must be one of gutter, verge, kerb, abutment, parapet, boundary, shared.',
    });
    expect(refused(polygon(points, 6))[0]?.message).toContain('has 4 edges, but 6 are typed');
    const { left: _left, ...three } = edges;
    expect(refused({ ...main, edges: three })[0]).toMatchObject({
      path: 'roof.areas.0.edges.left',
      at: [0, 4],
    });
    expect(
      refused({ ...main, edges: { ...edges, cutWidth: { kind: 'verge' } } })[0]?.message,
    ).toContain("no side 'cutWidth'");
    expect(refused({ ...main, edges: [{ kind: 'eaves' }] })[0]).toMatchObject({
      path: 'areas.0.edges.0.kind',
    });
  });

  it('an upstand lower than usual is questioned and kept; one where nothing goes up is refused', () => {
    const { roof, issues } = read({
      ...main,
      edges: { ...edges, high: { kind: 'parapet', upstandMm: 90 } },
    });
    expect(roof?.areas[0]?.edges[2]).toMatchObject({ kind: 'parapet', upstandMm: 90 });
    expect(issues).toEqual([
      {
        path: 'roof.areas.0.edges.high',
        message:
          "Side 'high' of Main roof has an upstand of 90 mm; 150 mm or more is usual. Kept as given.",
        level: 'warn',
        at: [5, 8],
      },
    ]);
    expect(
      refused({ ...main, edges: { ...edges, left: { kind: 'verge', upstandMm: 50 } } })[0]?.message,
    ).toContain('verge with an upstand of 50 mm');
  });

  it('a feature outside the roof, over an edge, over another', () => {
    const features = [
      round('out', [12, 2]),
      round('over', [9.97, 4]),
      { id: 'light', kind: 'rooflight', at: [4, 4], sizeM: [2, 1] },
      round('under', [5.02, 4]),
      { id: 'turned', kind: 'rooflight', at: [7, 1], sizeM: [2, 1.9], turnDeg: 45 },
      { id: 'oval', kind: 'outlet', at: [2, 2], sizeM: [0.1, 0.2] },
    ];
    const found = refused({ ...main, features });
    expect(found.map((i) => [i.path.split('.').pop(), i.at, i.message])).toEqual([
      ['5', [2, 2], "Outlet 'oval' is 0.1 x 0.2 m; it is round, so give its diameter twice."],
      ['0', [12, 2], "Pipe 'out' at (12, 2) lies outside Main roof."],
      ['1', [9.97, 4], "Pipe 'over' at (9.97, 4) runs over edge 2 of Main roof."],
      ['4', [7, 1], "Rooflight 'turned' at (7, 1) runs over edge 1 of Main roof."],
      [
        '3',
        [5.02, 4],
        "Rooflight 'light' at (4, 4) and Pipe 'under' at (5.02, 4) overlap in Main roof.",
      ],
    ]);
  });

  it('areas that overlap', () => {
    const other = { ...main, id: 'b', name: 'Porch', shape: { ...square, at: [9, 6] } };
    const found = refused(main, other);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ path: 'roof.areas.1', at: [9.5, 7] });
    expect(found[0]?.message).toBe('Main roof and Porch overlap by 2 m2 round (9.5, 7).');
  });

  it('a shared edge that nothing lies along, or that only one side calls shared', () => {
    const low = { ...main, edges: { ...edges, high: { kind: 'shared' } } };
    expect(refused(low)[0]).toMatchObject({ path: 'roof.areas.0.edges.2', at: [5, 8] });
    const short = {
      id: 'b',
      name: 'Back',
      shape: { kind: 'rectangle', lengthM: 7, widthM: 2, at: [0, 8] },
      edges: { ...edges, low: { kind: 'shared' } },
    };
    const found = refused(low, short);
    expect(found.map((i) => [i.at, i.message])).toEqual([
      [
        [8.5, 8],
        'Edge 3 of Main roof is of type shared, but for 3 m round (8.5, 8) no other area lies along it.',
      ],
    ]);
    const own = { ...short, shape: { ...short.shape, lengthM: 10 }, edges };
    expect(refused(low, own)[0]?.message).toContain('both must be shared, or neither');
  });

  it('an L whose cut-out is as large as itself', () => {
    const shape = {
      kind: 'l-shape',
      lengthM: 5,
      widthM: 4,
      cutLengthM: 5,
      cutWidthM: 6,
      cutCorner: 'low-left',
    };
    expect(refused({ ...main, shape }).map((i) => i.path)).toEqual([
      'roof.areas.0.shape.cutLengthM',
      'roof.areas.0.shape.cutWidthM',
    ]);
  });

  it('water that has no way off is said, and kept', () => {
    const dry = { ...main, edges: { ...edges, low: { kind: 'verge' } } };
    const uphill = { ...main, fallPlanDeg: 0 };
    for (const area of [dry, uphill]) {
      const { roof, issues } = read(area);
      expect(roof).not.toBeNull();
      expect(issues.map((i) => i.level)).toEqual(['warn']);
    }
  });

  it('everything at once', () => {
    const bad = polygon(
      [
        [0, 0],
        [4, 4],
        [4, 0],
        [0, 4],
      ],
      3,
    );
    const other = { ...main, id: 'b', features: [round('x', [50, 2]), round('x', [50, 3])] };
    expect(refused(bad, other).length).toBe(5);
  });
});

describe('whatever is written', () => {
  const sentence = /^[A-Z'a-z].*\.$/s;

  it('garbage gets sentences and never throws', () => {
    fc.assert(
      fc.property(fc.anything({ withNullPrototype: true }), fc.anything(), (one, other) => {
        for (const issue of read(one, { ...main, shape: other }, { ...main, edges: other }).issues)
          expect(issue.message).toMatch(sentence);
      }),
      { numRuns: 300 },
    );
  });

  it('any points, types and features are read or refused, and what is read can be measured', () => {
    const at = fc.tuple(fc.integer({ min: -6, max: 6 }), fc.integer({ min: -6, max: 6 }));
    // Mostly sound, so that enough drawings come through to be measured.
    const kind = fc.oneof(
      { weight: 30, arbitrary: fc.constantFrom('gutter', 'verge', 'abutment') },
      { weight: 1, arbitrary: fc.constantFrom('shared', null) },
    );
    const area = fc.record({
      shape: fc.oneof(
        fc.record({ kind: fc.constant('polygon'), points: fc.array(at, { maxLength: 9 }) }),
        fc.record({ kind: fc.constant('rectangle'), lengthM: fc.nat(6), widthM: fc.nat(6), at }),
      ),
      fallPlanDeg: fc.integer({ min: 0, max: 360 }),
      edges: fc.array(fc.record({ kind }), { minLength: 9, maxLength: 9 }),
      fits: fc.integer({ min: 0, max: 9 }).map((tenth) => tenth > 0),
      features: fc.array(
        fc.record({
          id: fc.constantFrom('p', 'q', 'r', 's'),
          kind: fc.constantFrom('pipe', 'rooflight', 'outlet'),
          at,
          sizeM: fc.tuple(fc.nat(2), fc.nat(2)),
          turnDeg: fc.integer({ min: -90, max: 90 }),
        }),
        { maxLength: 3 },
      ),
    });
    let readable = 0;
    fc.assert(
      fc.property(fc.array(area, { minLength: 1, maxLength: 3 }), (areas) => {
        const named = areas.map(({ fits, ...a }, i) => {
          const count = 'points' in a.shape ? a.shape.points.length : 4;
          const features = a.features.map((f) => ({ ...f, id: fits ? `${i}${f.id}` : f.id }));
          return { ...a, id: `a${i}`, features, edges: fits ? a.edges.slice(0, count) : a.edges };
        });
        const { roof, issues } = read(...named);
        for (const issue of issues) {
          expect(issue.message).toMatch(sentence);
          expect(issue.message).not.toMatch(/NaN|undefined|Infinity|null/);
        }
        expect(roof === null).toBe(issues.some((i) => i.level === 'refuse'));
        if (roof === null) return;
        readable += 1;
        const m = measureRoof(roof);
        expect(m.fieldM2 + m.perimeterStripM2).toBeCloseTo(m.surfaceM2, 4);
      }),
      { numRuns: 2000 },
    );
    expect(readable).toBeGreaterThan(20);
  });
});
