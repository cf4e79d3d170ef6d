import { Screen } from '../parts/Screen.tsx';

export function NotFoundScreen() {
  return (
    <Screen title="No such page">
      <p>
        This address leads nowhere in Layfair; the link may be old or mistyped.{' '}
        <a href="/">All jobs</a>
      </p>
    </Screen>
  );
}
