import { UPSTAND_USUAL_MM } from '../practice.ts';
import { place, TOUCH_M } from './check-outline.ts';
import type { DrawnFeature } from './drawing.ts';
import { areNearer, isNearer, isRound } from './features.ts';
import type { Feature, OutlineIssue, Point } from './types.ts';
import { isInside } from './vectors.ts';

/** Features of an area, and what is wrong with them. `points` null where the outline itself is refused. */
export function checkFeatures(
  drawn: readonly DrawnFeature[],
  points: readonly Point[] | null,
  path: string,
  name: string,
): { readonly features: readonly Feature[]; readonly issues: OutlineIssue[] } {
  const issues: OutlineIssue[] = [];
  const features = drawn.map((f, i): Feature => {
    const add = (level: OutlineIssue['level'], message: string): void => {
      issues.push({ path: `${path}.${i}`, message, level, at: f.at });
    };
    const label = labelOf(f);
    const [sizeX, sizeY] = f.sizeM;
    if (!(sizeX > 0 && sizeY > 0))
      add('refuse', `${label} is ${sizeX} x ${sizeY} m; both must be more than 0.`);
    else if (isRound(f) && sizeX !== sizeY)
      add('refuse', `${label} is ${sizeX} x ${sizeY} m; it is round, so give its diameter twice.`);
    const usualMm = f.kind === 'outlet' ? 0 : UPSTAND_USUAL_MM;
    const upstandMm = f.upstandMm ?? usualMm;
    if (f.kind === 'outlet' && upstandMm > 0)
      add('refuse', `${label} has an upstand of ${upstandMm} mm; an outlet lies low and has none.`);
    if (upstandMm < usualMm)
      add(
        'warn',
        `${label} has an upstand of ${upstandMm} mm; ${usualMm} mm or more is usual. Kept as given.`,
      );
    return {
      id: f.id,
      kind: f.kind,
      at: f.at,
      sizeM: f.sizeM,
      upstandMm,
      turnDeg: isRound(f) ? 0 : f.turnDeg,
    };
  });
  const sound = features.filter((f) => f.sizeM[0] > 0 && f.sizeM[1] > 0);
  if (points !== null) {
    for (const f of sound) {
      const at = f.at;
      const fPath = `${path}.${features.indexOf(f)}`;
      if (!isInside(at, points)) {
        const message = `${labelOf(f)} at ${place(at)} lies outside ${name}.`;
        issues.push({ path: fPath, message, level: 'refuse', at });
        continue;
      }
      const edge = points.findIndex((a, i) =>
        isNearer(f, a, points[(i + 1) % points.length]!, TOUCH_M),
      );
      if (edge >= 0) {
        const message = `${labelOf(f)} at ${place(at)} runs over edge ${edge + 1} of ${name}.`;
        issues.push({ path: fPath, message, level: 'refuse', at });
      }
    }
  }
  sound.forEach((g, i) => {
    const f = sound.slice(0, i).find((earlier) => areNearer(earlier, g, TOUCH_M));
    if (f === undefined) return;
    const message = `${labelOf(f)} at ${place(f.at)} and ${labelOf(g)} at ${place(g.at)} overlap in ${name}.`;
    issues.push({ path: `${path}.${features.indexOf(g)}`, message, level: 'refuse', at: g.at });
  });
  return { features, issues };
}

function labelOf(feature: Pick<Feature, 'kind' | 'id'>): string {
  const kind = feature.kind;
  return `${kind[0]!.toUpperCase()}${kind.slice(1)} '${feature.id}'`;
}
