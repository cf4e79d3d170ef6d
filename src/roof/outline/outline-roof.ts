import { checkEdges } from './check-edges.ts';
import { checkFeatures } from './check-features.ts';
import { metres, outlineIssues, place } from './check-outline.ts';
import { checkRoof } from './check-roof.ts';
import type { DrawnArea, DrawnRoof } from './drawing.ts';
import { pointsOf } from './shapes.ts';
import type { OutlineIssue, OutlineRoof, RoofArea } from './types.ts';
import { signedAreaM2 } from './vectors.ts';

export interface ReadRoof {
  /** null where anything is refused. */
  readonly roof: OutlineRoof | null;
  /** Everything found, refusals and warnings, in the order of the drawing. */
  readonly issues: readonly OutlineIssue[];
}

/**
 * A checked roof from a drawn one: outlines turned counter-clockwise, edges typed, heights filled in. What
 * is wrong is named at its place, everything at once; what concerns several areas is looked at once each
 * is sound by itself.
 * @param path of the drawing in the file, such as 'roof'; '' for a file of its own
 */
export function outlineRoof(drawn: DrawnRoof, path = ''): ReadRoof {
  const at = path === '' ? '' : `${path}.`;
  const issues: OutlineIssue[] = [];
  const sound: RoofArea[] = [];
  const paths: string[] = [];
  drawn.areas.forEach((area, i) => {
    const areaPath = `${at}areas.${i}`;
    const read = readArea(area, areaPath);
    issues.push(...read.issues, ...sameId(drawn.areas, i, areaPath));
    if (read.area === null) return;
    sound.push(read.area);
    paths.push(areaPath);
  });
  issues.push(...sameFeatureId(drawn, at));
  if (drawn.areas.length === 0)
    issues.push({
      path: `${at}areas`,
      message: 'The roof has no areas; one or more are needed.',
      level: 'refuse',
      at: null,
    });
  // Neighbours are looked at even where another area is refused; an edge shared with that one would be a false alarm.
  const all = sound.length === drawn.areas.length;
  for (const issue of checkRoof(sound, paths))
    if (all || issue.level === 'warn' || !issue.path.includes('.edges.')) issues.push(issue);
  const refused = issues.some((issue) => issue.level === 'refuse');
  const { northDeg, access } = drawn;
  return { roof: refused ? null : { areas: sound, northDeg, access }, issues };
}

function readArea(
  drawn: DrawnArea,
  path: string,
): { readonly area: RoofArea | null; readonly issues: readonly OutlineIssue[] } {
  const name = drawn.name === '' ? `Area '${drawn.id}'` : drawn.name;
  const sizes = sizeIssues(drawn, `${path}.shape`, name);
  if (sizes.length > 0) return { area: null, issues: sizes };
  const points = pointsOf(drawn.shape);
  const shape = outlineIssues(points, `${path}.shape`, name);
  const features = checkFeatures(
    drawn.features,
    shape.length === 0 ? points : null,
    `${path}.features`,
    name,
  );
  const edges =
    points.length >= 3
      ? checkEdges(drawn, points, `${path}.edges`, name)
      : { edges: [], issues: [] };
  const issues = [...shape, ...edges.issues, ...features.issues];
  if (shape.length > 0) return { area: null, issues };
  const clockwise = signedAreaM2(points) < 0;
  const n = points.length;
  const { id, fallDeg, fallPlanDeg } = drawn;
  const area: RoofArea = {
    id,
    name,
    // Read backwards, the edge that left a point is the one that comes to it.
    points: clockwise ? points.map((_, k) => points[n - 1 - k]!) : points,
    edges: clockwise ? points.map((_, k) => edges.edges[(2 * n - 2 - k) % n]!) : edges.edges,
    fallDeg,
    fallPlanDeg,
    features: features.features,
  };
  return { area, issues };
}

/** Sizes of the simple shapes, named by what was written rather than by the edges they give. */
function sizeIssues(drawn: DrawnArea, path: string, name: string): OutlineIssue[] {
  const { shape } = drawn;
  if (shape.kind === 'polygon') return [];
  const issues: OutlineIssue[] = [];
  const refuse = (field: string, message: string): void => {
    issues.push({ path: `${path}.${field}`, message, level: 'refuse', at: shape.at });
  };
  const positive = (field: string, valueM: number): void => {
    if (!(valueM > 0))
      refuse(
        field,
        `${field} of ${name} at ${place(shape.at)} is ${metres(valueM)}; it must be more than 0.`,
      );
  };
  positive('lengthM', shape.lengthM);
  positive('widthM', shape.widthM);
  if (shape.kind === 'rectangle') return issues;
  positive('cutLengthM', shape.cutLengthM);
  positive('cutWidthM', shape.cutWidthM);
  const within = (field: string, cutM: number, whole: string, wholeM: number): void => {
    if (cutM > 0 && wholeM > 0 && cutM >= wholeM)
      refuse(
        field,
        `${field} of ${name} is ${metres(cutM)}; it must be less than ${whole}, ${metres(wholeM)}.`,
      );
  };
  within('cutLengthM', shape.cutLengthM, 'lengthM', shape.lengthM);
  within('cutWidthM', shape.cutWidthM, 'widthM', shape.widthM);
  return issues;
}

function sameId(areas: readonly DrawnArea[], i: number, path: string): OutlineIssue[] {
  const { id, shape } = areas[i]!;
  if (areas.findIndex((area) => area.id === id) === i) return [];
  const message = `Area id '${id}' is used twice; each area needs its own.`;
  return [{ path: `${path}.id`, message, level: 'refuse', at: pointsOf(shape)[0] ?? null }];
}

function sameFeatureId(drawn: DrawnRoof, at: string): OutlineIssue[] {
  const seen = new Set<string>();
  return drawn.areas.flatMap((area, i) =>
    area.features.flatMap((f, k): OutlineIssue[] => {
      if (!seen.has(f.id)) {
        seen.add(f.id);
        return [];
      }
      const path = `${at}areas.${i}.features.${k}.id`;
      const message = `Feature id '${f.id}' is used twice; each feature needs its own.`;
      return [{ path, message, level: 'refuse', at: f.at }];
    }),
  );
}
